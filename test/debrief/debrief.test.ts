import { readFileSync } from "node:fs";
import { mkdtemp, readFile, readdir, rename, utimes, writeFile, mkdir, chmod } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { spawnSync } from "node:child_process";
import fc from "fast-check";
import { beforeEach, describe, expect, test } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import type { DebriefDocument, Edit } from "../../main/contract/debrief.ts";
import { carryOver } from "../../main/debrief/carryOver.ts";
import { choicesOn } from "../../main/debrief/choicesOn.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { loadDebrief, lockDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { doEdit, editHistory, redoEdit, undoEdit } from "../../main/debrief/editHistory.ts";
import { filmMark } from "../../main/debrief/filmMark.ts";
import { findMedia, mediaRef } from "../../main/debrief/findMedia.edge.ts";
import { leavesFolder, mediaNeedingConsent } from "../../main/debrief/mediaPath.ts";
import { debriefText, migrate, parseDebrief } from "../../main/debrief/parseDebrief.ts";
import { renameHeld, writeAtomic } from "../../main/host/writeAtomic.edge.ts";
import { chooseFilm } from "../../main/film/chooseFilm.ts";
import { filmShape } from "../../main/film/filmShape.ts";
import { read } from "../../main/reading/read.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { withoutRootsRights } from "../support/withoutRootsRights.ts";
import { madeClip, madeLineup, madePlan, madeReading, madeRide, madeStory } from "../film/madeReading.ts";
import { failureSaid, rejected } from "../support/said.ts";

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "debrief ü% "));
});

function withFilm(): DebriefDocument {
  const ride = madeRide();
  const plan = madePlan();
  const reading = madeReading(ride);
  const clips = [madeClip("a", 240)];
  const film = chooseFilm({
    ride,
    plan,
    reading,
    clips,
    blocks: [],
    story: madeStory(ride, plan, reading),
    lineup: madeLineup({ a: 1740 }),
    lengthS: 120,
    shape: filmShape(clips, "share"),
    language: "en",
    titleLines: [],
    wishes: [],
    acceptUnsure: false,
    riderName: null,
    forWhom: "athlete",
    asPercent: false,
  });
  return {
    ...newDebrief(plan, [{ id: "a", kind: "clip", path: "clips/a.mp4", bytes: 10, fingerprint: "f" }], "ride1"),
    film,
  };
}

async function failureOf(job: Promise<unknown>): Promise<Failure> {
  const error = await job.then(
    () => null,
    (caught: unknown) => caught,
  );
  expect(error).toBeInstanceOf(Failure);
  return error as Failure;
}

