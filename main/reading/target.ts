import { spokenMinutes } from "../../overlay/words/readingWords.ts";
import type { Plan } from "../contract/plan.ts";
import type { DriftReading, TargetReading } from "../contract/reading.ts";
import type { Span } from "../contract/ride.ts";
import { thresholds } from "./thresholds.ts";

/**
 * Drift-free time that the event asks for, and what this ride held, from the start of the judged stretch.
 *
 * Rules of thumb of the trade: at least 1.2 times the event, aim at 1.25, capped at 4 h and 5 h; all settable.
 */
export function targetReading(plan: Plan, drift: DriftReading, stretch: Span | null): TargetReading {
  const eventS = plan.eventS;
  const asked = {
    eventS,
    minimumS: eventS === null ? null : Math.min(plan.targetLeastFactor * eventS, plan.targetLeastCapS),
    aimS: eventS === null ? null : Math.min(plan.targetAimFactor * eventS, plan.targetAimCapS),
  };
  return { ...asked, ...heldBy(drift, stretch) };
}

function heldBy(drift: DriftReading, stretch: Span | null): Pick<TargetReading, "heldLowS" | "heldHighS" | "heldWords"> {
  const nothing = { heldLowS: null, heldHighS: null, heldWords: "this ride can't tell how long the heart held" };
  if (!stretch) return nothing;
  const since = (atS: number) => Math.max(0, atS - stretch.startS);
  switch (drift.verdict) {
    case "no drift shown": {
      const heldLowS = since(stretch.endS);
      return { heldLowS, heldHighS: null, heldWords: `at least ${spokenMinutes(heldLowS)}, the ride was no longer` };
    }
    case "rose from the start":
      return { heldLowS: 0, heldHighS: 0, heldWords: "none: the heart rose from the start" };
    case "began":
    case "start unclear": {
      if (drift.onsetLowS === null || drift.onsetHighS === null) {
        return { ...nothing, heldWords: "the heart rose, and this ride can't tell from when" };
      }
      const heldLowS = since(drift.onsetLowS);
      const heldHighS = since(drift.onsetHighS);
      return { heldLowS, heldHighS, heldWords: `between ${spokenMinutes(heldLowS)} and ${spokenMinutes(heldHighS)}` };
    }
    case "not enough data": {
      const quiet =
        drift.driftBeats !== null &&
        drift.lastAtS !== null &&
        drift.driftBeats < Math.max(thresholds.drift.shownBeats, drift.uncertaintyBeats ?? 0);
      if (!quiet || drift.lastAtS === null) return nothing;
      const heldLowS = since(drift.lastAtS);
      return { heldLowS, heldHighS: null, heldWords: `at least ${spokenMinutes(heldLowS)}, up to the last reading` };
    }
  }
}
