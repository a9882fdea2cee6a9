import type { Plan } from "../contract/plan.ts";
import type { DriftReading, PressureReading, TargetReading } from "../contract/reading.ts";
import type { NotSteady } from "../contract/notices/reading.ts";
import type { Span } from "../contract/ride.ts";
import { shownRise } from "../../overlay/words/reading/shownRise.ts";
import { thresholds } from "./thresholds.ts";

/**
 * Drift-free time that the event asks for, and what this ride held, from the start of the judged stretch.
 *
 * Rules of thumb of the trade: at least 1.2 times the event, aim at 1.25, capped at 4 h and 5 h; all settable.
 *
 * @param whole the judged stretch is all of the counted part: no long stop parts it
 * @param seenUntilS end of the last minute whose heart rate and power could be compared, s; null: the stretch's end
 * @param unsteady why the ride was not steady enough to tell; null where it was
 * @param byCoach the coach says when the drift began, or that there was none
 */
export function targetReading(
  plan: Plan,
  drift: DriftReading,
  stretch: Span | null,
  whole: boolean,
  byCoach = false,
  seenUntilS: number | null = null,
  unsteady: NotSteady | null = null,
): TargetReading {
  const eventS = plan.eventS;
  const asked = {
    eventS,
    minimumS: eventS === null ? null : Math.min(plan.targetLeastFactor * eventS, plan.targetLeastCapS),
    aimS: eventS === null ? null : Math.min(plan.targetAimFactor * eventS, plan.targetAimCapS),
  };
  const held =
    unsteady !== null && !byCoach && stretch && drift.firstBpm !== null && drift.lastBpm !== null
      ? ({ heldLowS: null, heldHighS: null, held: { kind: "not steady", ...unsteady } } as const)
      : heldBy(drift, stretch, whole, byCoach, seenUntilS);
  return { ...asked, ...held };
}

function heldBy(
  drift: DriftReading,
  stretch: Span | null,
  whole: boolean,
  byCoach: boolean,
  seenUntilS: number | null,
): Pick<TargetReading, "heldLowS" | "heldHighS" | "held"> {
  const nothing = { heldLowS: null, heldHighS: null, held: { kind: "unknown", blindBeats: null } } as const;
  if (!stretch) return nothing;
  const uncertainBeats = drift.uncertaintyBeats ?? 0;
  const level = drift.verdict === "no drift shown" || drift.verdict === "not enough data";
  if (level && !byCoach && uncertainBeats > thresholds.drift.blindBeats)
    return { ...nothing, held: { kind: "unknown", blindBeats: uncertainBeats } };
  const since = (atS: number) => Math.max(0, atS - stretch.startS);
  switch (drift.verdict) {
    case "no drift shown": {
      // Where the sensors end long before the ride, nothing is known of the rest; a few minutes are a stop's.
      const cut = !byCoach && seenUntilS !== null && stretch.endS - seenUntilS > thresholds.drift.readingS;
      const heldLowS = since(cut ? seenUntilS : stretch.endS);
      return {
        heldLowS,
        heldHighS: null,
        held: cut
          ? { kind: "as far as known", leastS: heldLowS }
          : { kind: "to the end", leastS: heldLowS, whole, yetApart: roseAllTheSame(drift) },
      };
    }
    case "rose from the start":
      return { heldLowS: 0, heldHighS: 0, held: { kind: "not at all" } };
    case "began":
    case "start unclear": {
      if (drift.onsetLowS === null || drift.onsetHighS === null) {
        return { ...nothing, held: { kind: "start unknown" } };
      }
      const heldLowS = since(drift.onsetLowS);
      const heldHighS = since(drift.onsetHighS);
      return {
        heldLowS,
        heldHighS,
        held: { kind: "between", lowS: heldLowS, highS: heldHighS, whole },
      };
    }
    case "not enough data": {
      if (drift.driftBeats === null || drift.lastAtS === null || roseAllTheSame(drift)) return nothing;
      const heldLowS = since(drift.lastAtS);
      return { heldLowS, heldHighS: null, held: { kind: "to the last reading", leastS: heldLowS } };
    }
  }
}

/**
 * Why a ride can't say how long its heart held: it is judged at a steady power, and a ride off its plan, of swinging or
 * changing power, or whose heart fell at the same power, is none. Null where it was steady.
 */
export function notSteady(pressure: PressureReading, drift: DriftReading): NotSteady | null {
  const { heldBandShare, heldStepShare } = thresholds.target;
  const { inBandS, belowS, aboveS, offS, unknownS } = pressure;
  if (pressure.judgedBy === "power" && inBandS < heldBandShare * (inBandS + belowS + aboveS + offS + unknownS))
    return { why: "off plan" };
  if (drift.confounds.some(({ kind }) => kind === "power not steady")) return { why: "power swung" };
  const { firstPowerW, lastPowerW, driftBeats } = drift;
  if (firstPowerW !== null && lastPowerW !== null) {
    const stepW = lastPowerW - firstPowerW;
    if (Math.abs(stepW) > heldStepShare * firstPowerW) return { why: "power changed", stepW };
  }
  if (!drift.isShown || driftBeats === null || driftBeats >= 0) return null;
  // Without power the drift is the rise itself, and is told in the same whole beats.
  const beats = drift.correctedForPower ? driftBeats : (shownRise(drift.firstBpm, drift.lastBpm)?.beats ?? driftBeats);
  return { why: "heart fell", beats, atSamePower: drift.correctedForPower };
}

/** Whether the two readings show a drift upwards that is more than one ride's noise. */
function roseAllTheSame({ driftBeats, isShown }: DriftReading): boolean {
  return isShown && driftBeats !== null && driftBeats > 0;
}