describe("the document", () => {
  test("goes to text and back, its film's columns and gaps included", () => {
    const document = withFilm();
    const back = parseDebrief(debriefText(document), "debrief.json");
    expect(back.readOnly).toBeNull();
    expect(debriefText(back.document)).toBe(debriefText(document));
    const chart = back.document.film!.items.find((item) => item.id === "heart");
    if (chart?.type !== "card" || chart.card.kind !== "chart") throw new Error("no chart");
    expect(chart.card.series.power30sW).toBeInstanceOf(Float64Array);
    expect(chart.card.series.heartRateBpm![10]).toBeGreaterThan(100);
    expect(chart.card.series.altitude).toBeInstanceOf(Float64Array);
    expect(chart.card.marks.shots?.length).toBeGreaterThan(0);
    const gap = JSON.stringify(JSON.parse(debriefText(document))).includes("null");
    expect(gap).toBe(true);
  });

  test("a shot may be slowed to an eighth, as 240 pictures a second are in a film at 30", () => {
    const made = withFilm();
    const slowed = (speed: number): string => {
      const items = made.film!.items.map((item) => (item.type === "shot" ? { ...item, speed } : item));
      return debriefText({ ...made, film: { ...made.film!, items } });
    };
    const { items } = parseDebrief(slowed(0.125), "debrief.json").document.film!;
    expect(items.flatMap((item) => (item.type === "shot" ? item.speed : []))).toContain(0.125);
    expect(() => parseDebrief(slowed(0.1), "debrief.json")).toThrow();
  });

  test("a newer schema opens read-only and is never overwritten", async () => {
    const newer = { ...JSON.parse(debriefText(withFilm())), schema: 7, somethingNew: true };
    await writeFile(join(folder, "debrief.json"), JSON.stringify(newer));
    const opened = await loadDebrief(folder);
    expect(opened.readOnly?.kind).toBe("newer version");
    const failure = await failureOf(saveDebrief(folder, opened.document));
    expect(failure.code).toBe("debrief-not-usable");
    expect(JSON.parse(await readFile(join(folder, "debrief.json"), "utf8"))).toEqual(newer);
  });

  test("a kind of moment that had another name is known by today's, and the program's film stays the program's", () => {
    const document = withFilm();
    const [shot, ...others] = document.film!.items.filter((item) => item.type === "shot");
    const about = { kind: "hardUpCoastOver", startS: 600, endS: 660 };
    const film = { ...document.film!, items: [{ ...shot!, momentKey: about }, ...others] };
    const choice = {
      kind: "hardUpCoastOver",
      startS: 600,
      endS: 660,
      keep: true,
      span: null,
      name: null,
      note: "ours",
    };
    const asWritten = {
      ...document,
      film,
      choices: [choice],
      filmSetBy: "computed" as const,
      filmMark: filmMark(film),
    };
    const opened = parseDebrief(debriefText(asWritten), "debrief.json").document;
    expect(opened.choices[0]).toMatchObject({ kind: "riseThenOff", note: "ours" });
    expect(opened.film!.items[0]!.momentKey?.kind).toBe("riseThenOff");
    expect(opened.filmSetBy).toBe("computed");
    const changed = { ...asWritten, film: { ...film, items: [{ ...film.items[0]!, speed: 0.5 }, ...others] } };
    expect(parseDebrief(debriefText(changed), "debrief.json").document.filmSetBy).toBe("coach");
  });

  test("migrations run one after the other, and a missing one is an error", () => {
    const steps = {
      1: (old: Record<string, unknown>) => ({ ...old, a: 1 }),
      2: (old: Record<string, unknown>) => ({ ...old, b: old["a"] }),
    };
    expect(migrate({ schema: 1 }, 1, 3, steps)).toEqual({ schema: 3, a: 1, b: 1 });
    expect(() => migrate({ schema: 1 }, 1, 4, steps)).toThrow("schema 3");
  });

  test.each([
    ["", "not JSON"],
    ['{"schema": 1', "not JSON"],
    ["[]", "which schema"],
    ['{"schema": "1"}', "which schema"],
    ['{"schema": 1}', "revision"],
    ["null", "which schema"],
  ])("refuses %j in one sentence that names the file", (text, what) => {
    try {
      parseDebrief(text, "out/debrief.json");
      throw new Error("was taken");
    } catch (error) {
      expect(error).toBeInstanceOf(Failure);
      expect(failureSaid(error).sentence).toContain("out/debrief.json");
      expect(failureSaid(error).sentence).toContain(what);
    }
  });

  test("any JSON at all is either a debrief or a Failure, never another error", () => {
    fc.assert(
      fc.property(fc.json(), (text) => {
        try {
          parseDebrief(text, "x");
          return true;
        } catch (error) {
          return error instanceof Failure;
        }
      }),
    );
  });
});

