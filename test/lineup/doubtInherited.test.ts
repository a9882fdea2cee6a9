import { describe, expect, it } from "vitest";
import type { Clip } from "../../main/contract/footage.ts";
import type { ClipSignals } from "../../main/contract/signals.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { placeClips, signalsWanted } from "../../main/lineup/placeClips.ts";
import { rideSeries } from "../../main/lineup/signals/rideSeries.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { madeClip } from "./madeClip.ts";
import { simulateClip } from "./simulateSignals.ts";
import { placementReasonText } from "../../overlay/words/notices/placementReason.ts";

const ride = parseRide(demoRideFile(demoRide(2)), "ride.fit");
const series = rideSeries(ride);
const audio = { codec: "aac", sampleRateHz: 48_000, channels: 2 };
const base = { ride, deviceDelayS: 0 };

/** A clip with sound and a timecode that began at `rideS`, by a camera clock 100 s fast. */
function filmedAt(id: string, rideS: number, durationS: number, more: Partial<Clip> = {}): Clip {
  const createdUtcMs = Math.round(ride.startUtcMs! + 1000 * (rideS + 100));
  const timeOfDayS = (createdUtcMs / 1000) % 86_400;
  return madeClip(id, durationS, {
    audio,
    createdUtcMs,
    timecode: { frameNumber: Math.round(timeOfDayS * 30), timeOfDayS, dropFrame: false },
    ...more,
  });
}

const anchorOn = (clipId: string, rideS: number) => [{ clipId, mediaS: 0, rideS, sigmaS: 0.1 }];

function signalsOf(
  clipId: string,
  seen: {
    readonly motion: Float64Array | null;
    readonly sound: Float64Array | null;
    readonly turning: Float64Array | null;
  },
): ClipSignals {
  return { clipId, count: seen.motion!.length, ...seen, bytesRead: 0, lacks: [] };
}

describe("a clip that is sure by nothing but its camera's clock", () => {
  it("stays sure where nothing speaks against it", () => {
    const { clips } = placeClips({
      ...base,
      clips: [filmedAt("a", 1500, 60), filmedAt("b", 1700, 60)],
      anchors: anchorOn("a", 1500),
    });
    expect(clips[1]).toMatchObject({ verdict: "sure", inheritedFrom: "a" });
    expect(clips[1]!.found!.offsetS).toBeCloseTo(1700, 1);
  });

  it("is a conflict where it has no sound and the other clip has", () => {
    const { clips } = placeClips({
      ...base,
      clips: [filmedAt("a", 1500, 60), filmedAt("b", 1700, 60, { audio: null })],
      anchors: anchorOn("a", 1500),
    });
    expect(clips[1]).toMatchObject({ verdict: "conflict", sure: false });
    expect(placementReasonText(clips[1]!.reason, "en")).toMatch(
      /no sound, though a\.mp4 has: it may be slow motion or time lapse: one anchor in it settles it/,
    );
    expect(clips[1]!.candidates[0]!.rideStartS).toBeCloseTo(1700, 1);
    // With that anchor it is at rest.
    const settled = placeClips({
      ...base,
      clips: [filmedAt("a", 1500, 60), filmedAt("b", 1700, 60, { audio: null })],
      anchors: [...anchorOn("a", 1500), ...anchorOn("b", 1700)],
    });
    expect(settled.clips.every(({ sure }) => sure)).toBe(true);
  });

  it("is a conflict where it would still run while the camera filmed another clip", () => {
    // Filmed for 30 s, played for 240.
    const clips = [filmedAt("slow", 1500, 240), filmedAt("b", 1640, 60), filmedAt("c", 2000, 60)];
    const placed = placeClips({ ...base, clips, anchors: anchorOn("c", 2000) }).clips;
    expect(placed[0]).toMatchObject({ verdict: "conflict", sure: false });
    expect(placementReasonText(placed[0]!.reason, "en")).toContain(
      "it would still run 0:01:00 while the same camera filmed b.mp4",
    );
    // Which of the two is wrong, nobody knows.
    expect(placed[1]).toMatchObject({ verdict: "conflict", sure: false });
    expect(placed[2]!.sure).toBe(true);
  });

  it("is looked at and listened to, and stays sure where that agrees", () => {
    const found = { sure: 0, all: 0 };
    for (let seed = 1; seed <= 20; seed++) {
      const { series: seen, startS } = simulateClip(series, 480, seed);
      const anchorS = startS > 2000 ? 1000 : 6000;
      const clips = [filmedAt("a", anchorS, 60), filmedAt("b", startS, 480)];
      const input = { ...base, clips, anchors: anchorOn("a", anchorS) };
      expect(signalsWanted(input)).toEqual(["b"]);
      expect(signalsWanted({ ...input, indoors: true })).toEqual([]);
      const placed = placeClips({ ...input, signals: [signalsOf("b", seen)] }).clips;
      found.all += 1;
      if (placed[1]!.sure) found.sure += 1;
    }
    expect(found.sure).toBeGreaterThanOrEqual(19);
  });

  it("is a conflict, more often than not, where what it shows is slowed fourfold and nothing else tells", () => {
    let doubted = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const { series: seen, startS } = simulateClip(series, 120, seed);
      const drawn = (column: Float64Array | null) =>
        column && Float64Array.from({ length: 4 * column.length }, (_, k) => column[Math.floor(k / 4)]!);
      const anchorS = startS > 2000 ? 1000 : 6000;
      const clips = [filmedAt("a", anchorS, 60), filmedAt("b", startS, 480)];
      const slowed = signalsOf("b", {
        motion: drawn(seen.motion),
        sound: drawn(seen.sound),
        turning: drawn(seen.turning),
      });
      const [, placed] = placeClips({ ...base, clips, anchors: anchorOn("a", anchorS), signals: [slowed] }).clips;
      if (placed!.sure) continue;
      doubted += 1;
      expect(placementReasonText(placed!.reason, "en")).toContain("fits other places in the ride better");
    }
    expect(doubted).toBeGreaterThanOrEqual(12);
  });
});
