// What was asked: by a plan file put on the desk, or as an earlier ride of the athlete was asked.
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { made } from "./deskParts.ts";
import { type OpenDesk, openDesk, putRide } from "./openDesk.ts";

let open: OpenDesk;
beforeEach(async () => {
  open = await openDesk();
});
afterEach(() => open.close());

async function planFile(name: string, text: string): Promise<string> {
  const folder = open.path("plans");
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, name), text);
  return open.id(join(folder, name));
}

const ASKED = JSON.stringify({ target: 171, tolerance: 9, warmUp: "15 min", setting: "trainer" });

describe("a plan file on the desk", () => {
  it("says what was asked, before the ride as after it, and can be undone", async () => {
    await open.api.addFiles([await planFile("sunday.json", ASKED)]);
    const plan = { targetW: 171, toleranceW: 9, warmUpS: 900, setting: "trainer" };
    expect(open.view().document.plan).toMatchObject(plan);
    await open.api.addFiles([open.id(await putRide(open.path("rides"), "one.fit"))]);
    expect(open.view().document.plan).toMatchObject(plan);
    expect(open.view().reading?.bandW?.target).toBe(171);
    await open.api.addFiles([await planFile("other.json", JSON.stringify({ target: 150 }))]);
    expect(open.view().document.plan).toMatchObject({ targetW: 150, setting: "trainer" });
    expect(open.view().undo).toBe("plan of other.json");
    await open.api.undo();
    expect(open.view().document.plan).toMatchObject(plan);
  });

  it("comes with its ride in one drop", async () => {
    await open.api.addFiles([await planFile("a.json", ASKED), open.id(await putRide(open.path("rides"), "one.fit"))]);
    expect(open.view().files.map(({ name }) => name)).toEqual(["one.fit"]);
    expect(open.view().document.plan.targetW).toBe(171);
  });

  it("is listed with what is wrong where it is no plan, and changes nothing", async () => {
    await open.api.addFiles([open.id(await putRide(open.path("rides"), "one.fit"))]);
    const before = open.view().document.plan;
    await open.api.addFiles([await planFile("odd.json", JSON.stringify({ target: "many" }))]);
    await open.api.addFiles([await planFile("torn.json", "{ target")]);
    expect(
      open
        .view()
        .files.filter(({ kind }) => kind === "unusable")
        .map(({ name }) => name),
    ).toEqual(["odd.json", "torn.json"]);
    expect(open.view().document.plan).toEqual(before);
  });
});

describe("an earlier plan of the athlete", () => {
  it("is asked once more, without the earlier day's note, meter or ticks", async () => {
    const people = open.path("people");
    await mkdir(people, { recursive: true });
    const mira = await open.api.saveAthlete(open.id(people), {
      schema: 1,
      name: "Mira Voss",
      language: "en",
      units: "metric",
      events: [],
      homeZone: null,
      preset: "share",
      lessonConsent: null,
      road: { targetW: 185, toleranceW: 12, meterOffsetW: 0 },
      trainer: { targetW: null, toleranceW: null, meterOffsetW: 0 },
    });
    expect(await open.api.state()).toMatchObject({ debrief: null });
    await open.api.beginDebrief(mira.id);
    await open.api.addFiles([open.id(await putRide(open.path("rides"), "one.fit"))]);
    const { plan } = open.view().document;
    await made(
      {
        part: "plan",
        value: {
          ...plan,
          title: "Long and level",
          targetW: 166,
          meterOffsetW: 5,
          skills: [{ skill: "drops", repeats: 4, done: 3 }],
          note: { ...plan.note, feel: "tired" },
        },
        label: "plan",
      },
      open,
    );
    await open.api.saveNow();
    expect(await open.api.earlierPlans()).toEqual([]);
    await open.api.beginDebrief(mira.id);
    await open.api.addFiles([open.id(await putRide(open.path("rides"), "two.fit"))]);
    expect(open.view().document.plan.targetW).toBe(185);
    const [earlier, ...more] = await open.api.earlierPlans();
    expect(more).toEqual([]);
    expect(earlier).toMatchObject({ title: "Long and level", targetW: 166, setting: "road", blocks: 0 });
    await open.api.takePlan(earlier!.id);
    expect(open.view().document.plan).toMatchObject({
      title: "Long and level",
      targetW: 166,
      meterOffsetW: 0,
      rider: "Mira Voss",
      skills: [{ skill: "drops", repeats: 4, done: null }],
      note: { feel: null },
    });
    await open.api.undo();
    expect(open.view().document.plan.targetW).toBe(185);
  });
});
