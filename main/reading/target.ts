import { spokenMinutes } from "../../overlay/words/reading/sentence.ts";
import type { Plan } from "../contract/plan.ts";
import type { DriftReading, TargetReading } from "../contract/reading.ts";
import type { Span } from "../contract/ride.ts";
import { thresholds } from "./thresholds.ts";

/**
 * Drift-free time that the event asks for, and what this ride held, from the start of the judged stretch.
 *
 * Rules of thumb of the trade: at least 1.2 times the event, aim at 1.25, capped at 4 h and 5 h; all settable.
 *
 * @param whole the judged stretch is all of the counted part: no long stop parts it
 * @param seenUntilS end of the last minute whose heart rate and power could be compared, s; null: the stretch's end
 * @param byCoach the coach says when the drift began, or that there was none
 */
export function targetReading(
  plan: Plan,
  drift: DriftReading,
  stretch: Span | null,
  whole: boolean,
  byCoach = false,
  seenUntilS: number | null = null,
): TargetReading {
  const eventS = plan.eventS;
  const asked = {
    eventS,
    minimumS: eventS === null ? null : Math.min(plan.targetLeastFactor * eventS, plan.targetLeastCapS),
    aimS: eventS === null ? null : Math.min(plan.targetAimFactor * eventS, plan.targetAimCapS),
  };
  return { ...asked, ...heldBy(drift, stretch, whole, byCoach, seenUntilS) };
}

function heldBy(
  drift: DriftReading,
  stretch: Span | null,
  whole: boolean,
  byCoach: boolean,
  seenUntilS: number | null,
): Pick<TargetReading, "heldLowS" | "heldHighS" | "heldWords"> {
  const nothing = { heldLowS: null, heldHighS: null, heldWords: "this ride can't tell how long the heart held" };
  if (!stretch) return nothing;
  const uncertainBeats = drift.uncertaintyBeats ?? 0;
  const level = drift.verdict === "no drift shown" || drift.verdict === "not enough data";
  if (level && !byCoach && uncertainBeats > thresholds.drift.blindBeats)
    return {
      ...nothing,
      heldWords: `${nothing.heldWords}: a drift of less than ${Math.round(uncertainBeats)} beats would not show`,
    };
  const since = (atS: number) => Math.max(0, atS - stretch.startS);
  switch (drift.verdict) {
    case "no drift shown": {
      // Where the sensors end long before the ride, nothing is known of the rest; a few minutes are a stop's.
      const cut = !byCoach && seenUntilS !== null && stretch.endS - seenUntilS > thresholds.drift.readingS;
      const heldLowS = since(cut ? seenUntilS : stretch.endS);
      const but = roseAllTheSame(drift) ? "; the two readings differ all the same" : "";
      return {
        heldLowS,
        heldHighS: null,
        heldWords: cut
          ? `at least ${spokenMinutes(heldLowS)}, as far as heart rate and power are known`
          : `at least ${spokenMinutes(heldLowS)}, ${whole ? "the ride" : "the part between long stops"} was no longer${but}`,
      };
    }
    case "rose from the start":
      return { heldLowS: 0, heldHighS: 0, heldWords: "not at all, the heart rose from the start" };
    case "began":
    case "start unclear": {
      if (drift.onsetLowS === null || drift.onsetHighS === null) {
        return { ...nothing, heldWords: "the heart rose, and this ride can't tell from when" };
      }
      const heldLowS = since(drift.onsetLowS);
      const heldHighS = since(drift.onsetHighS);
      return {
        heldLowS,
        heldHighS,
        heldWords: `between ${spokenMinutes(heldLowS)} and ${spokenMinutes(heldHighS)} from the start of ${whole ? "the main part" : "the part between long stops"}`,
      };
    }
    case "not enough data": {
      if (drift.driftBeats === null || drift.lastAtS === null || roseAllTheSame(drift)) return nothing;
      const heldLowS = since(drift.lastAtS);
      return { heldLowS, heldHighS: null, heldWords: `at least ${spokenMinutes(heldLowS)}, up to the last reading` };
    }
  }
}

/** Whether the two readings show a drift upwards that is more than one ride's noise. */
function roseAllTheSame({ driftBeats, isShown }: DriftReading): boolean {
  return isShown && driftBeats !== null && driftBeats > 0;
}
