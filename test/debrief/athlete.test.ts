import { mkdir, mkdtemp, readdir, stat, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { Geodesic } from "geographiclib-geodesic";
import { beforeEach, describe, expect, test } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { athleteHelp } from "../../main/debrief/athleteHelp.ts";
import { athleteWords, newAthlete, parseAthlete, requireLessonConsent } from "../../main/debrief/athlete.ts";
import { athleteFiles, deleteAthlete, loadAthlete, saveAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { hideHome } from "../../main/debrief/hideHome.ts";
import { madePlan } from "../film/madeReading.ts";
import { refused } from "../support/said.ts";

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
      road: { targetW: 185, foundDate: "2026-05-01", earlier: [] },
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
  async function fill(): Promise<string> {
    const folder = join(root, "ines");
    await saveAthlete(folder, newAthlete("Ines"));
    await mkdir(join(folder, "ride1", "stills"), { recursive: true });
    await writeFile(join(folder, "ride1", "film.mp4"), "x");
    await writeFile(join(folder, "ride1", "stills", "1.png"), "x");
    await saveDebrief(
      join(folder, "ride1"),
      newDebrief(madePlan(), [{ id: "r", kind: "ride", path: "../../rides/a.fit", bytes: 1, fingerprint: "" }], "r"),
    );
    await writeFile(join(root, "other.txt"), "mine");
    await symlink(join(root, "other.txt"), join(folder, "link.txt"));
    return folder;
  }

  test("removes every file that was shown, and nothing outside, links not followed", async () => {
    const folder = await fill();
    const { files, outside } = await athleteFiles(folder);
    expect(files.map((path) => path.slice(folder.length + 1)).sort()).toEqual([
      "athlete.json",
      "link.txt",
      "ride1/debrief.json",
      "ride1/film.mp4",
      "ride1/stills/1.png",
    ]);
    expect(outside).toEqual([join(root, "rides", "a.fit")]);
    const { removed, kept } = await deleteAthlete(folder, files);
    expect(removed).toHaveLength(5);
    expect(kept).toEqual([]);
    expect(await readdir(root)).toEqual(["other.txt"]);
    expect((await stat(join(root, "other.txt"))).size).toBe(4);
  });

  test("caches given go with them", async () => {
    const folder = await fill();
    const cache = join(root, "cache");
    await mkdir(cache);
    await writeFile(join(cache, "part.mov"), "x");
    const { files } = await athleteFiles(folder, [cache]);
    expect(files).toContain(join(cache, "part.mov"));
    await deleteAthlete(folder, files, [cache]);
    expect(await readdir(root)).toEqual(["other.txt"]);
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
    await writeFile(join(folder, "new.txt"), "x");
    await expect(deleteAthlete(folder, files)).rejects.toMatchObject({ code: "usage" });
    expect((await athleteFiles(folder)).files).toHaveLength(6);
    await expect(athleteFiles(root)).rejects.toMatchObject({ code: "usage" });
    expect(await readdir(root)).toContain("other.txt");
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
