// Footage of the demo lined up from the command line: telemetry of full length on pictures that show nothing.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { addTelemetryTrack } from "../../main/demo/addTelemetryTrack.edge.ts";
import { cameraTelemetry, PAYLOAD_S } from "../../main/demo/cameraTelemetry.ts";
import { cameraCreationTime, cameraTimecode, demoClips } from "../../main/demo/demoClips.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { secondRideFile, SECOND_STARTS_S } from "../../main/demo/secondRide.ts";
import { runProgram } from "../support/runProgram.ts";
import { testTools } from "../support/tools.ts";

const truth = demoRide(1);
const clips = demoClips(truth);
const names = clips.map(({ fileName }) => fileName);
let folder = "";
let env: Record<string, string> = {};
const at = (name: string) => join(folder, name);

function blankClip(name: string, durationS: number, ...more: string[]): void {
  execFileSync(testTools().ffmpeg, [
    "-v",
    "error",
    "-f",
    "lavfi",
    "-i",
    `color=gray:size=64x36:rate=30000/1001:duration=${durationS}`,
    "-c:v",
    "libx264",
    "-preset",
    "ultrafast",
    "-g",
    "15",
    "-pix_fmt",
    "yuv420p",
    ...more,
    "-y",
    at(name),
  ]);
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "followcar-lineup-"));
  env = { FOLLOWCAR_CACHE: at("cache") };
  writeFileSync(at("ride.fit"), demoRideFile(truth));
  writeFileSync(at("ride-second.fit"), secondRideFile(truth));
  for (const clip of clips) {
    blankClip(
      clip.fileName,
      clip.durationS,
      "-metadata",
      `creation_time=${cameraCreationTime(truth, clip)}`,
      "-timecode",
      cameraTimecode(truth, clip),
    );
    await addTelemetryTrack(at(clip.fileName), cameraTelemetry(truth, clip, clip.durationS), PAYLOAD_S, clip.durationS);
  }
  writeFileSync(
    at("elsewhere.fit"),
    demoRideFile({ ...truth, records: { ...truth.records, latDeg: truth.records.latDeg.map((lat) => lat + 1) } }),
  );
  // Every byte of the telemetry overwritten, the container's tables whole.
  const bytes = readFileSync(at(names[0]!));
  for (let from = bytes.indexOf("DEVC"); from >= 0; from = bytes.indexOf("DEVC", from + 1))
    bytes.fill(0xa7, from, from + 300);
  writeFileSync(at("corrupt.mp4"), bytes);
  blankClip("messenger.mp4", 20, "-map_metadata", "-1");
  blankClip("frozen.mp4", 20, "-metadata", "creation_time=2026-04-12T03:20:00Z");
  blankClip("clock1970.mp4", 20, "-metadata", "creation_time=1970-01-01T00:00:30Z");
  blankClip("clock2080.mp4", 20, "-metadata", "creation_time=2080-02-01T10:00:00Z");
  execFileSync(testTools().ffmpeg, [
    "-v",
    "error",
    "-f",
    "lavfi",
    "-i",
    "testsrc2=size=128x72:rate=240:duration=6",
    "-c:v",
    "libx264",
    "-preset",
    "ultrafast",
    "-metadata",
    "creation_time=2026-04-12T03:20:00Z",
    at("fps240.mp4"),
  ]);
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Answer {
  readonly clips: readonly {
    readonly rideStartS: number | null;
    readonly method: string;
    readonly sure: boolean;
    readonly uncertaintyS: number;
    readonly reason: string;
  }[];
  readonly rides: readonly {
    readonly file: string;
    readonly shown: boolean;
    readonly offsetS: number;
    readonly uncertaintyS: number;
  }[];
}