describe("a debrief of schema 1", () => {
  const old = readFileSync(join(import.meta.dirname, "../fixtures/debriefs/schema-1.json"), "utf8");

  test("opens with every decision in it, in the form of today", () => {
    const { document, schema, readOnly } = parseDebrief(old, "debrief.json");
    const before = JSON.parse(old) as Record<string, unknown> &
      Record<"plan" | "words" | "figures", Record<string, unknown>>;
    expect([schema, document.schema, readOnly]).toEqual([1, 2, null]);
    expect(document.overrides).toEqual([
      { what: "counted", set: { startS: 900, endS: 5000 }, reason: "traffic before" },
      { what: "first", set: 1500, reason: null },
      { what: "last", set: 4700, reason: "heat" },
      { what: "onset", set: null, reason: "felt the same" },
      { what: "break", startS: 893, endS: null, set: "corner", reason: null },
      { what: "break", startS: 1199, endS: null, set: { coach: "a dog on the road" }, reason: "seen on the film" },
    ]);
    const { overrides: _o, choices: _c, schema: _s, ...rest } = JSON.parse(debriefText(document)) as typeof before;
    const { overrides: _oo, choices, schema: _ss, ...restBefore } = before;
    // What was not asked for then is unsaid, and the usual limit holds.
    expect(rest).toEqual({
      ...restBefore,
      plan: { ...restBefore.plan, driftLimitBeats: 5, eventDate: null },
      words: { ...restBefore.words, nextS: null },
      figures: { ...restBefore.figures, inMainPercent: null, askedS: null, driftCanTell: null },
    });
    expect(document.choices.map(({ endS: _, ...one }) => one)).toEqual(choices);
    expect(parseDebrief(debriefText(document), "debrief.json").document).toEqual(document);
  });

  test("finds its reasons and choices on the ride as it is read today, asking nothing", () => {
    const { document } = parseDebrief(old, "debrief.json");
    const saved = readFileSync(join(import.meta.dirname, "../fixtures/debriefs/schema-1-ride.fit.gz"));
    const ride = parseRide(new Uint8Array(saved), "sunday.fit.gz");
    const { overrides, unsureOverrides, moments, breaks } = read(ride, document.plan, document.overrides);
    expect(overrides).toHaveLength(6);
    expect(unsureOverrides).toEqual([]);
    // The first was cut by the coach's own counted part, which begins at 900: by its exact start it was lost until now.
    expect(breaks.filter(({ setBy }) => setBy === "coach").map(({ startS }) => startS)).toEqual([900, 1199]);
    const { of, asked } = choicesOn([...moments, ...document.ownMoments], document.choices);
    expect(asked).toEqual([]);
    expect(of.filter((one) => one !== null)).toHaveLength(document.choices.length);
  });

  test("is kept beside before the first save, once, and no other file is written over for it", async () => {
    await writeFile(join(folder, "debrief.json"), old);
    await writeFile(join(folder, "debrief.schema-1.json"), "an earlier one");
    const first = await saveDebrief(folder, (await loadDebrief(folder)).document);
    await saveDebrief(folder, first);
    expect(await readFile(join(folder, "debrief.schema-1.json"), "utf8")).toBe("an earlier one");
    expect(await readFile(join(folder, "debrief.schema-1-2.json"), "utf8")).toBe(old);
    expect((await readdir(folder)).sort()).toEqual([
      "debrief.json",
      "debrief.json.bak",
      "debrief.schema-1-2.json",
      "debrief.schema-1.json",
    ]);
  });

  test("what held for nothing in it is left out, not half read", () => {
    const text = JSON.stringify({
      ...(JSON.parse(old) as object),
      overrides: [
        { what: "weather", set: 1, reason: null },
        { what: "counted", set: 5, reason: null },
        { what: "break@12x", set: "corner", reason: null },
        { what: "break@12", set: " ", reason: null },
        { what: "first", set: { startS: 100, endS: 200 } },
        null,
      ],
    });
    expect(parseDebrief(text, "x").document.overrides).toEqual([{ what: "first", set: 150, reason: null }]);
  });
});

describe("saving", () => {
  test("each save counts the revision up and keeps the one before", async () => {
    const first = await saveDebrief(folder, withFilm());
    const second = await saveDebrief(folder, { ...first, deviceDelayS: 1 });
    expect([first.revision, second.revision]).toEqual([1, 2]);
    expect((await loadDebrief(folder)).document.deviceDelayS).toBe(1);
    expect(parseDebrief(await readFile(join(folder, "debrief.json.bak"), "utf8"), "bak").document.revision).toBe(1);
    expect((await readdir(folder)).sort()).toEqual(["debrief.json", "debrief.json.bak"]);
  });

  test("a save on top of someone else's is refused, and theirs stays", async () => {
    const mine = await saveDebrief(folder, withFilm());
    await saveDebrief(folder, { ...mine, deviceDelayS: 2 });
    const failure = await failureOf(saveDebrief(folder, { ...mine, deviceDelayS: 3 }));
    expect(failureSaid(failure).sentence).toContain("changed by another window");
    expect((await loadDebrief(folder)).document.deviceDelayS).toBe(2);
  });

  test("what could not be opened again is refused by name, and nothing on disk changes", async () => {
    const first = await saveDebrief(folder, newDebrief(madePlan(), [], "ride"));
    const before = await readFile(join(folder, "debrief.json"), "utf8");
    const words = { ...first.words, notes: "n".repeat(20_001) };
    expect(await rejected(saveDebrief(folder, { ...first, words }))).toMatch(
      /Not saved.*"words\.notes": too large or too long, 20000 is the most.*Shorten/su,
    );
    expect(await readFile(join(folder, "debrief.json"), "utf8")).toBe(before);
    expect(await readdir(folder)).not.toContain("debrief.json.bak");
    const fits = { ...first.words, notes: "\u{1f6b4} \u05e9\u05dc\u05d5\u05dd ".repeat(2000) };
    await saveDebrief(folder, { ...first, words: fits });
    expect((await loadDebrief(folder)).document.words.notes).toBe(fits.notes);
  });

  test("a broken file is not overwritten", async () => {
    await writeFile(join(folder, "debrief.json"), "{ cut off");
    await failureOf(saveDebrief(folder, withFilm()));
    expect(await readFile(join(folder, "debrief.json"), "utf8")).toBe("{ cut off");
  });

  test("a folder that is not there is a Failure with a remedy", async () => {
    const failure = await failureOf(writeAtomic(join(folder, "none", "a.txt"), "x"));
    expect(failure.code).toBe("output-not-writable");
    expect(failureSaid(failure).remedy).toContain("--out");
  });

  test("on Windows a held file is tried again, elsewhere not", async () => {
    let tries = 0;
    const held = (() => {
      const error = Object.assign(new Error("held"), { code: "EBUSY" });
      return ++tries < 3 ? Promise.reject(error) : Promise.resolve();
    }) as typeof rename;
    await renameHeld("a", "b", "win32", held);
    expect(tries).toBe(3);
    tries = 0;
    await expect(renameHeld("a", "b", "linux", held)).rejects.toThrow("held");
  });
});

