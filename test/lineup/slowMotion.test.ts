import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { SIGNAL_STEP_S, type ClipSignals } from "../../main/contract/signals.ts";
import { addTelemetryTrack } from "../../main/demo/addTelemetryTrack.edge.ts";
import { cameraTelemetry, PAYLOAD_S } from "../../main/demo/cameraTelemetry.ts";
import { demoClips } from "../../main/demo/demoClips.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { readTelemetry } from "../../main/footage/telemetry/readTelemetry.edge.ts";
import { placeClips } from "../../main/lineup/placeClips.ts";
import { rideTrack } from "../../main/lineup/placeByTelemetry.ts";
import { rideSeries } from "../../main/lineup/signals/rideSeries.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { ffmpeg, scratchFolder } from "../footage/makeClip.ts";
import { testTools } from "../support/tools.ts";
import { madeClip } from "./madeClip.ts";
import { simulateClip } from "./simulateSignals.ts";
import { placementReasonText } from "../../overlay/words/notices/placementReason.ts";

const ride = parseRide(demoRideFile(demoRide(2)), "ride.fit");
const series = rideSeries(ride);
/** 240 pictures a second, played at 30. */
const TIMES = 8;
const filmedS = 30;

/** The ride's own places from `startS` on as a camera beside the recorder would write them, on a media time drawn out. */
function slowTelemetry(clipId: string, startS: number) {
  const track = rideTrack(ride);
  // Ten a second as the receiver counts, straight between the ride's records.
  const atS = Float64Array.from({ length: 10 * filmedS }, (_, k) => startS + k / 10);
  const pick = (column: Float64Array) =>
    atS.map((t) => {
      const after = track.mediaS.findIndex((other) => other > t);
      const share = (t - track.mediaS[after - 1]!) / (track.mediaS[after]! - track.mediaS[after - 1]!);
      return column[after - 1]! + share * (column[after]! - column[after - 1]!);
    });
  const positions = {
    mediaS: atS.map((t) => (t - startS) * TIMES),
    latDeg: pick(track.latDeg),
    lonDeg: pick(track.lonDeg),
    speedMps: pick(track.speedMps),
  };
  return { clipId, positions, utc: null, gyro: null, acceleration: null, bytesRead: 0, lacks: [] };
}

/** What a camera saw and heard in `filmedS`, each moment drawn out. */
function slowSignals(clipId: string, seed: number, lengthS = filmedS): ClipSignals {
  const { series: seen } = simulateClip(series, lengthS, seed);
  const drawn = (column: Float64Array | null) =>
    column && Float64Array.from({ length: column.length * TIMES }, (_, k) => column[Math.floor(k / TIMES)]!);
  const motion = drawn(seen.motion);
  return {
    clipId,
    count: motion!.length,
    motion,
    sound: drawn(seen.sound),
    turning: drawn(seen.turning),
    bytesRead: 0,
    lacks: [],
  };
}

const input = { ride, anchors: [], deviceDelayS: 0 };

describe("240 pictures a second played as fast", () => {
  it("are read to the frame, with telemetry laid on media time, and are no slow motion", async () => {
    const truth = demoRide(2);
    const filmed = demoClips(truth)[2]!;
    const placedAt = async (rate: number) => {
      const path = join(scratchFolder(), `rate-${rate}.mp4`);
      ffmpeg(
        ...["-f", "lavfi", "-i", `testsrc2=size=64x36:rate=${rate}:duration=${filmed.durationS}`],
        ...["-c:v", "libx264", "-preset", "ultrafast", "-g", `${rate}`, path],
      );
      await addTelemetryTrack(path, cameraTelemetry(truth, filmed, filmed.durationS), PAYLOAD_S, filmed.durationS);
      const clip = await probeClip(path, "fast", testTools());
      expect(clip.frameRate).toEqual({ num: rate, den: 1 });
      expect(clip.frames.ticks.length).toBe(Math.round(rate * filmed.durationS));
      expect(clip).not.toHaveProperty("slowedBy");
      const telemetry = (await readTelemetry(clip))!;
      const { mediaS } = telemetry.positions!;
      expect(mediaS[mediaS.length - 1]).toBeLessThanOrEqual(filmed.durationS);
      expect(mediaS[mediaS.length - 1]).toBeGreaterThan(filmed.durationS - 2);
      return placeClips({ ...input, clips: [clip], telemetry: [telemetry] }).clips[0]!;
    };
    const [fast, usual] = [await placedAt(240), await placedAt(30)];
    expect(fast).toMatchObject({ method: "telemetry", sure: true, found: { rate: 1 } });
    expect(Math.abs(fast.found!.offsetS - filmed.startS)).toBeLessThanOrEqual(fast.uncertaintyS!);
    expect(fast.found!.offsetS).toBeCloseTo(usual.found!.offsetS, 2);
  });
});

