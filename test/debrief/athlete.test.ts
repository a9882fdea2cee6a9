import { existsSync } from "node:fs";
import { chmod, lchown, mkdir, mkdtemp, readFile, readdir, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import fc from "fast-check";
import { Geodesic } from "geographiclib-geodesic";
import { beforeEach, describe, expect, test } from "vitest";
import type { MediaRef } from "../../main/contract/debrief.ts";
import { Failure } from "../../main/contract/failure.ts";
import { athleteHelp } from "../../main/debrief/athleteHelp.ts";
import { athleteWords, newAthlete, parseAthlete, requireLessonConsent } from "../../main/debrief/athlete.ts";
import { athleteListing, deleteListed } from "../../main/debrief/athleteListing.edge.ts";
import { athleteFiles, deleteAthlete, loadAthlete, saveAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { hideHome } from "../../main/debrief/hideHome.ts";
import { knownFolders, remember } from "../../main/host/knownFolders.edge.ts";
import { stateFolder } from "../../main/host/stateFolder.edge.ts";
import { unsavedFailure } from "../../main/journey/unsavedCopy.ts";
import { madePlan } from "../film/madeReading.ts";
import { refused } from "../support/said.ts";

const media = (path: string): MediaRef => ({ id: path, kind: "ride", path, bytes: 1, fingerprint: "" });

let root: string;
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), "athlete ü "));
});

describe("the athlete's file", () => {
  test("is written and read back; none is null; a broken one names itself", async () => {
    const athlete = {
      ...newAthlete("Ines Falk"),
      homeZone: { latDeg: 47, lonDeg: 11, radiusM: 500 },
      events: [{ name: "Three Valleys", dateText: "June", durationS: 14_400 }],
    };
    await saveAthlete(join(root, "ines"), athlete);
    expect(await loadAthlete(join(root, "ines"))).toEqual(athlete);
    expect(await loadAthlete(root)).toBeNull();
    expect(athleteWords(athlete)).toEqual(["Ines Falk", "Ines", "Falk", "Three Valleys"]);
    expect(
      refused(() =>
        parseAthlete(
          JSON.stringify({ ...athlete, homeZone: { latDeg: 99, lonDeg: 0, radiusM: 500 } }),
          "a/athlete.json",
        ),
      ),
    ).toMatch(/a\/athlete\.json.*homeZone\.latDeg/);
    fc.assert(
      fc.property(fc.json(), (text) => {
        try {
          parseAthlete(text, "x");
          return true;
        } catch (error) {
          return error instanceof Failure;
        }
      }),
    );
  });

  test("the example of the help is one", () => {
    const example = athleteHelp.slice(athleteHelp.indexOf("Example:") + "Example:".length);
    expect(parseAthlete(example, "example")).toMatchObject({
      name: "Ines Falk",
      road: { targetW: 160, foundDate: "2026-05-01", earlier: [] },
      trainer: { targetW: null, meterOffsetW: 0 },
      preset: "share",
    });
  });

  test("a lesson needs consent", () => {
    expect(() => requireLessonConsent(null)).toThrow(Failure);
    expect(() => requireLessonConsent(newAthlete("A"))).toThrow(Failure);
    expect(() =>
      requireLessonConsent({ ...newAthlete("A"), lessonConsent: { given: false, dateText: "May" } }),
    ).toThrow(Failure);
    requireLessonConsent({ ...newAthlete("A"), lessonConsent: { given: true, dateText: "May" } });
  });
});