describe("the lock", () => {
  test("the second window gets none until the first lets go", async () => {
    const first = await lockDebrief(folder);
    const second = await lockDebrief(folder);
    expect([first.held, second.held]).toEqual([true, false]);
    if (first.held) await first.release();
    expect((await lockDebrief(folder)).held).toBe(true);
  });

  test("a lock of a dead process here is stale; one of another host is not", async () => {
    const dead = spawnSync(process.execPath, ["-e", ""]).pid;
    const { hostname } = await import("node:os");
    await writeFile(join(folder, "debrief.lock"), JSON.stringify({ pid: dead, host: hostname(), since: "" }));
    expect((await lockDebrief(folder)).held).toBe(true);
    await writeFile(join(folder, "debrief.lock"), JSON.stringify({ pid: dead, host: "elsewhere", since: "" }));
    expect(await lockDebrief(folder)).toMatchObject({ held: false, by: { host: "elsewhere" } });
  });

  test("of many that ask at once over a stale lock, one gets it", async () => {
    const dead = spawnSync(process.execPath, ["-e", ""]).pid;
    const { hostname } = await import("node:os");
    for (let round = 0; round < 25; round++) {
      await writeFile(join(folder, "debrief.lock"), JSON.stringify({ pid: dead, host: hostname(), since: "" }));
      const locks = await Promise.all(Array.from({ length: 8 }, () => lockDebrief(folder)));
      const got = locks.filter((lock) => lock.held);
      expect(got.length).toBe(1);
      for (const lock of got) await lock.release();
      expect((await readdir(folder)).filter((name) => name.includes("lock"))).toEqual([]);
    }
  });

  test.skipIf(process.platform !== "linux")("a process number used again is another process", async () => {
    const { hostname } = await import("node:os");
    const lock = { pid: process.ppid, host: hostname(), since: "", began: "another-boot 1" };
    await writeFile(join(folder, "debrief.lock"), JSON.stringify(lock));
    expect((await lockDebrief(folder)).held).toBe(true);
  });

  test("a lock of a computer that was renamed goes when nobody renews it", async () => {
    const path = join(folder, "debrief.lock");
    await writeFile(path, JSON.stringify({ pid: process.ppid, host: "old-name", since: "" }));
    expect((await lockDebrief(folder)).held).toBe(false);
    const past = new Date(Date.now() - 180_000);
    await utimes(path, past, past);
    expect((await lockDebrief(folder)).held).toBe(true);
  });

  test("nothing is saved past the lock of an open window", async () => {
    const saved = await saveDebrief(folder, withFilm());
    const { hostname } = await import("node:os");
    await writeFile(
      join(folder, "debrief.lock"),
      JSON.stringify({ pid: process.ppid, host: hostname(), since: "", began: null }),
    );
    const failure = await failureOf(saveDebrief(folder, saved));
    expect(failure.notice).toMatchObject({ code: "debrief-open-elsewhere", facts: { folder, pid: process.ppid } });
    expect((await loadDebrief(folder)).document.revision).toBe(saved.revision);
  });

  test("a folder that may not be written opens read-only", async () => {
    await chmod(folder, 0o555);
    await withoutRootsRights(async () => expect((await lockDebrief(folder)).held).toBe(false));
    await chmod(folder, 0o777);
    await withoutRootsRights(async () => expect((await lockDebrief(folder)).held).toBe(true));
  });
});