describe("the demo's telemetry, from the command line", () => {
  it("places its clips within 0.10 s without an anchor, and the second rider's file within 1 s", async () => {
    const run = await runProgram(["lineup", "--json", "ride-second.fit", "ride.fit", ...names, "--show", "ride.fit"], {
      cwd: folder,
      env,
    });
    expect(run.code, run.stderr).toBe(0);
    const { clips: placed, rides } = JSON.parse(run.stdout) as Answer;
    clips.forEach(({ startS, fileName }, k) => {
      expect(placed[k], fileName).toMatchObject({ method: "telemetry", sure: true });
      expect(Math.abs(placed[k]!.rideStartS! - startS), fileName).toBeLessThan(0.1);
    });
    const second = rides.find(({ file }) => file === "ride-second.fit")!;
    expect(second.shown).toBe(false);
    expect(Math.abs(second.offsetS - SECOND_STARTS_S)).toBeLessThan(1);
    expect(second.uncertaintyS).toBeLessThanOrEqual(1);
  });

  it("lets an anchor win over it", async () => {
    const run = await runProgram(["lineup", "--json", "ride.fit", names[0]!, "--anchor", `${names[0]}@10=0:50:00`], {
      cwd: folder,
      env,
    });
    expect((JSON.parse(run.stdout) as Answer).clips[0]).toMatchObject({ method: "anchor", rideStartS: 2990 });
    expect(run.stderr).toMatch(/disagree by/);
  });
});

describe("a clock that was filmed", () => {
  it("is offered the sharpest frames about an instant, each with its anchor and its picture", async () => {
    const run = await runProgram(
      ["lineup", "ride.fit", names[0]!, "--frames", `${names[0]}@0:05`, "--evidence", "look"],
      {
        cwd: folder,
        env,
      },
    );
    expect(run.code, run.stderr).toBe(0);
    const offered = [...run.stdout.matchAll(/--anchor "([^"]+@([\d.]+))=clock [^"]+" +(\S+)/g)];
    expect(offered.length).toBeGreaterThan(1);
    for (const [, , atS, path] of offered) {
      expect(Math.abs(Number(atS) - 5)).toBeLessThanOrEqual(2);
      expect(readFileSync(at(path!)).subarray(1, 4).toString()).toBe("PNG");
    }
    const wrong = await runProgram(["lineup", "ride.fit", names[0]!, "--frames", names[0]!], { cwd: folder, env });
    expect(wrong.code).toBe(2);
  });

  it("sets two anchors that no clock explains: exit code 4, the pair said", async () => {
    const anchors = [`${names[0]}@2=0:50:00`, `${names[0]}@20=0:51:30`].flatMap((anchor) => ["--anchor", anchor]);
    const run = await runProgram(["lineup", "ride.fit", names[0]!, ...anchors], { cwd: folder, env });
    expect(run.code).toBe(4);
    expect(run.stdout).toMatch(/marks 1 and 2 disagree by 72\.0 s/);
  });
});

describe("footage that tells no place", () => {
  it("telemetry of another ride is never taken for this one's", async () => {
    const run = await runProgram(["lineup", "--json", "elsewhere.fit", "bars-0002.mp4"], { cwd: folder, env });
    expect(run.code, run.stderr).toBe(4);
    expect((JSON.parse(run.stdout) as Answer).clips[0]!.sure).toBe(false);
    expect(run.stderr).toMatch(/bars-0002\.mp4.*--anchor/s);
    const plain = await runProgram(["lineup", "elsewhere.fit", "bars-0002.mp4", "messenger.mp4"], { cwd: folder, env });
    expect(plain.stdout).toMatch(
      /^bars-0002\.mp4: at [\d:]+ of the ride \(not sure, to about [\d.]+ s\): [a-z].*[^.]\.$/m,
    );
    expect(plain.stdout).toMatch(/^messenger\.mp4: nowhere in the ride \([a-z ]+\): [a-z].*[^.]\.$/m);
  });

  it("each is said in words, none is sure, exit 4", async () => {
    const odd = ["corrupt.mp4", "messenger.mp4", "frozen.mp4", "clock1970.mp4", "clock2080.mp4", "fps240.mp4"];
    const run = await runProgram(["lineup", "--json", "ride.fit", ...odd], { cwd: folder, env });
    expect(run.code, run.stderr).toBe(4);
    const { clips: placed } = JSON.parse(run.stdout) as Answer;
    expect(placed.map(({ sure }) => sure)).toEqual(odd.map(() => false));
    const said = [run.stderr, ...placed.map(({ reason }) => reason)].join("\n");
    for (const words of [
      /corrupt\.mp4: .*(parts of the telemetry track could not be read|holds no satellite positions)/,
      /messenger\.mp4 carries no clock/,
      /picture of frozen\.mp4 stands still throughout/,
      /frozen\.mp4 has no sound/,
      /was not set when clock1970\.mp4 was filmed/,
      /was not set when clock2080\.mp4 was filmed/,
      /fps240\.mp4 has no sound/,
      /--anchor/,
    ])
      expect(said).toMatch(words);
  });
});