describe("deleting an athlete", () => {
  async function write(path: string): Promise<void> {
    await mkdir(dirname(path), { recursive: true });
    await writeFile(path, "x");
  }

  /** An athlete with one ride, whose clip lies in the folder and whose ride file lies elsewhere, and with what is not theirs. */
  async function fill(): Promise<string> {
    const folder = join(root, "ines");
    await saveAthlete(folder, newAthlete("Ines"));
    const refs = [media("../../rides/a.fit"), media("../clips/bars.mp4")];
    await mkdir(join(folder, "ride1"));
    await saveDebrief(join(folder, "ride1"), newDebrief(madePlan(), refs, refs[0]!.id));
    for (const path of ["clips/bars.mp4", "ride1/film.mp4", "ride1/stills/1.png"]) await write(join(folder, path));
    await writeFile(join(root, "other.txt"), "mine");
    await writeFile(join(root, "other.png"), "mine");
    await symlink(join(root, "other.png"), join(folder, "ride1", "linked.png"));
    // Not of this athlete, or not of this program.
    await symlink(join(root, "other.txt"), join(folder, "link.txt"));
    await write(join(folder, "contract.pdf"));
    await write(join(folder, "clips", "holiday.mp4"));
    await write(join(folder, "ride1", "invoice.docx"));
    await saveAthlete(join(folder, "bert"), newAthlete("Bert"));
    await write(join(folder, "bert", "ride1", "film.mp4"));
    return folder;
  }
  const theirs = ["athlete.json", "clips/bars.mp4", "ride1/debrief.json", "ride1/film.mp4", "ride1/linked.png"];
  const notTheirs = ["bert/", "clips/holiday.mp4", "contract.pdf", "link.txt", "ride1/invoice.docx"];

  test("removes every file that was shown and nothing else; what is another's is named; links are not followed", async () => {
    const folder = await fill();
    const { files, others, outside } = await athleteFiles(folder);
    const below = (paths: readonly string[]) => paths.map((path) => path.slice(folder.length + 1)).sort();
    expect(below(files)).toEqual([...theirs, "ride1/stills/1.png"]);
    expect(below(others)).toEqual(notTheirs);
    expect(outside).toEqual([join(root, "rides", "a.fit")]);
    const { removed, kept } = await deleteAthlete(folder, files);
    expect(below(removed)).toHaveLength(6);
    expect(kept).toEqual([]);
    expect((await readdir(root)).sort()).toEqual(["ines", "other.png", "other.txt"]);
    expect((await readdir(folder)).sort()).toEqual(["bert", "clips", "contract.pdf", "link.txt", "ride1"]);
    expect(await readdir(join(folder, "bert", "ride1"))).toEqual(["film.mp4"]);
    expect(await readFile(join(root, "other.png"), "utf8")).toBe("mine");
  });

  test("a debrief of theirs in another folder goes with them", async () => {
    const folder = await fill();
    const away = join(root, "elsewhere");
    await mkdir(away);
    await saveDebrief(away, { ...newDebrief(madePlan(), [media("a.fit")], "a.fit"), athletePath: "../ines" });
    await write(join(away, "film.mp4"));
    await write(join(away, "letter.txt"));
    const { files, others } = await athleteFiles(folder, [away]);
    expect(files).toEqual(expect.arrayContaining([join(away, "debrief.json"), join(away, "film.mp4")]));
    expect(others).toContain(join(away, "letter.txt"));
    await deleteAthlete(folder, files, [away]);
    expect(await readdir(away)).toEqual(["letter.txt"]);
  });

  test("files and folders that may not be written go too", async () => {
    const folder = await fill();
    const asRoot = process.getuid?.() === 0;
    const stills = join(folder, "ride1", "stills");
    for (const path of [
      root,
      folder,
      ...(await readdir(folder, { recursive: true })).map((name) => join(folder, name)),
    ])
      if (asRoot) await lchown(path, 65534, 65534);
    await chmod(join(stills, "1.png"), 0o400);
    await chmod(stills, 0o500);
    if (asRoot) process.seteuid!(65534);
    try {
      const { files } = await athleteFiles(folder);
      expect((await deleteAthlete(folder, files)).kept).toEqual([]);
      expect(existsSync(stills)).toBe(false);
    } finally {
      if (asRoot) process.seteuid!(0);
    }
  });

  test("the page over a squad's rides goes with an athlete it tells of, and stays where it does not", async () => {
    const ines = join(root, "ines ü");
    const page = join(root, "squad.html");
    await saveAthlete(ines, newAthlete("Ines Falk"));
    await writeFile(page, '<a href="./bert/ride-debrief/film.mp4">film</a>');
    expect((await athleteFiles(ines)).files).not.toContain(page);
    await writeFile(page, '<a href="./ines%20%C3%BC/ride-debrief/film.mp4">film</a>');
    const { files } = await athleteFiles(ines);
    expect(files).toContain(page);
    expect((await deleteAthlete(ines, files)).kept).toEqual([]);
    expect(await readdir(root)).toEqual([]);
  });

  test("another list than the one shown deletes nothing; nor does a folder without an athlete", async () => {
    const folder = await fill();
    const { files } = await athleteFiles(folder);
    await write(join(folder, "ride1", "new.png"));
    await expect(deleteAthlete(folder, files)).rejects.toMatchObject({ code: "usage" });
    expect((await athleteFiles(folder)).files).toHaveLength(7);
    await expect(athleteFiles(root)).rejects.toMatchObject({ code: "usage" });
    expect(await readdir(root)).toContain("other.txt");
  });
});