describe("media", () => {
  const fingerprint = async (path: string): Promise<string> => (await readFile(path)).toString("hex");

  test("a moved folder keeps its paths; a renamed file is found by what is in it", async () => {
    await mkdir(join(folder, "a"));
    await mkdir(join(folder, "a", "clips"));
    await writeFile(join(folder, "a", "clips", "one.mp4"), "film");
    const ref = await mediaRef(join(folder, "a"), join(folder, "a", "clips", "one.mp4"), "one", "clip", fingerprint);
    expect(ref.path).toBe("clips/one.mp4");
    await rename(join(folder, "a"), join(folder, "b"));
    const options = { consent: false, searchIn: [join(folder, "b")], fingerprint };
    expect(await findMedia(join(folder, "b"), ref, options)).toBe(join(folder, "b", "clips", "one.mp4"));
    await rename(join(folder, "b", "clips", "one.mp4"), join(folder, "b", "other name.mp4"));
    expect(await findMedia(join(folder, "b"), ref, options)).toBe(join(folder, "b", "other name.mp4"));
    await writeFile(join(folder, "b", "other name.mp4"), "fake");
    expect(await findMedia(join(folder, "b"), ref, options)).toBeNull();
  });

  test("a debrief of an earlier version, which knew files by their ends, finds them and its clips' numbers", async () => {
    const ends = "e".repeat(32);
    await writeFile(join(folder, "one.mp4"), "film");
    const now = () => Promise.resolve(`${ends}${"m".repeat(16)}`);
    const where = { consent: false, searchIn: [] };
    const ref = await mediaRef(folder, join(folder, "one.mp4"), "clip7", "clip", now);
    const earlier = { ...ref, id: "clip1", fingerprint: ends };
    expect(await findMedia(folder, earlier, { ...where, fingerprint: now })).toBe(join(folder, "one.mp4"));
    const other = () => Promise.resolve(`${ends}${"n".repeat(16)}`);
    expect(await findMedia(folder, ref, { ...where, fingerprint: other })).toBeNull();
    const mark = { mediaS: 12, rideS: 600, sigmaS: 0.5 };
    const document = { ...withFilm(), media: [earlier], anchors: [{ clipId: "clip1", ...mark }] };
    expect(carryOver(document, [ref]).anchors).toEqual([{ clipId: "clip7", ...mark }]);
  });

  test.each(["../x.mp4", "a/../../x", "/etc/passwd", "C:\\x.mp4", "\\\\server\\share\\x", "file:///x", "http://x/y"])(
    "%s leaves the folder",
    (path) => {
      expect(leavesFolder(path)).toBe(true);
    },
  );

  test("and is not opened without consent", async () => {
    const outside = { id: "a", kind: "clip" as const, path: "../secret", bytes: 1, fingerprint: "" };
    expect(mediaNeedingConsent({ ...withFilm(), media: [outside] })).toEqual([outside]);
    const failure = await failureOf(findMedia(folder, outside, { consent: false, searchIn: [], fingerprint }));
    expect(failure.code).toBe("debrief-not-usable");
    expect(leavesFolder("clips/a..b.mp4")).toBe(false);
  });
});

describe("undo", () => {
  const edit = fc.oneof(
    fc.double({ noNaN: true }).map((value): Edit => ({ part: "deviceDelayS", value, label: "delay" })),
    fc.string().map((notes): Edit => ({
      part: "words",
      value: { held: null, change: null, next: null, nextS: null, notes, questions: null },
      label: "note",
    })),
    fc.integer({ min: 1, max: 300 }).map((lengthS): Edit => ({
      part: "settings",
      value: { ...newDebrief(madePlan(), [], "r").settings, lengthS },
      label: "length",
    })),
  );

  test("taking back every edit gives the first document; making them again the last", () => {
    const start = newDebrief(madePlan(), [], "ride1");
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 20 }), (edits) => {
        const done = edits.reduce(doEdit, editHistory(start));
        const undone = edits.reduce(undoEdit, done);
        const redone = edits.reduce(redoEdit, undone);
        expect(undone.document).toEqual(start);
        expect(redone.document).toEqual(done.document);
        expect(undoEdit(undone)).toBe(undone);
      }),
    );
  });
});
