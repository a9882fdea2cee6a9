// One debrief, one athlete: whose ride it is stands in the debrief, and everything that is said follows from there.
import { cp, mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { made } from "./deskParts.ts";
import { type OpenDesk, openDesk, putRide } from "./openDesk.ts";

let open: OpenDesk;
beforeEach(async () => {
  open = await openDesk();
});
afterEach(() => open.close());

/** An athlete in a folder of their own. */
async function athlete(name: string, more: object = {}) {
  const people = open.path("people");
  await mkdir(people, { recursive: true });
  return open.api.saveAthlete(open.id(people), {
    schema: 1,
    name,
    language: "en",
    units: "metric",
    events: [],
    homeZone: null,
    preset: "share",
    lessonConsent: null,
    road: { targetW: 185, toleranceW: 12, meterOffsetW: 0 },
    trainer: { targetW: null, toleranceW: null, meterOffsetW: 0 },
    ...more,
  });
}

/** The demo's ride on the desk, with a note, so that it is saved. */
async function ride(name: string, laterDays = 0): Promise<string> {
  await open.api.addFiles([open.id(await putRide(open.path("rides"), name, laterDays))]);
  await made({ part: "words", value: { ...open.view().document.words, notes: "n" }, label: "note" }, open);
  await open.api.saveNow();
  return open.view().folder;
}

const athletePathIn = async (folder: string) =>
  (JSON.parse(await readFile(join(folder, "debrief.json"), "utf8")) as { athletePath: string | null }).athletePath;

describe("one debrief, one athlete", () => {
  it("begins a new desk for an athlete and leaves the open debrief whose it was", async () => {
    const [mira, tom] = [await athlete("Mira Voss"), await athlete("Tom Arent")];
    await open.api.beginDebrief(mira.id);
    const first = await ride("one.fit");
    await open.api.beginDebrief(tom.id);
    expect(open.view()).toMatchObject({ athleteName: "Tom Arent", athleteId: tom.id, files: [], undo: null });
    expect(await athletePathIn(first)).toBe("..");
    await open.api.openDebrief(open.id(first), false);
    expect(open.view()).toMatchObject({ athleteName: "Mira Voss", athleteId: mira.id });
  });

  it("shows nobody after the athlete was undone, and the athlete after that was done again", async () => {
    const mira = await athlete("Mira Voss");
    await ride("one.fit");
    await open.api.useAthlete(mira.id);
    expect(open.view()).toMatchObject({ athleteId: mira.id, document: { plan: { targetW: 185 } } });
    await open.api.undo();
    expect(open.view()).toMatchObject({ athleteId: null, athleteName: null, document: { plan: { targetW: null } } });
    await open.api.redo();
    expect(open.view()).toMatchObject({ athleteId: mira.id, athleteName: "Mira Voss" });
  });

  it("knows the athlete of a debrief that the command line made", async () => {
    const mira = await athlete("Mira Voss");
    await open.api.beginDebrief(mira.id);
    const folder = await ride("one.fit");
    const other = await openDesk(open.folder);
    // Another state folder: this desk has never heard of the athlete.
    process.env.FOLLOWCAR_STATE = open.path("fresh");
    await open.api.closeDebrief();
    await other.api.openDebrief(other.id(folder), true);
    expect(other.view().athleteName).toBe("Mira Voss");
    expect((await other.api.athletes()).map(({ id }) => id)).toEqual([other.view().athleteId]);
    await other.close();
  });

  it("counts an athlete's debriefs that lie elsewhere, and tells recent ones apart", async () => {
    const mira = await athlete("Mira Voss");
    await ride("one.fit");
    await open.api.useAthlete(mira.id);
    await open.api.saveNow();
    await open.api.beginDebrief(mira.id);
    await ride("two.fit");
    expect((await open.api.athletes())[0]!.debriefs).toBe(2);
    const recent = await open.api.recent();
    expect(recent.map(({ title, rider, setting }) => ({ title, rider, setting }))).toEqual([
      { title: "two.fit", rider: "Mira Voss", setting: "road" },
      { title: "one.fit", rider: "Mira Voss", setting: "road" },
    ]);
    // The demo's main part, from the tenth minute (no plan of it here: the usual minutes are left out at both ends).
    for (const { mainS } of recent) expect(mainS).toBeGreaterThan(3600);
  });

  it("shows all of them in the athlete's weeks and earlier plans, those a folder deeper and those elsewhere", async () => {
    const mira = await athlete("Mira Voss");
    const elsewhere = await ride("one.fit");
    await open.api.useAthlete(mira.id);
    await made({ part: "plan", value: { ...open.view().document.plan, targetW: 171 }, label: "target" }, open);
    await open.api.saveNow();
    await open.api.beginDebrief(mira.id);
    await ride("two.fit", 7);
    await open.api.saveNow();
    expect(elsewhere.startsWith(mira.folder)).toBe(false);
    const { html } = await open.api.weeksPage(mira.id);
    expect(html.match(/<tbody>[^]*?<\/tbody>/)?.[0].match(/<tr\b/g)).toHaveLength(2);
    const plans = await open.api.earlierPlans();
    expect(plans.map(({ targetW }) => targetW)).toContain(171);
    // In a folder of the athlete's folders it counts as well.
    const deeper = join(mira.folder, "2026", "spring");
    await open.api.closeDebrief();
    await cp(elsewhere, deeper, { recursive: true });
    const document = JSON.parse(await readFile(join(deeper, "debrief.json"), "utf8")) as { athletePath: string };
    await writeFile(join(deeper, "debrief.json"), JSON.stringify({ ...document, athletePath: "../.." }));
    await open.api.openDebrief(open.id(deeper), true);
    expect((await open.api.athletes())[0]!.debriefs).toBe(3);
  });

  it("lists the athlete's own files as what is lost, never the pictures kept for everybody", async () => {
    const mira = await athlete("Mira Voss");
    await open.api.beginDebrief(mira.id);
    await ride("one.fit");
    const cached = join(open.path("cache"), "proxies");
    await mkdir(cached, { recursive: true });
    await putRide(cached, "anybody.mp4");
    const { files } = await open.api.filesOfAthlete(mira.id);
    expect(files.some((path) => path.endsWith("debrief.json"))).toBe(true);
    expect(files.filter((path) => path.startsWith(open.path("cache")))).toEqual([]);
    // Also while one of their debriefs is open: its lock goes with it.
    await open.api.deleteAthlete(mira.id, "Mira Voss");
    expect(await open.api.athletes()).toEqual([]);
  });
});