describe("an athlete's list as command line and window have it", () => {
  test("knows debriefs elsewhere and copies that could not be saved, and empties what was kept for speed", async () => {
    const home = join(root, "home");
    const before = { ...process.env };
    Object.assign(process.env, { FOLLOWCAR_STATE: home, FOLLOWCAR_CACHE: join(home, "cache") });
    try {
      const folder = join(root, "ines");
      await saveAthlete(folder, newAthlete("Ines"));
      const away = join(root, "away");
      await mkdir(away);
      const document = { ...newDebrief(madePlan(), [media("a.fit")], "a.fit"), athletePath: "../ines" };
      await saveDebrief(away, document);
      await remember("debriefs", away);
      await unsavedFailure(document, away, true);
      for (const room of ["parts", "proxies", "filmstrips", "signals", "made-here"]) {
        await mkdir(join(home, "cache", room), { recursive: true });
        await writeFile(join(home, "cache", room, "one"), "x");
      }
      const listing = await athleteListing(folder);
      expect(listing.files.map((path) => basename(path)).sort()).toEqual([
        "athlete.json",
        "debrief.json",
        "debrief.json",
        "folder.txt",
      ]);
      expect((await deleteListed(folder, listing, "Ines")).kept).toEqual([]);
      expect(existsSync(away)).toBe(false);
      expect(await readdir(join(home, "cache"))).toEqual(["made-here"]);
      expect((await knownFolders()).debriefs).toEqual([]);
      expect(await readdir(join(stateFolder(), "unsaved"))).toEqual([]);
    } finally {
      process.env = before;
    }
  });
});

describe("hideHome", () => {
  // Distances by GeographicLib (geodesic on WGS 84), not by our own function.
  const home = { latDeg: 47.1, lonDeg: 11.6, radiusM: 400 };
  const away = (lat: number, lon: number): number => Geodesic.WGS84.Inverse(home.latDeg, home.lonDeg, lat, lon).s12!;
  // Out by 3 km to the north-east and back, 5 m a point.
  const out = Array.from({ length: 600 }, (_, at) => ({
    lat: home.latDeg + at * 3.2e-5,
    lon: home.lonDeg + at * 4.5e-5,
  }));
  const loop = [...out, ...[...out].reverse()];
  const track = {
    latDeg: Float64Array.from(loop, (one) => one.lat),
    lonDeg: Float64Array.from(loop, (one) => one.lon),
  };

  test("nothing shown lies within the zone, and the cut is not on its circle", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (before, after) => {
          const hidden = hideHome(track, home, { before, after });
          const shown = [...hidden.latDeg.keys()].filter((at) => Number.isFinite(hidden.latDeg[at]));
          expect(shown.length).toBeGreaterThan(400);
          for (const at of shown)
            expect(away(hidden.latDeg[at]!, hidden.lonDeg[at]!)).toBeGreaterThan(home.radiusM + 0.2 * home.radiusM);
          const edge = away(hidden.latDeg[shown[0]!]!, hidden.lonDeg[shown[0]!]!);
          expect(Math.abs(edge - home.radiusM * (1.25 + 0.75 * after))).toBeLessThan(15);
          const last = away(hidden.latDeg[shown.at(-1)!]!, hidden.lonDeg[shown.at(-1)!]!);
          expect(Math.abs(last - home.radiusM * (1.25 + 0.75 * before))).toBeLessThan(15);
        },
      ),
      { numRuns: 30 },
    );
  });

  test("a ride that never comes near is left as it is; gaps stay gaps", () => {
    const far = {
      latDeg: track.latDeg.map((lat) => lat + 1),
      lonDeg: track.lonDeg.map((lon, at) => (at === 5 ? Number.NaN : lon)),
    };
    const same = hideHome(far, home, { before: 1, after: 1 });
    expect([...same.latDeg]).toEqual([...far.latDeg]);
    expect([...same.lonDeg]).toEqual([...far.lonDeg]);
  });
});
