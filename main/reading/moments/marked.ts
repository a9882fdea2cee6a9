import { thresholds } from "../thresholds.ts";
import { candidate, type Candidate, type MomentContext } from "./momentContext.ts";

/**
 * Lap presses by hand: the rider said "here". Presses that only mark where the counted part starts or ends are left out,
 * and so is the end of the recording.
 */
export function marked({ ride, counted }: MomentContext): Candidate[] {
  const { markBeforeS, markAfterS } = thresholds.moment;
  return ride.laps
    .filter((lap) => lap.trigger === "manual")
    .map((lap) => lap.endS)
    .filter((atS) => atS < ride.elapsedS - 5)
    .filter(
      (atS) => counted.source !== "laps" || (Math.abs(atS - counted.startS) > 5 && Math.abs(atS - counted.endS) > 5),
    )
    .map((atS) =>
      candidate(
        "marked",
        { startS: Math.max(0, atS - markBeforeS), endS: Math.min(ride.grid.seconds, atS + markAfterS) },
        {
          reason: "lap pressed by hand",
          numbers: { atS },
          weight: 1,
        },
      ),
    );
}
