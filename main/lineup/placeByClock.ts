import type { LineupCandidate } from "../contract/lineup.ts";
import { clockWasReset } from "./clockWasReset.ts";
import type { ClockGroup } from "./clockGroups.ts";
import type { ClockHypothesis } from "./clockHypotheses.ts";
import { notPlaced, overlapShare, type RecordingPlacement } from "./placement.ts";
import { placedBecause } from "../contract/notices/placement.ts";
import { CLOCK_SIGMA_S } from "./claimedStart.ts";

/**
 * Places a group by nothing but its camera's clock. Never sure: a clock may be minutes off without a sign of it.
 * Recordings that no likely reading puts inside the ride are `no match`.
 */
export function placeByClock(
  group: ClockGroup,
  hypotheses: readonly ClockHypothesis[],
  rideElapsedS: number,
  rideStartUtcMs: number | null,
): RecordingPlacement[] {
  const best = hypotheses[0];
  return group.recordings.map((recording, k): RecordingPlacement => {
    const fileName = recording.clips[0]!.fileName;
    const base = { recording, method: "clock" as const, inheritedFrom: null };
    const { createdUtcMs } = recording.clips[0]!;
    if (createdUtcMs === null) return notPlaced(recording, "not sure", placedBecause("no-clock", { fileName }));
    const startS = best?.startsS[k] ?? null;
    if (rideStartUtcMs !== null && clockWasReset(createdUtcMs, rideStartUtcMs))
      return notPlaced(recording, "not sure", placedBecause("clock-was-reset", { fileName }));
    if (!best || startS === null)
      return notPlaced(
        recording,
        "no match",
        placedBecause("clock-in-no-zone", { fileName, clipUtcMs: createdUtcMs, rideUtcMs: rideStartUtcMs }),
      );
    const clock = { offsetS: startS, rate: 1 };
    if (overlapShare(recording, clock, rideElapsedS) === 0) {
      const side = startS < 0 ? "before the ride" : "after the ride";
      return {
        ...base,
        clock,
        verdict: "no match",
        confidence: best.weight / 2,
        uncertaintyS: 2 * CLOCK_SIGMA_S,
        candidates: [],
        reason: placedBecause("clock-outside", { fileName, zoneMin: best.zoneMin, side }),
      };
    }
    const candidates: LineupCandidate[] = [];
    for (const h of hypotheses) {
      const at = h.startsS[k];
      if (at === null || at === undefined || candidates.some((c) => Math.abs(c.rideStartS - at) < 8)) continue;
      candidates.push({ rideStartS: at, score: h.weight });
      if (candidates.length === 3) break;
    }
    return {
      ...base,
      clock,
      verdict: "not sure",
      // Half of the reading's probability: that the clock itself is right to seconds cannot be seen.
      confidence: best.weight / 2,
      uncertaintyS: 2 * CLOCK_SIGMA_S,
      candidates,
      reason: placedBecause("clock-unchecked", { zoneMin: best.zoneMin }),
    };
  });
}
