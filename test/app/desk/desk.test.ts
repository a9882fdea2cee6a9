import { existsSync } from "node:fs";
import { mkdir, readFile, readdir, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { DebriefDocument, Edit } from "../../../main/contract/debrief.ts";
import type { HandOverChoices } from "../../../main/contract/debriefApi.ts";
import { debriefSchema } from "../../../main/debrief/debriefDocument.ts";
import { type OpenDesk, openDesk, putClip, putRide } from "./openDesk.ts";

const CHOICES: HandOverChoices = { forWhom: "athlete", preset: "draft", language: "en", asPercent: false, agreed: [] };

async function documentIn(folder: string): Promise<DebriefDocument> {
  return debriefSchema.parse(JSON.parse(await readFile(join(folder, "debrief.json"), "utf8")));
}

function made(edit: Edit, open: OpenDesk): Promise<void> {
  return open.api.edit(edit, open.view().edit);
}

/** Values and columns of the window's binary form, decoded by its documentation alone. */
function unpacked(bytes: Uint8Array<ArrayBuffer>) {
  const view = new DataView(bytes.buffer);
  const length = view.getUint32(0, true);
  const header = JSON.parse(new TextDecoder().decode(bytes.subarray(4, 4 + length))) as {
    values: Record<string, unknown>;
    columns: { name: string; type: "float64" | "uint8"; offset: number; count: number }[];
  };
  expect((4 + length) % 8).toBe(0);
  const columns = new Map(header.columns.map(({ name, type, offset, count }) => [name, type === "uint8" ? new Uint8Array(bytes.buffer, offset, count) : new Float64Array(bytes.buffer, offset, count)]));
  return { values: header.values, columns };
}

async function lent(open: OpenDesk, address: string): Promise<Uint8Array<ArrayBuffer>> {
  const found = open.shelf.find(address);
  if (found?.kind !== "bytes") throw new Error(`nothing lent at ${address}`);
  return (await found.make())!;
}

describe("a ride on the desk", () => {
  let open: OpenDesk;
  let rides: string;
  beforeEach(async () => {
    open = await openDesk();
    rides = open.path("rides");
    await putRide(rides);
    await open.api.addFiles([open.id(join(rides, "sunday.fit"))]);
  });
  afterEach(() => open.close());

  it("is read and judged, and nothing is written beside it", async () => {
    const view = open.view();
    expect(view.files).toMatchObject([{ id: "ride1", kind: "ride", name: "sunday.fit", shown: true, failure: null }]);
    expect(view.files[0].understood).toContain("power");
    expect(view.reading?.moments.length).toBe(view.momentWords.length);
    expect(view.reading?.moments.length).toBeGreaterThan(0);
    expect(view.readingLines.length).toBeGreaterThan(3);
    expect(view.film?.items.length).toBeGreaterThan(2);
    expect(view.folder).toBe(join(rides, "sunday-debrief"));
    expect(await readdir(rides)).toEqual(["sunday.fit"]);
  });

  it("lends its columns in the documented form, anew with each reading", async () => {
    const { address, bytes } = { address: open.view().addresses.columns, bytes: await lent(open, open.view().addresses.columns) };
    const { values, columns } = unpacked(bytes);
    const seconds = Number(values.seconds);
    for (const name of ["power3s", "heartRate", "power30sW", "distanceM", "timerS", "countedS"]) expect(columns.get(name)?.length, name).toBe(seconds);
    expect(columns.get("power3s.state")).toBeInstanceOf(Uint8Array);
    expect(columns.get("pressureState")).toBeInstanceOf(Uint8Array);
    await made({ part: "plan", value: { ...open.view().document.plan, targetW: 150, toleranceW: 10 }, label: "target" }, open);
    expect(open.view().addresses.columns).not.toBe(address);
    expect(unpacked(await lent(open, open.view().addresses.columns)).values.bandW).toMatchObject({ target: 150 });
  });

  it("is saved soon after an edit, with a revision and the copy before", async () => {
    await made({ part: "words", value: { ...open.view().document.words, notes: "sat well" }, label: "note" }, open);
    const folder = join(rides, "sunday-debrief");
    await expect.poll(() => existsSync(join(folder, "debrief.json")), { timeout: 2000 }).toBe(true);
    const first = await documentIn(folder);
    expect(first).toMatchObject({ revision: 1, words: { notes: "sat well" }, media: [{ path: "../sunday.fit" }] });
    expect(first.film?.items.length).toBe(open.view().film?.items.length);
    expect(first.figures).not.toBeNull();
    await made({ part: "words", value: { ...open.view().document.words, notes: "sat better" }, label: "note" }, open);
    expect(open.view().saved).toBe("saving");
    await open.api.saveNow();
    expect(open.view().saved).toBe("saved");
    expect(await documentIn(folder)).toMatchObject({ revision: 2, words: { notes: "sat better" } });
    expect(await readFile(join(folder, "debrief.json.bak"), "utf8")).toContain("sat well");
    expect(await readdir(folder)).toContain("debrief.lock");
  });

  it("undoes and redoes every part a person edits, to the same desk", async () => {
    const start = open.view();
    const { document } = start;
    const own = { ...start.reading!.moments[0], kind: "look at the hands", reason: "hands", setBy: "coach" as const, startS: 100, endS: 130 };
    const edits: Edit[] = [
      { part: "plan", value: { ...document.plan, targetW: 170, toleranceW: 12 }, label: "target" },
      { part: "overrides", value: [{ what: "counted", set: { startS: 900, endS: 5000 }, reason: "coach" }], label: "counted part" },
      { part: "choices", value: [{ kind: start.reading!.moments[0].kind, startS: start.reading!.moments[0].startS, keep: false, span: null, name: "x", note: "y" }], label: "drop" },
      { part: "ownMoments", value: [own], label: "own moment" },
      { part: "words", value: { held: "a", change: "b", next: "c", notes: null, questions: ["q"] }, label: "words" },
      { part: "settings", value: { ...document.settings, lengthS: 60 }, label: "length" },
      { part: "deviceDelayS", value: 1, label: "delay" },
      { part: "film", value: { ...start.film!, items: start.film!.items.slice(0, 2) }, label: "film" },
    ];
    const seen = [open.view()];
    for (const edit of edits) {
      await made(edit, open);
      seen.push(open.view());
    }
    expect(open.view().reading?.moments.at(-1)).toMatchObject({ kind: "look at the hands", setBy: "coach" });
    expect(open.view().film?.items.length).toBe(2);
    const told = ({ document: { revision: _, ...rest }, reading, film, momentWords }: typeof start) => ({ rest, reading, film, momentWords });
    for (let at = edits.length - 1; at >= 0; at--) {
      expect(open.view().undo).toBe(edits[at].label);
      await open.api.undo();
      expect(told(open.view()), `undo ${edits[at].label}`).toEqual(told(seen[at]));
    }
    expect(open.view().undo).toBeNull();
    for (let at = 0; at < edits.length; at++) await open.api.redo();
    expect(told(open.view())).toEqual(told(seen.at(-1)!));
    expect(open.view().redo).toBeNull();
  });

  it("keeps the computed value beside an overruled one, and recomputes", async () => {
    const { drift, counted } = open.view().reading!;
    await made({ part: "overrides", value: [{ what: "counted", set: { startS: 1200, endS: 4800 }, reason: "traffic before" }, { what: "first", set: 1500, reason: null }], label: "overrule" }, open);
    const { reading } = open.view();
    expect(reading?.counted).toMatchObject({ startS: 1200, endS: 4800, source: "coach" });
    expect(reading?.drift.firstAtS).not.toBe(drift.firstAtS);
    expect(reading?.overrides.find(({ what }) => what === "counted")?.computed).toMatchObject({ startS: counted.startS, endS: counted.endS });
  });

  it("refuses an edit made on an older desk, of another part, or of another form, and changes nothing", async () => {
    const before = JSON.stringify(open.view().document);
    const { edit } = open.view();
    await expect(open.api.edit({ part: "deviceDelayS", value: 2, label: "x" }, edit - 1)).rejects.toMatchObject({ code: "usage" });
    const bad: unknown[] = [
      { part: "media", value: [{ id: "ride1", kind: "ride", path: "/etc/passwd", bytes: 1, fingerprint: "" }], label: "x" },
      { part: "athletePath", value: "/etc", label: "x" },
      { part: "revision", value: 9, label: "x" },
      { part: "__proto__", value: {}, label: "x" },
      { part: "plan", value: { ...open.view().document.plan, targetW: "much" }, label: "x" },
      { part: "film", value: { ...open.view().film!, items: [{ ...open.view().film!.items[0], commentPath: "../../secret.wav" }] }, label: "x" },
    ];
    for (const one of bad) await expect(open.api.edit(one as Edit, edit)).rejects.toMatchObject({ code: "usage" });
    expect(JSON.stringify(open.view().document)).toBe(before);
    expect(existsSync(join(rides, "sunday-debrief"))).toBe(false);
  });

  it("lists a file it can't use, and the rest stays usable", async () => {
    const wrong = join(rides, "notes.fit");
    await writeFile(wrong, "not a ride at all");
    await writeFile(join(rides, "empty.mp4"), "");
    await open.api.addFiles([open.id(wrong), open.id(join(rides, "empty.mp4"))]);
    const unusable = open.view().files.filter(({ kind }) => kind === "unusable");
    expect(unusable.map(({ name }) => name)).toEqual(["notes.fit", "empty.mp4"]);
    for (const { failure } of unusable) {
      expect(failure?.sentence).toMatch(/notes\.fit|empty\.mp4/);
      expect(failure?.remedy.length).toBeGreaterThan(5);
    }
    await open.api.removeFile(unusable[0].id);
    expect(open.view().files.map(({ name }) => name)).toEqual(["sunday.fit", "empty.mp4"]);
    expect(open.view().reading).not.toBeNull();
  });

  it("takes a second ride, shows it on wish, and takes files off again, all undone", async () => {
    const csv = join(rides, "other.csv");
    await writeFile(csv, ["time,power,heart_rate", ...Array.from({ length: 1200 }, (_, i) => `${new Date(Date.UTC(2026, 4, 16, 8, 0, i)).toISOString()},${180 + (i % 7)},${130 + Math.floor(i / 200)}`)].join("\n"));
    await open.api.addFiles([open.id(csv)]);
    expect(open.view().files.map(({ id, shown }) => [id, shown])).toEqual([["ride1", true], ["ride2", false]]);
    await open.api.showRide("ride2");
    expect(open.view().files.find(({ shown }) => shown)?.name).toBe("other.csv");
    await open.api.removeFile("ride2");
    expect(open.view().files.map(({ id, shown }) => [id, shown])).toEqual([["ride1", true]]);
    await open.api.undo();
    await open.api.undo();
    expect(open.view().files.map(({ id, shown }) => [id, shown])).toEqual([["ride1", true], ["ride2", false]]);
    await expect(open.api.showRide("clip9")).rejects.toMatchObject({ code: "usage" });
  });

  it("tells ride times as typed", async () => {
    expect(await open.api.parseRideTime("0:10:00")).toBe(600);
    await expect(open.api.parseRideTime("99:00:00")).rejects.toMatchObject({ code: "anchor-not-valid" });
  });

  it("is found again after a crash: opened with all that was saved, half-written files cleared away", async () => {
    await made({ part: "words", value: { ...open.view().document.words, notes: "kept" }, label: "note" }, open);
    await open.api.saveNow();
    const folder = join(rides, "sunday-debrief");
    await writeFile(join(folder, ".debrief.json.77.abcdef01.part"), "{");
    // A process that died leaves its lock.
    await writeFile(join(folder, "debrief.lock"), JSON.stringify({ pid: 2 ** 22 + 1, host: (await import("node:os")).hostname(), since: "" }));
    const again = await openDesk(open.folder);
    await again.api.openDebrief(again.id(folder), false);
    expect(again.view()).toMatchObject({ readOnly: null, document: { words: { notes: "kept" } }, missingMedia: [] });
    expect((await readdir(folder)).filter((name) => name.endsWith(".part"))).toEqual([]);
    expect((await again.api.recent())[0]).toMatchObject({ folder, handedOver: false, prepared: false });
    await again.close();
  });

  it("opens the copy before where the last save is damaged", async () => {
    for (const notes of ["one", "two"]) {
      await made({ part: "words", value: { ...open.view().document.words, notes }, label: "note" }, open);
      await open.api.saveNow();
    }
    await open.api.closeDebrief();
    const folder = join(rides, "sunday-debrief");
    await writeFile(join(folder, "debrief.json"), '{"schema":1,"revi');
    await open.api.openDebrief(open.id(folder), false);
    expect(open.view().document.words.notes).toBe("one");
    expect(open.view().warnings.join(" ")).toContain("damaged");
    await made({ part: "words", value: { ...open.view().document.words, notes: "three" }, label: "note" }, open);
    await open.api.saveNow();
    expect((await documentIn(folder)).words.notes).toBe("three");
  });

  it("may only be looked at while another window has it, or when a newer program made it", async () => {
    await made({ part: "words", value: { ...open.view().document.words, notes: "mine" }, label: "note" }, open);
    await open.api.saveNow();
    const folder = join(rides, "sunday-debrief");
    const second = await openDesk(open.folder);
    // The same process stands for another: its lock is held by a live one.
    await writeFile(join(folder, "debrief.lock"), JSON.stringify({ pid: process.ppid, host: (await import("node:os")).hostname(), since: "" }));
    await second.api.openDebrief(second.id(folder), false);
    expect(second.view().readOnly).toContain("Another window");
    await expect(made({ part: "deviceDelayS", value: 3, label: "x" }, second)).rejects.toMatchObject({ code: "debrief-not-usable" });
    await second.api.closeDebrief();
    const newer = join(rides, "newer");
    await mkdir(newer);
    await writeFile(join(newer, "debrief.json"), JSON.stringify({ ...(JSON.parse(await readFile(join(folder, "debrief.json"), "utf8")) as object), schema: 99 }));
    await second.api.openDebrief(second.id(newer), true);
    expect(second.view().readOnly).toContain("newer version");
    await second.close();
  });

  it("asks for missing media once and finds them by content", async () => {
    await made({ part: "deviceDelayS", value: 0.5, label: "delay" }, open);
    await open.api.saveNow();
    await open.api.closeDebrief();
    const away = open.path("moved");
    await mkdir(join(away, "deep"), { recursive: true });
    await rename(join(rides, "sunday.fit"), join(away, "deep", "renamed.fit"));
    const folder = join(rides, "sunday-debrief");
    await open.api.openDebrief(open.id(folder), false);
    expect(open.view().missingMedia).toEqual([{ id: "ride1", name: "sunday.fit" }]);
    expect(open.view().reading).toBeNull();
    await expect(open.api.lookForMedia(open.id(rides))).rejects.toMatchObject({ code: "file-unreadable" });
    await open.api.lookForMedia(open.id(away));
    expect(open.view()).toMatchObject({ missingMedia: [], document: { media: [{ path: "../../moved/deep/renamed.fit" }] } });
    expect(open.view().reading?.moments.length).toBeGreaterThan(0);
  });

  it("opens what was made elsewhere only when the person trusts its paths", async () => {
    await made({ part: "deviceDelayS", value: 0.5, label: "delay" }, open);
    await open.api.saveNow();
    await open.api.closeDebrief();
    const copied = join(rides, "from-someone");
    await rename(join(rides, "sunday-debrief"), copied);
    await expect(open.api.openDebrief(open.id(copied), false)).rejects.toMatchObject({ code: "debrief-not-trusted" });
    expect(open.states.at(-1)?.debrief).toBeNull();
    await open.api.openDebrief(open.id(copied), true);
    expect(open.view().reading).not.toBeNull();
  });

  it("leaves an earlier debrief of the same ride alone", async () => {
    await made({ part: "deviceDelayS", value: 0.5, label: "delay" }, open);
    await open.api.saveNow();
    await open.api.closeDebrief();
    await open.api.addFiles([open.id(join(rides, "sunday.fit"))]);
    expect(open.view().folder).toBe(join(rides, "sunday-debrief-2"));
    expect(open.view().warnings.join(" ")).toContain("there already");
  });

  it("picks the film anew for a length, adds a moment, and goes back", async () => {
    await open.api.pickFilm(60);
    expect(open.view().document).toMatchObject({ filmSetBy: "computed", settings: { lengthS: 60 } });
    const items = open.view().film!.items;
    const other = open.view().reading!.moments.findIndex((_, index) => !items.some(({ moment }) => moment === index));
    await open.api.addMomentToFilm(other);
    expect(open.view().document.filmSetBy).toBe("coach");
    expect(open.view().film!.items.length).toBe(items.length + 1);
    expect(open.view().film!.items.at(-1)).toMatchObject({ card: { kind: "closing" } });
    await expect(open.api.addMomentToFilm(9999)).rejects.toMatchObject({ code: "usage" });
    await open.api.pickFilm(120);
    expect(open.view().document.filmSetBy).toBe("computed");
    await open.api.undo();
    expect(open.view().film!.items.length).toBe(items.length + 1);
  });

  it("keeps a spoken comment of one part, taken anew or removed alone", async () => {
    // 16 bit mono at 16 kHz: RIFF, WAVE, fmt, data (Multimedia Programming Interface, IBM and Microsoft 1991).
    const wav = (value: number): string => {
      const data = Buffer.alloc(16_000 * value, value);
      const head = Buffer.alloc(44);
      head.write("RIFF", 0, "latin1");
      head.writeUInt32LE(36 + data.length, 4);
      head.write("WAVEfmt ", 8, "latin1");
      head.writeUInt32LE(16, 16);
      head.writeUInt16LE(1, 20);
      head.writeUInt16LE(1, 22);
      head.writeUInt32LE(16_000, 24);
      head.writeUInt32LE(32_000, 28);
      head.writeUInt16LE(2, 32);
      head.writeUInt16LE(16, 34);
      head.write("data", 36, "latin1");
      head.writeUInt32LE(data.length, 40);
      return Buffer.concat([head, data]).toString("base64");
    };
    const [first, second] = open.view().film!.items;
    await open.api.setComment(first.id, wav(1));
    await open.api.setComment(second.id, wav(2));
    const taken = open.view().film!.items[0].commentPath!;
    await open.api.setComment(first.id, wav(3));
    const [now, other] = open.view().film!.items;
    expect(now.commentS).toBeCloseTo(1.5, 2);
    expect(now.commentPath).not.toBe(taken);
    expect(other.commentPath).toMatch(/^comments\//);
    for (const path of [now.commentPath!, taken]) expect(existsSync(join(open.view().folder, path)), path).toBe(true);
    await open.api.setComment(first.id, null);
    expect(open.view().film!.items.slice(0, 2).map(({ commentPath }) => commentPath === null)).toEqual([true, false]);
    await open.api.undo();
    expect(open.view().film!.items[0].commentPath).toBe(now.commentPath);
    await expect(open.api.setComment(first.id, Buffer.from("text").toString("base64"))).rejects.toMatchObject({ code: "usage" });
    await expect(open.api.setComment("nothing", wav(1))).rejects.toMatchObject({ code: "usage" });
  });

  it("says what a hand-over would write and asks for consent before a lesson", async () => {
    const plan = await open.api.planHandOver(CHOICES);
    expect(plan).toMatchObject({ folder: join(rides, "sunday-debrief"), asks: [] });
    expect(plan.files.map(({ name }) => name)).toEqual(expect.arrayContaining(["film.mp4", "debrief.html", "message.txt", "coach.html"]));
    expect(plan.estimateBytes).toBeGreaterThan(1e5);
    expect(plan.estimateS).toBeGreaterThan(1);
    const lesson = await open.api.planHandOver({ ...CHOICES, forWhom: "lesson" });
    expect(lesson.asks.map(({ key }) => key)).toEqual(["consent"]);
    expect(lesson.files.map(({ name }) => name)).not.toContain("coach.html");
    await expect(open.api.handOver({ ...CHOICES, forWhom: "lesson" })).rejects.toMatchObject({ code: "usage" });
    expect(existsSync(join(rides, "sunday-debrief", "film.mp4"))).toBe(false);
  });
});

describe("athletes on the desk", () => {
  it("are made, changed, listed with their defaults, used, compared over weeks, and deleted whole by name", async () => {
    const open = await openDesk();
    try {
      const people = open.path("people");
      await mkdir(people);
      const start = { schema: 1, name: "Mira Voss", language: "de", units: "metric", events: [{ name: "Seenrunde", dateText: "May", durationS: 14_400 }], homeZone: null, preset: "phone", lessonConsent: null, road: { targetW: 185, toleranceW: 12, meterOffsetW: 0 }, trainer: { targetW: 170, toleranceW: null, meterOffsetW: 0 } };
      const entry = await open.api.saveAthlete(open.id(people), start);
      expect(entry).toMatchObject({ name: "Mira Voss", folder: join(people, "Mira Voss"), debriefs: 0 });
      expect(entry.lines.join("; ")).toContain("185 W");
      await open.api.saveAthlete(entry.id, { ...start, name: "Mira V." });
      expect(await open.api.athletes()).toMatchObject([{ name: "Mira V.", folder: join(people, "Mira Voss") }]);
      await expect(open.api.saveAthlete(entry.id, { ...start, name: 7 })).rejects.toMatchObject({ code: "plan-not-valid" });

      await open.api.useAthlete(entry.id);
      await putRide(open.path("rides"));
      await open.api.addFiles([open.id(join(open.path("rides"), "sunday.fit"))]);
      expect(open.view()).toMatchObject({ folder: join(people, "Mira Voss", "sunday-debrief"), athleteId: entry.id, document: { athletePath: "..", plan: { targetW: 185, eventName: "Seenrunde" }, settings: { language: "de", preset: "phone" } } });
      await made({ part: "words", value: { ...open.view().document.words, notes: "gut" }, label: "note" }, open);
      await open.api.saveNow();
      expect((await open.api.athletes())[0].debriefs).toBe(1);
      const weeks = await open.api.weeksPage(entry.id);
      expect(weeks.html).not.toMatch(/<script/i);
      expect(open.shelf.find(weeks.address)?.kind).toBe("page");

      await expect(open.api.deleteAthlete(entry.id, "Mira V.")).rejects.toMatchObject({ code: "usage" });
      expect((await open.api.filesOfAthlete(entry.id)).some((path) => path.endsWith("debrief.json"))).toBe(true);
      await expect(open.api.deleteAthlete(entry.id, "Someone")).rejects.toMatchObject({ code: "usage" });
      expect(existsSync(join(people, "Mira Voss", "athlete.json"))).toBe(true);
      await open.api.filesOfAthlete(entry.id);
      await open.api.deleteAthlete(entry.id, "Mira V.");
      expect(existsSync(join(people, "Mira Voss"))).toBe(false);
      expect(await open.api.athletes()).toEqual([]);
      expect(existsSync(join(open.path("rides"), "sunday.fit"))).toBe(true);
    } finally {
      await open.close();
    }
  });
});

describe("clips on the desk", () => {
  it("are placed, get proxies and small pictures, follow an anchor, and are handed over with a film", async () => {
    const open = await openDesk();
    try {
      const rides = open.path("rides");
      const ride = await putRide(rides);
      const clip = await putClip(rides, "bar.mp4", 600, 200);
      // In any order: the clip first.
      await open.api.addFiles([open.id(clip)]);
      expect(open.view()).toMatchObject({ reading: null, lineup: null, files: [{ id: "clip1", kind: "clip" }] });
      await open.api.addFiles([open.id(ride)]);
      expect(open.view().lineup?.clips).toMatchObject([{ clipId: "clip1" }]);
      expect(open.view().document.media.map(({ path }) => path)).toEqual(["../bar.mp4", "../sunday.fit"]);
      const frames = unpacked(await lent(open, `${open.view().addresses.frames}/clip1`)).columns.get("startS")!;
      expect([...frames].slice(0, 3).map((s) => Math.round(s * 1000))).toEqual([0, 40, 80]);
      expect(frames.length).toBe(201);

      await open.api.lineUp(true);
      expect(open.view().clips[0].hasSignals).toBe(true);
      const heard = unpacked(await lent(open, `${open.view().addresses.signals}/clip1`));
      expect(heard.values.stepS).toBe(0.25);
      expect(heard.columns.get("motion")?.length).toBe(heard.values.count);

      await made({ part: "anchors", value: [{ clipId: "clip1", mediaS: 2, rideS: 602, sigmaS: 0.1 }], label: "anchor" }, open);
      expect(open.view().lineup?.clips[0]).toMatchObject({ method: "anchor", clock: { offsetS: 600 } });
      await open.idle();
      const view = open.view().clips[0];
      expect(view).toMatchObject({ picture: "proxy", frames: 200, hasSound: true, filmstrip: { everyS: 1, count: 8 } });
      expect(view.proxySpans).toHaveLength(1);
      expect(open.shelf.find(view.proxySpans[0].address)?.kind).toBe("file");
      expect(open.shelf.find(`${view.filmstrip!.address}/0.jpg`)?.kind).toBe("file");
      const times = new Map<string, number[]>();
      for (const { jobId, atMs } of open.progress) times.set(jobId, [...(times.get(jobId) ?? []), atMs]);
      for (const [, at] of times) for (let k = 2; k < at.length; k++) expect(at[k] - at[k - 2]).toBeGreaterThan(150);

      await open.api.pickFilm(30);
      const foreseen = await open.api.planHandOver(CHOICES);
      const { jobId } = await open.api.handOver(CHOICES);
      const job = (await open.idle()).find(({ id }) => id === jobId);
      expect(job).toMatchObject({ state: "done", what: "hand over", failure: null });
      const there = new Set(await readdir(open.view().folder));
      for (const { name } of foreseen.files) expect(there, name).toContain(name);
      await open.api.openFolder(job!.folderId!);
      expect(open.opened).toEqual([open.view().folder]);
      expect((await open.api.recent())[0]).toMatchObject({ handedOver: true });
    } finally {
      await open.close();
    }
  }, 240_000);
});
