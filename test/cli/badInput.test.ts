// What a person gets for input that cannot be used: one sentence that names the file, a remedy, the documented exit
// code, no stack trace, nothing half-written.
import { execFileSync } from "node:child_process";
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { noteMadeHere } from "../../main/debrief/madeHere.edge.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { runProgram, type ProgramRun } from "../support/runProgram.ts";
import { testTools } from "../support/tools.ts";

let folder = "";
const at = (name: string) => join(folder, name);

/** A clip of 4 s; `created` is what its camera claims. */
function makeClip(path: string, created = "2026-04-12T03:20:00Z", more: readonly string[] = []): void {
  execFileSync(testTools().ffmpeg, [
    "-v",
    "error",
    "-f",
    "lavfi",
    "-i",
    "testsrc2=size=160x90:rate=25:duration=8",
    "-f",
    "lavfi",
    "-i",
    "sine=220:duration=8",
    "-c:v",
    "libx264",
    "-preset",
    "ultrafast",
    "-pix_fmt",
    "yuv420p",
    "-c:a",
    "aac",
    "-metadata",
    `creation_time=${created}`,
    ...more,
    "-y",
    `file:${path}`,
  ]);
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-bad-"));
  const fit = demoRideFile(demoRide(7));
  writeFileSync(at("ride.fit"), fit);
  writeFileSync(at("empty.fit"), "");
  writeFileSync(at("letter.fit"), "Dear coach, the file is attached.\n");
  writeFileSync(at("headOnly.fit"), fit.subarray(0, 30));
  writeFileSync(
    at("one.gpx"),
    '<?xml version="1.0"?><gpx version="1.1"><trk><trkseg><trkpt lat="1" lon="2"><time>2026-04-12T03:20:00Z</time></trkpt></trkseg></trk></gpx>',
  );
  makeClip(at("clip.mp4"));
  makeClip(at("elsewhere.mp4"), "2019-01-01T00:00:00Z");
  makeClip(at("soundOnly.mp4"), undefined, ["-map", "1:a"]);
  copyFileSync(at("clip.mp4"), at("cut.mp4"));
  truncateSync(at("cut.mp4"), 5000);
  writeFileSync(at("empty.mp4"), "");
  writeFileSync(at("plan.json"), '{ "target": "plenty" }');
  writeFileSync(at("notJson.json"), "{ target: 185");
  writeFileSync(at("aFile"), "");
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The form of every refusal. */
function expectRefusal(run: ProgramRun, code: number, names: string): void {
  expect(run.code, run.stderr).toBe(code);
  expect(run.stderr).toContain(names);
  // Lines of progress end in a percentage and are no message.
  expect(
    run.stderr.split("\n").filter((line) => line !== "" && !/\[[#.]+\] +\d+ %/.test(line)).length,
  ).toBeLessThanOrEqual(3);
  expect(run.stderr).not.toMatch(/\n\s+at .*:\d+|Error:|undefined|NaN/);
  expect(run.stdout).toBe("");
}

describe("read", () => {
  it.each([
    ["not a ride", ["read", "letter.fit"], 3, "letter.fit"],
    ["empty", ["read", "empty.fit"], 3, "empty.fit"],
    ["truncated before the first record", ["read", "headOnly.fit"], 3, "headOnly.fit"],
    ["one record", ["read", "one.gpx"], 3, "one.gpx"],
    ["no such file", ["read", "nowhere.fit"], 3, "nowhere.fit"],
    ["a folder", ["read", "."], 3, "."],
    ["a plan with nonsense", ["read", "ride.fit", "--plan", "plan.json"], 3, "plan.json"],
    ["a plan that is no JSON", ["read", "ride.fit", "--plan", "notJson.json"], 3, "notJson.json"],
    ["no file", ["read"], 2, "read"],
    ["an unknown option", ["read", "ride.fit", "--loud"], 2, "--loud"],
    ["a mistyped option", ["read", "ride.fit", "--tagret", "160"], 2, "Did you mean --target?"],
    ["a mistyped verb", ["raed", "ride.fit"], 2, "Did you mean read?"],
    ["a target that is no number", ["read", "ride.fit", "--target", "lots"], 2, "lots"],
    ["an unknown verb", ["cook"], 2, "cook"],
  ])("%s", async (_what, args, code, names) => {
    expectRefusal(await runProgram(args, { cwd: folder }), code, names);
  });
});

describe("clips and anchors", () => {
  it.each([
    ["a clip without video", ["debrief", "ride.fit", "soundOnly.mp4"], 3, "soundOnly.mp4"],
    ["a clip that ends in the middle", ["debrief", "ride.fit", "cut.mp4"], 3, "cut.mp4"],
    ["an empty clip", ["debrief", "ride.fit", "empty.mp4"], 3, "empty.mp4"],
    ["a clip of another year", ["debrief", "ride.fit", "elsewhere.mp4"], 4, "elsewhere.mp4"],
    [
      "an anchor outside the ride",
      ["debrief", "ride.fit", "clip.mp4", "--anchor", "clip.mp4@0:01=9:00:00"],
      3,
      "9:00:00",
    ],
    [
      "an anchor outside the clip",
      ["debrief", "ride.fit", "clip.mp4", "--anchor", "clip.mp4@0:59=1:00:00"],
      3,
      "clip.mp4",
    ],
    [
      "an anchor for no clip",
      ["debrief", "ride.fit", "clip.mp4", "--anchor", "other.mp4@0:01=1:00:00"],
      3,
      "other.mp4",
    ],
    ["a clock alone", ["debrief", "ride.fit", "clip.mp4"], 4, "clip.mp4"],
    ["an output folder that is a file", ["debrief", "ride.fit", "--out", "aFile"], 1, "aFile"],
    ["clips without a ride", ["debrief", "clip.mp4"], 2, "ride"],
  ])("%s", async (_what, args, code, names) => {
    const before = readdirSync(folder).sort();
    expectRefusal(await runProgram(args, { cwd: folder }), code, names);
    expect(readdirSync(folder).sort()).toEqual(before);
  });
});

describe("a file that is not there", () => {
  it.each([
    ["a ride", ["read", "nowhere.fit"], "nowhere.fit"],
    ["a ride of an outing", ["debrief", "rides/nowhere.fit"], "rides/nowhere.fit"],
    ["a clip", ["debrief", "ride.fit", "nowhere.mp4"], "nowhere.mp4"],
  ])("%s is named with the whole path that was looked for", async (_what, args, name) => {
    expectRefusal(await runProgram(args, { cwd: folder }), 3, `${at(name)} does not exist.`);
  });
});

describe("a debrief where a ride file is wanted", () => {
  const wanted = [
    ["read", ["read", "sunday-debrief"]],
    ["read of its document", ["read", "sunday-debrief/debrief.json"]],
    ["compare", ["compare", "ride.fit", "sunday-debrief/"]],
    ["debrief", ["debrief", "sunday-debrief"]],
  ] as const;
  const env = () => ({ FOLLOWCAR_CACHE: at("cache") });

  beforeAll(async () => {
    mkdirSync(at("sunday-debrief"));
    process.env.FOLLOWCAR_CACHE = at("cache");
    const ref = { id: "ride1", kind: "ride", path: "../ride.fit", bytes: 1, fingerprint: "a" } as const;
    await saveDebrief(at("sunday-debrief"), newDebrief(defaultPlan({ setting: "road" }), [ref], "ride1"));
    delete process.env.FOLLOWCAR_CACHE;
  });
  afterAll(() => rmSync(at("sunday-debrief"), { recursive: true, force: true }));

  it("is told by name; where it points is looked at only when it was made here", async () => {
    const run = await runProgram(["read", "sunday-debrief"], { cwd: folder, env: env() });
    expectRefusal(run, 3, "sunday-debrief is a debrief, not a ride file.");
    expect(run.stderr).toContain("Name the ride file that it was made of: ride.fit.");
  });

  it.each(wanted)("%s names its ride file with a path that can be given", async (_what, args) => {
    process.env.FOLLOWCAR_CACHE = at("cache");
    await noteMadeHere(at("sunday-debrief"));
    delete process.env.FOLLOWCAR_CACHE;
    const run = await runProgram(args, { cwd: folder, env: env() });
    expectRefusal(run, 3, "sunday-debrief is a debrief, not a ride file.");
    const path = /Name its ride file instead: (.*)\.$/m.exec(run.stderr)![1]!;
    expect(path).toBe(at("ride.fit"));
    expect((await runProgram(["read", path], { cwd: "/" })).code).toBe(0);
  });

  it("a folder that is none gets no remedy that can't be done", async () => {
    const run = await runProgram(["read", "."], { cwd: folder });
    expect(run.stderr).toContain("Name a ride file, not its folder.");
  });
});

describe("judge without a word", () => {
  it.each([
    ["en", "--break T=REASON or --skill NAME=TIMES"],
    ["de", "--break T=GRUND oder --skill NAME=ANZAHL"],
  ])("names all that it takes, %s", async (language, names) => {
    expectRefusal(await runProgram(["judge", "sunday-debrief", "--language", language], { cwd: folder }), 2, names);
  });
});

describe("odd names", () => {
  const names = ["with space.fit", 'it\'s "quoted".fit', "100%d.fit", "M\u00fcnsterl\u00e4nder.fit", "-dash.fit"];

  it.each(names)("a ride called %s is read", async (name) => {
    copyFileSync(at("ride.fit"), at(name));
    const run = await runProgram(["read", "--json", "--", name], { cwd: folder });
    expect(run.code, run.stderr).toBe(0);
    expect(JSON.parse(run.stdout).ride.file).toBe(name);
  });

  it.each(["with space.mp4", 'it\'s "quoted".mp4', "100%d.mp4", "\u00fc@=.mp4", "-dash.mp4"])(
    "a clip called %s is lined up",
    async (name) => {
      const place = at(`clips ${names.length}`);
      mkdirSync(place, { recursive: true });
      copyFileSync(at("clip.mp4"), join(place, name));
      copyFileSync(at("ride.fit"), join(place, "ride.fit"));
      const run = await runProgram(["lineup", "--json", `--anchor=${name}@0:01=1:00:00`, "--", "ride.fit", name], {
        cwd: place,
      });
      expect(run.code, run.stderr).toBe(0);
      expect(JSON.parse(run.stdout).clips[0].rideStartS).toBeCloseTo(3599, 6);
      expect(existsSync(join(place, name))).toBe(true);
    },
  );
});
