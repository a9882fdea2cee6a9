import { meanOf } from "../../maths/statistics.ts";
import { lengthS, runsOf } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { candidate, type Candidate, type MomentContext } from "./momentContext.ts";

/** Cadence held well above or below the ride's own mean for two minutes or more, while pedalling. */
export function cadenceBlocks({ ride, counted }: MomentContext): Candidate[] {
  const cadence = ride.grid.cadence;
  if (!cadence) return [];
  const limits = thresholds.moment;
  const turning = cadence.value.map((rpm) => (rpm > 0 ? rpm : NaN));
  const inCounted = counted.stretches.map((stretch) => turning.slice(stretch.startS, stretch.endS));
  const usualRpm = meanOf(inCounted.flatMap((part) => Array.from(part)));
  if (!Number.isFinite(usualRpm)) return [];
  const half = limits.cadenceMeanS / 2;
  const offBy = new Float64Array(turning.length).fill(NaN);
  for (const stretch of counted.stretches) {
    for (let s = stretch.startS; s < stretch.endS; s++) {
      if (Number.isFinite(turning[s])) offBy[s] = meanOf(turning, s - half, s + half) - usualRpm;
    }
  }
  const blocks = (sign: 1 | -1) =>
    runsOf((s) => sign * offBy[s] >= limits.cadenceOffRpm, 0, turning.length)
      .filter((run) => lengthS(run) >= limits.cadenceS)
      .map((run) =>
        candidate("cadenceBlock", run, {
          reason: sign > 0 ? "high cadence" : "low cadence",
          numbers: { durationS: lengthS(run), meanRpm: meanOf(turning, run.startS, run.endS), usualRpm },
          weight: Math.min(1, lengthS(run) / 600),
        }),
      );
  return [...blocks(1), ...blocks(-1)];
}