describe("240 pictures a second played at 30", () => {
  it("is known by its own positions and gets the clock that runs as slowly", () => {
    const clip = madeClip("slow", filmedS * TIMES, { hasTelemetry: true });
    const { clips } = placeClips({ ...input, clips: [clip], telemetry: [slowTelemetry("slow", 1500)] });
    expect(placementReasonText(clips[0]!.reason, "en")).toContain("slow motion that plays 8 times slower");
    expect(clips[0]!.found!.rate).toBeCloseTo(1 / TIMES, 6);
    expect(Math.abs(clips[0]!.found!.offsetS - 1500)).toBeLessThan(0.5);
  });

  it("is known by the rate of taking that the file states", async () => {
    const path = join(scratchFolder(), "slow.mp4");
    ffmpeg(
      "-f",
      "lavfi",
      "-i",
      "testsrc2=size=64x36:rate=30:duration=4",
      "-c:v",
      "libx264",
      "-preset",
      "ultrafast",
      "-movflags",
      "use_metadata_tags",
      "-metadata",
      "com.android.capture.fps=240",
      path,
    );
    const clip = await probeClip(path, "slow", testTools());
    expect(clip.slowedBy).toBeCloseTo(TIMES, 6);
    const { clips } = placeClips({ ...input, clips: [clip], signals: [slowSignals("slow", 1)] });
    expect(clips[0]).toMatchObject({ sure: false, verdict: "not sure", found: null });
    expect(placementReasonText(clips[0]!.reason, "en")).toContain(
      "slow motion that plays 8 times slower than it was filmed",
    );
  });

  it("takes one anchor, and runs as slowly from there", () => {
    const clip = madeClip("slow", 240, { slowedBy: TIMES });
    const { clips } = placeClips({
      ...input,
      clips: [clip],
      anchors: [{ clipId: "slow", mediaS: 80, rideS: 1510, sigmaS: 0.1 }],
    });
    expect(clips[0]).toMatchObject({ method: "anchor", sure: true });
    expect(clips[0]!.found!.offsetS).toBeCloseTo(1500, 6);
    expect(clips[0]!.found!.rate).toBeCloseTo(1 / TIMES, 6);
  });

  it("does not speak for the other clips of its camera, nor they for it", () => {
    const createdUtcMs = ride.startUtcMs! + 1500_000;
    const slow = madeClip("slow", 240, { slowedBy: TIMES, createdUtcMs });
    const other = madeClip("other", 60, { createdUtcMs: createdUtcMs + 100_000 });
    const { clips } = placeClips({
      ...input,
      clips: [slow, other],
      anchors: [{ clipId: "other", mediaS: 0, rideS: 1600, sigmaS: 0.1 }],
    });
    expect(clips[0]).toMatchObject({ sure: false, inheritedFrom: null });
    expect(clips[1]).toMatchObject({ sure: true });
  });

  it("is not sure where nothing tells, whatever it shows and hears", () => {
    for (let seed = 1; seed <= 12; seed++) {
      const lengthS = [15, 30, 60][seed % 3]!;
      const clip = madeClip("slow", lengthS * TIMES);
      const signals = slowSignals("slow", seed, lengthS);
      expect(signals.motion!.length).toBe((lengthS * TIMES) / SIGNAL_STEP_S);
      const { clips } = placeClips({ ...input, clips: [clip], signals: [signals] });
      expect(clips[0]!.sure).toBe(false);
      expect(placementReasonText(clips[0]!.reason, "en")).toMatch(/were held against the ride, but/);
    }
  });

  it("leaves a clip at its own speed alone", () => {
    const telemetry = slowTelemetry("life", 1500);
    const positions = { ...telemetry.positions, mediaS: telemetry.positions.mediaS.map((t) => t / TIMES) };
    const { clips } = placeClips({
      ...input,
      clips: [madeClip("life", filmedS)],
      telemetry: [{ ...telemetry, positions }],
    });
    expect(clips[0]!.found!.rate).toBe(1);
    expect(placementReasonText(clips[0]!.reason, "en")).not.toContain("slow motion");
  });
});
