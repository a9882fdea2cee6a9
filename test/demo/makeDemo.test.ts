import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { CAMERA_AHEAD_S } from "../../main/demo/demoClips.ts";
import { motionAt } from "../../main/demo/demoTruth.ts";
import { filmClip } from "../../main/demo/filmClip.edge.ts";
import { makeDemo } from "../../main/demo/makeDemo.edge.ts";
import type { Demo } from "../../main/demo/makeDemo.edge.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { testTools } from "../support/tools.ts";
import { Cancelled } from "../../main/contract/job.ts";

const tools = testTools();
const folder = mkdtempSync(path.join(tmpdir(), "demo ü "));
let demo: Demo;

beforeAll(async () => {
  demo = await makeDemo(
    folder,
    tools,
    { signal: new AbortController().signal, report: () => undefined },
    { small: true, secondRider: true },
  );
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The clip that the anchor names, and where in it the wheels stop, s. */
function anchored(): { readonly index: number; readonly mediaS: number; readonly rideS: number } {
  const match = /^(.*)@([\d.]+)=(\d+):(\d\d):(\d\d\.\d\d)$/.exec(demo.anchor)!;
  const rideS = Number(match[3]) * 3600 + Number(match[4]) * 60 + Number(match[5]);
  return { index: demo.clipPaths.indexOf(match[1]!), mediaS: Number(match[2]), rideS };
}

function probed(clip: string): {
  readonly streams: Record<string, string>[];
  readonly format: { readonly tags: Record<string, string> };
} {
  const args = ["-v", "error", "-count_packets", "-show_streams", "-show_format", "-of", "json", clip];
  return JSON.parse(execFileSync(tools.ffprobe, args, { encoding: "utf8" })) as ReturnType<typeof probed>;
}

/** Small grey pictures of the whole clip, without the bars at the bottom. */
function greyFrames(clip: string): Uint8Array[] {
  const args = [
    "-v",
    "error",
    "-i",
    `file:${clip}`,
    "-an",
    "-vf",
    "crop=iw:ih*0.7:0:0,scale=64:32:flags=area,format=gray",
    "-f",
    "rawvideo",
    "-",
  ];
  const bytes = execFileSync(tools.ffmpeg, args, { maxBuffer: 1 << 28 });
  return Array.from({ length: bytes.length / 2048 }, (_, i) => bytes.subarray(i * 2048, (i + 1) * 2048));
}

function changeBetween(a: Uint8Array, b: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += Math.abs(a[i]! - b[i]!);
  return sum / a.length;
}

function soundOf(clip: string): Int16Array {
  const bytes = execFileSync(
    tools.ffmpeg,
    ["-v", "error", "-i", `file:${clip}`, "-vn", "-ac", "1", "-ar", "8000", "-f", "s16le", "-"],
    { maxBuffer: 1 << 28 },
  );
  return new Int16Array(bytes.buffer, bytes.byteOffset, bytes.length / 2);
}

function loudness(sound: Int16Array, fromS: number, toS: number): number {
  let sum = 0;
  for (let i = Math.floor(fromS * 8000); i < toS * 8000; i++) sum += sound[i]! ** 2;
  return Math.sqrt(sum / ((toS - fromS) * 8000));
}

describe("the demo's footage", () => {
  it("is three MP4 clips at 30000/1001 with H.264, AAC and BT.709 tags, and nothing else is left in the folder", () => {
    for (const [i, clip] of demo.clipPaths.entries()) {
      const { streams } = probed(clip);
      const [video, audio] = streams;
      const frames = Math.round((demo.clips[i]!.durationS * 30000) / 1001);
      expect(video).toMatchObject({
        codec_name: "h264",
        r_frame_rate: "30000/1001",
        avg_frame_rate: "30000/1001",
        color_space: "bt709",
        color_range: "tv",
        pix_fmt: "yuv420p",
      });
      expect(Number(video!["nb_read_packets"])).toBe(frames);
      expect(audio).toMatchObject({ codec_name: "aac" });
    }
    expect(readdirSync(folder).sort()).toEqual([
      "bars-0001.mp4",
      "bars-0002.mp4",
      "bars-0003.mp4",
      "plan.json",
      "ride-second.fit",
      "ride.fit",
    ]);
  });

  it("has a camera clock 37.4 s ahead of local time, written as if it were UTC", () => {
    for (const [i, clip] of demo.clipPaths.entries()) {
      const claimedMs = Date.parse(probed(clip).format.tags["creation_time"]!);
      const trueMs = demo.truth.startUtcMs + demo.clips[i]!.startS * 1000;
      expect((claimedMs - trueMs) / 1000).toBeCloseTo(demo.truth.utcOffsetMin * 60 + CAMERA_AHEAD_S, 6);
    }
  });

  it("gives an anchor at the instant at which the wheels stop", () => {
    const { index, mediaS, rideS } = anchored();
    expect(rideS - mediaS).toBeCloseTo(demo.clips[index]!.startS, 2);
    const { motion } = demo.truth;
    expect(motionAt(motion, motion.speedMps, rideS - 0.5)).toBeGreaterThan(0.3);
    expect(motionAt(motion, motion.speedMps, rideS + 0.1)).toBe(0);
  });

  it("moves while the wheels roll and stands still while they do not", () => {
    const { index, mediaS } = anchored();
    const frames = greyFrames(demo.clipPaths[index]!);
    const stopFrame = Math.round((mediaS * 30000) / 1001);
    const mean = (from: number, to: number): number => {
      let sum = 0;
      for (let i = from; i < to; i++) sum += changeBetween(frames[i]!, frames[i + 1]!);
      return sum / (to - from);
    };
    const rolling = mean(stopFrame - 170, stopFrame - 60);
    // Only the lamps blink before the train comes.
    const standing = mean(stopFrame + 5, stopFrame + 60);
    expect(standing).toBeLessThan(rolling / 4);
  });

  it("is loud at speed and quiet at rest, but for the bell", () => {
    const { index, mediaS: stopS } = anchored();
    const atRest = soundOf(demo.clipPaths[index]!);
    const others = demo.clipPaths.filter((_, i) => i !== index).map(soundOf);
    const rolling = Math.min(...others.map((sound) => loudness(sound, 2, 10)));
    // Between two blows of the bell the air is quiet: the quietest tenths of a second tell it.
    let quietest = Infinity;
    for (let s = stopS + 0.5; s < stopS + 2.5; s += 0.05) quietest = Math.min(quietest, loudness(atRest, s, s + 0.05));
    expect(rolling).toBeGreaterThan(4 * quietest);
  });

  it("is drawn anew the same from the same seed", async () => {
    const clip = { fileName: "short.mp4", startS: demo.clips[1]!.startS, durationS: 1, telemetry: false };
    const film = async (seed: number) => {
      const at = mkdtempSync(path.join(tmpdir(), "demo-again-"));
      try {
        const picture = { widthPx: 160, heightPx: 90 };
        const made = await filmClip(
          demoRide(seed),
          clip,
          at,
          picture,
          tools,
          new AbortController().signal,
          () => undefined,
        );
        return { frames: greyFrames(made), sound: soundOf(made) };
      } finally {
        rmSync(at, { recursive: true, force: true });
      }
    };
    const first = await film(demo.truth.seed);
    expect(first.frames).toHaveLength(30);
    expect(await film(demo.truth.seed)).toEqual(first);
    expect((await film(demo.truth.seed + 1)).frames).not.toEqual(first.frames);
  });

  it("stops when asked to and leaves no half clip", async () => {
    const half = mkdtempSync(path.join(tmpdir(), "demo-half-"));
    const stop = new AbortController();
    try {
      const making = makeDemo(
        half,
        tools,
        { signal: stop.signal, report: ({ done }) => (done > 0.1 ? stop.abort() : undefined) },
        { small: true },
      );
      await expect(making).rejects.toThrow(Cancelled);
      expect(readdirSync(half).filter((name) => /mp4|part/.test(name))).toEqual([]);
    } finally {
      rmSync(half, { recursive: true, force: true });
    }
  });

  it("says in one sentence when the folder cannot be written", async () => {
    const making = makeDemo(
      path.join(demo.ridePath, "below-a-file"),
      tools,
      { signal: new AbortController().signal, report: () => undefined },
      { small: true },
    );
    await expect(making).rejects.toMatchObject({
      code: "output-not-writable",
      notice: { facts: { folder: expect.stringContaining("below-a-file") } },
    });
  });
});
