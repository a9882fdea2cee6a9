import { lengthS } from "../spans.ts";
import { reasonText } from "../overrides.ts";
import { candidate, meanOrNull, type Candidate, type MomentContext } from "./momentContext.ts";

/** Lapses: breaks of 10 s or more that nothing excuses, each with what was ridden just before. */
export function lapses({ breaks, ride }: MomentContext): Candidate[] {
  return breaks
    .filter((one) => one.lapse)
    .map((one) =>
      candidate("lapse", one, {
        reason: reasonText(one.reason),
        excused: one.excused,
        setBy: one.setBy,
        numbers: {
          durationS: lengthS(one),
          powerBeforeW: meanOrNull(ride.grid.power?.value, one.startS - 30, one.startS),
          speedBeforeMps: meanOrNull(ride.grid.speed?.value, one.startS - 3, one.startS),
          gradientPercent: meanOrNull(ride.grid.gradientPercent, one.startS, one.endS),
        },
        // One that slowed for a cause that the data can't show is less plainly the rider's.
        weight: Math.min(1, lengthS(one) / 60) * (one.reason === "unexplained" ? 1 : 0.5),
      }),
    );
}
