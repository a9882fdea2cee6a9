// `compare` from the command line: the table, the film without footage, and one plain sentence for each pair of rides
// that cannot be compared, with nothing written.
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { pace, rideOn, roadFrom, windingRoad } from "../roads/makeRoad.ts";
import { runProgram, type ProgramRun } from "../support/runProgram.ts";
import { testTools } from "../support/tools.ts";
import { gpxText, isoAt } from "../support/trackText.ts";
import { lumaFrames, probeFile, runProgram as runFfmpeg } from "../support/video.ts";

let folder = "";
const at = (name: string) => join(folder, name);
const run = (...args: string[]): Promise<ProgramRun> =>
  runProgram(["compare", ...args], { cwd: folder, env: { FOLLOWCAR_CACHE: at("cache") } });

/** A made ride as a GPX file with power; `dayS`: how much later it was ridden. */
function write(name: string, { raw }: Ride, dayS: number, places = true): void {
  const points = Array.from(raw.timeS, (s, k) => {
    const where = places ? `lat="${raw.latDeg[k]!.toFixed(7)}" lon="${raw.lonDeg[k]!.toFixed(7)}"` : "";
    return `<trkpt ${where}><ele>120</ele><time>${isoAt(dayS + s)}</time><extensions><power>${180 + (k % 20)}</power></extensions></trkpt>`;
  });
  writeFileSync(at(name), gpxText(points));
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-compare-"));
  const road = windingRoad(4, 5_000);
  const fast = pace(1, 4_500, 9);
  const slow = pace(2, 4_500, 7);
  write("today.gpx", rideOn({ road, seed: 1, alongM: fast, noiseM: 2 }), 86_400 * 21);
  write("before.gpx", rideOn({ road, seed: 2, alongM: slow, noiseM: 2 }), 0);
  write("back.gpx", rideOn({ road: (s) => road(4_600 - s), seed: 3, alongM: fast }), 0);
  write("away.gpx", rideOn({ road, seed: 4, alongM: fast, southM: 6_000_000 }), 0);
  write("other.gpx", rideOn({ road: windingRoad(9, 5_000), seed: 5, alongM: fast }), 0);
  const round = roadFrom(14_000, (s) => (2 * Math.PI * s) / 1_500);
  write("once.gpx", rideOn({ road: round, seed: 6, alongM: pace(3, 1_400, 8) }), 0);
  write("nine.gpx", rideOn({ road: round, seed: 7, alongM: pace(4, 13_500, 8) }), 86_400);
  const timed = fast.map((_, k) => `${isoAt(k)},${180 + (k % 20)},${140 + (k % 3)}`);
  writeFileSync(at("indoors.csv"), `time,power,hr\n${timed.join("\n")}\n`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("rides that cannot be compared: a clear sentence, nothing written", () => {
  it.each([
    ["other continents", "away.gpx", "ridden far from each other"],
    ["one without positions", "indoors.csv", "indoors.csv has no positions"],
    ["opposite directions", "back.gpx", "the same road in opposite directions"],
    ["other roads", "other.gpx", "share no road"],
  ])("%s", async (_, other, says) => {
    const before = readdirSync(folder).sort();
    const { code, stderr, stdout } = await run("today.gpx", other, "--out", at("film.mp4"));
    expect(code).toBe(3);
    expect(stderr).toContain(says);
    expect(stderr).not.toMatch(/undefined|NaN|\bat \/|Error:/);
    expect(stdout).toBe("");
    expect(readdirSync(folder).sort()).toEqual(before);
  });

  it.each([
    ["one ride", ["today.gpx"], 2, "two ride files"],
    ["three rides", ["today.gpx", "before.gpx", "back.gpx"], 2, "3 were given"],
    [
      "a stretch that ends before it begins",
      ["today.gpx", "before.gpx", "--from", "0:05:00", "--to", "0:02:00"],
      2,
      "before it begins",
    ],
    ["a pass that was not ridden", ["today.gpx", "before.gpx", "--pass", "3"], 2, "once"],
    ["a place outside the ride", ["today.gpx", "before.gpx", "--to", "40 km"], 3, "outside the ride"],
    ["more than the other rode", ["nine.gpx", "once.gpx", "--from", "0:01:00", "--to", "0:15:00"], 3, "in one go"],
  ])("%s", async (_, args, exit, says) => {
    const { code, stderr } = await run(...args, "--out", at("film.mp4"));
    expect(code).toBe(exit);
    expect(stderr).toContain(says);
    expect(existsSync(at("film.mp4"))).toBe(false);
  });

  it("in German too", async () => {
    const { code, stderr } = await run("today.gpx", "back.gpx", "--language", "de");
    expect(code).toBe(3);
    expect(stderr).toContain("in entgegengesetzter Richtung");
  });
});

interface Row {
  readonly fromM: number;
  readonly toM: number;
  readonly gainedS: number;
  readonly first: { readonly startS: number; readonly endS: number; readonly powerW: number | null };
}

describe("rides on one road", () => {
  it("the table's parts add up to the whole, in text and JSON", async () => {
    const args = ["today.gpx", "before.gpx", "--from", "0:01:00", "--to", "0:06:00"];
    const { code, stdout } = await run(...args, "--json");
    expect(code).toBe(0);
    const { whole, parts, pass, passes } = JSON.parse(stdout) as Record<"pass" | "passes", number> & {
      readonly whole: Row;
      readonly parts: readonly Row[];
    };
    expect([pass, passes]).toEqual([1, 1]);
    expect(whole.first).toMatchObject({ startS: 60, endS: 360 });
    expect(parts.reduce((sum, { gainedS }) => sum + gainedS, 0)).toBeCloseTo(whole.gainedS, 0);
    expect(whole.gainedS).toBeGreaterThan(30);
    expect(whole.first.powerW).toBeCloseTo(189.5, 0);
    const text = await run(...args);
    expect(text.stdout).toContain(`+${Math.round(whole.gainedS)} s`);
    expect(text.stdout.split("\n").filter((line) => / km /.test(line))).toHaveLength(parts.length);
  });

  it("the same ride twice: every difference is 0, and it is said", async () => {
    const { code, stdout, stderr } = await run("today.gpx", "today.gpx", "--json");
    expect(code).toBe(0);
    expect(stderr).toContain("one and the same ride");
    const { parts } = JSON.parse(stdout) as { readonly parts: readonly Row[] };
    for (const { gainedS } of parts) expect(Math.abs(gainedS)).toBe(0);
  });

  it("a lap ridden once against nine: said, and each can be chosen", async () => {
    const args = ["once.gpx", "nine.gpx", "--from", "0:00:20", "--to", "0:02:00", "--json"];
    const first = await run(...args);
    expect(first.stderr).toContain("9 times");
    const starts = [1, 9].map(async (pass) => {
      const { stdout } = await run(...args, "--pass", String(pass));
      return (JSON.parse(stdout) as { readonly whole: { readonly second: { readonly startS: number } } }).whole.second
        .startS;
    });
    const [one, ninth] = await Promise.all(starts);
    expect(ninth! - one!).toBeGreaterThan(8 * 150);
  });

  it("without any footage the film is as long as the first ride takes", async () => {
    const { code, stderr } = await run(
      ...["today.gpx", "before.gpx", "--from", "0:01:00", "--to", "0:01:08"],
      ...["--out", at("film.mp4"), "--preset", "draft", "--names", "you,coach"],
    );
    expect(stderr).not.toContain("followcar:");
    expect(code).toBe(0);
    const { streams } = await probeFile(at("film.mp4"), testTools());
    const video = streams.find((stream) => stream.codec_type === "video")!;
    expect(Number(video.nb_frames)).toBe(240);
    rmSync(at("film.mp4"));
  }, 120_000);

  it("a clip missing in the middle of the shot: said from when to when, and the film is whole", async () => {
    const { ffmpeg } = testTools();
    // Two of the same bytes would be one clip given twice.
    for (const [name, colour] of [
      ["a.mp4", "white"],
      ["b.mp4", "0xf0f0f0"],
    ] as const) {
      const source = ["-f", "lavfi", "-i", `color=c=${colour}:size=320x180:rate=30000/1001:duration=4`];
      await runFfmpeg(ffmpeg, ["-v", "error", "-y", ...source, "-c:v", "libx264", "-pix_fmt", "yuv420p", at(name)]);
    }
    const { code, stderr } = await run(
      ...["today.gpx", "before.gpx", "a.mp4", "b.mp4", "--from", "0:01:00", "--to", "0:01:12"],
      ...["--anchor", "a.mp4@0:00=0:01:00", "--anchor", "b.mp4@0:00=0:01:08"],
      ...["--out", at("gap.mp4"), "--preset", "draft"],
    );
    expect(stderr).not.toContain("followcar:");
    expect(code).toBe(0);
    expect(stderr).toMatch(/No clip shows today\.gpx from 0:01:0[34] to 0:01:08/);
    const { streams } = await probeFile(at("gap.mp4"), testTools());
    const video = streams.find((stream) => stream.codec_type === "video")!;
    expect(Number(video.nb_frames)).toBe(Math.round((12 * 30_000) / 1001));
    const lumas = await lumaFrames(at("gap.mp4"), Number(video.width), Number(video.height), testTools());
    // White where there is footage, dark where its place is a card.
    const [wide, high] = [Number(video.width), Number(video.height)];
    const middle = (filmS: number) => lumas[Math.round(filmS * 29.97)]![Math.round(0.4 * high) * wide + wide / 4]!;
    expect([middle(2) > 150, middle(6) < 100, middle(10) > 150]).toEqual([true, true, true]);
    for (const name of ["gap.mp4", "a.mp4", "b.mp4"]) rmSync(at(name));
  }, 180_000);
});
