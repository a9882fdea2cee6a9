import { PressureState } from "../../contract/reading.ts";
import { lengthS } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { candidate, meanOrNull, type Candidate, type MomentContext } from "./momentContext.ts";

/** The longest unbroken stretch, when it is long and mostly in the band (pressed, where there is no band): what went well is worth seeing too. */
export function steadyStretch({ longestUnbroken, states, judgedBy, ride }: MomentContext): Candidate[] {
  const { steadyS, steadyShare } = thresholds.moment;
  const durationS = lengthS(longestUnbroken);
  if (durationS < steadyS) return [];
  let inBandS = 0;
  for (let s = longestUnbroken.startS; s < longestUnbroken.endS; s++) if (states[s] === PressureState.in) inBandS++;
  if (inBandS < steadyShare * durationS) return [];
  return [
    candidate("steadyStretch", longestUnbroken, {
      reason: "pressure held",
      numbers: {
        durationS,
        inBandPercent: judgedBy === null ? null : (100 * inBandS) / durationS,
        meanW: meanOrNull(ride.grid.power?.value, longestUnbroken.startS, longestUnbroken.endS),
      },
      weight: Math.min(1, durationS / 3600),
    }),
  ];
}
