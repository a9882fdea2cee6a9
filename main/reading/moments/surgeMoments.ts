import { lengthS } from "../spans.ts";
import { candidate, meanOrNull, type Candidate, type MomentContext } from "./momentContext.ts";

/** Surges, each with its size over the target, its length and the road under it. */
export function surgeMoments({ surges, ride, askedAt }: MomentContext): Candidate[] {
  return surges.map((surge) => {
    const targetW = askedAt(surge.startS).band?.targetW ?? null;
    const gradientPercent = meanOrNull(ride.grid.gradientPercent, surge.startS, surge.endS);
    const overW = targetW === null ? null : surge.meanW - targetW;
    return candidate("surge", surge, {
      reason: gradientPercent !== null && gradientPercent > 1 ? "on a rise" : "above the band",
      excused: false,
      numbers: {
        durationS: lengthS(surge),
        meanW: surge.meanW,
        peakW: surge.peakW,
        overTargetW: overW,
        gradientPercent,
      },
      weight: Math.min(1, (lengthS(surge) * Math.max(0, overW ?? 0)) / 4000),
    });
  });
}
