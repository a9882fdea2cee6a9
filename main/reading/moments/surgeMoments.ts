import type { Surge } from "../../contract/reading.ts";
import { meanOf } from "../../maths/statistics.ts";
import { lengthS } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { candidate, meanOrNull, type Candidate, type MomentContext } from "./momentContext.ts";

/**
 * Surges, each with its size over the target, its length and the road under it. Surges close together are one moment, and
 * its numbers are those of the whole of it, the seconds between them too: who looks there sees them.
 */
export function surgeMoments({ surges, ride, askedAt }: MomentContext): Candidate[] {
  const reasonOf = ({ startS, endS }: Surge): "on a rise" | "above the band" =>
    (meanOrNull(ride.grid.gradientPercent, startS, endS) ?? 0) > 1 ? "on a rise" : "above the band";
  const shown: { surge: Surge; reason: ReturnType<typeof reasonOf> }[] = [];
  for (const next of surges) {
    const reason = reasonOf(next);
    const index = shown.findLastIndex((one) => one.reason === reason);
    const last = shown[index]?.surge;
    if (last !== undefined && next.startS - last.endS <= thresholds.moment.mergeS) {
      const [startS, endS] = [last.startS, Math.max(last.endS, next.endS)];
      const meanW = ride.grid.power ? meanOf(ride.grid.power.value, startS, endS) : last.meanW;
      shown[index] = { reason, surge: { startS, endS, meanW, peakW: Math.max(last.peakW, next.peakW) } };
    } else shown.push({ surge: next, reason });
  }
  return shown.map(({ surge, reason }) => {
    const targetW = askedAt(surge.startS).band?.targetW ?? null;
    const overW = targetW === null ? null : surge.meanW - targetW;
    return candidate("surge", surge, {
      reason,
      excused: false,
      numbers: {
        durationS: lengthS(surge),
        meanW: surge.meanW,
        peakW: surge.peakW,
        overTargetW: overW,
        gradientPercent: meanOrNull(ride.grid.gradientPercent, surge.startS, surge.endS),
      },
      weight: Math.min(1, (lengthS(surge) * Math.max(0, overW ?? 0)) / 4000),
    });
  });
}
