import { type Moment, type Reading, PressureState } from "../contract/reading.ts";
import type { Ride, Span } from "../contract/ride.ts";
import type { DebriefFacts } from "../contract/debriefFacts.ts";
import type { MomentFacts } from "../../overlay/words/debriefPhrases.ts";
import { pausesAfterSurges } from "./pausesAfterSurges.ts";

function finite(column: Float64Array | undefined, { startS, endS }: Span): number[] {
  return column === undefined ? [] : [...column.subarray(startS, endS)].filter((value) => Number.isFinite(value));
}

const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

/** Ride before letting go over the top that its shot shows, s: enough to see the effort. */
export const CLIMB_S = 25;

/** When the pressure goes in a moment of the kind "above the plan uphill, no pressure over the top"; the moment's end where the reading does not say. */
export function coastStartS(moment: Moment): number {
  return moment.endS - (moment.numbers["coastS"] ?? 0);
}

/** The pause that a surge brought with it at once; null: none, or it is no surge. */
function pauseOf(reading: Pick<Reading, "surges" | "breaks">, moment: Moment): Span | null {
  if (moment.kind !== "surge") return null;
  const last = pausesAfterSurges(reading).filter(
    ({ surge }) => surge.startS >= moment.startS && surge.endS <= moment.endS + 1,
  );
  return last.at(-1)?.pause ?? null;
}

/** A moment with what belongs to it and must be seen with it: a surge with the pause that follows it at once. */
export function withPause(reading: Pick<Reading, "surges" | "breaks">, moment: Moment): Moment {
  const pause = pauseOf(reading, moment);
  return pause === null ? moment : { ...moment, endS: Math.max(moment.endS, pause.endS) };
}

const OFF = new Set<number>([PressureState.off, PressureState.offExcused, PressureState.offUnclear]);

/**
 * A moment in the plain values that its caption and sentence are made of, from the ride's grid and the reading's own
 * spans. Every figure is of the seconds shown: of the moment itself where nothing else is said, else of the part of it
 * that lies in `shown`. Null where the ride lacks the sensor.
 */
export function momentFacts(
  ride: Ride,
  reading: Reading,
  facts: Pick<DebriefFacts, "drift">,
  moment: Moment,
  shown: Span = withPause(reading, moment),
): MomentFacts {
  /** Whole seconds of a span that are shown. */
  const seen = (span: Span): Span => {
    const startS = Math.max(0, Math.floor(Math.max(span.startS, shown.startS)));
    return { startS, endS: Math.min(ride.grid.seconds, Math.max(startS, Math.ceil(Math.min(span.endS, shown.endS)))) };
  };
  const rise = moment.kind === "riseThenOff";
  const part = seen({ startS: moment.startS, endS: Math.max(moment.endS, moment.startS + 1) });
  const climb = seen({ startS: moment.startS, endS: coastStartS(moment) });
  const { pressureState: states } = reading.columns;
  const power = ride.grid.power?.value;
  const hard = rise
    ? finite(
        power?.map((watts, s) => (states[s] === PressureState.above ? watts : NaN)),
        climb,
      )
    : [];
  const offIn = ({ startS, endS }: Span): number =>
    [...states.subarray(startS, endS)].filter((one) => OFF.has(one)).length;
  const known = states.subarray(part.startS, part.endS).some((state) => state !== PressureState.unknown);
  const pause = pauseOf(reading, moment);
  const pauseSeen = pause === null ? null : seen(pause);
  const began = reading.drift.verdict === "began";
  const breaks = reading.breaks.filter((one) => one.startS >= moment.startS && one.startS < moment.endS).length;
  return {
    kind: moment.kind,
    startS: moment.startS,
    endS: moment.endS,
    reason: moment.reason,
    setByCoach: moment.setBy === "coach",
    whole: part.startS <= Math.ceil(moment.startS) && part.endS >= Math.floor(moment.endS),
    meanW: mean(hard.length > 0 ? hard : finite(power, rise ? climb : part)),
    meanRpm: mean(finite(ride.grid.cadence?.value, part).filter((value) => value > 0)),
    meanBpm: mean(finite(ride.grid.heartRate?.value, part)),
    offS: known ? offIn(rise ? seen({ startS: coastStartS(moment), endS: moment.endS }) : part) : null,
    pauseS: pauseSeen === null || pauseSeen.endS <= pauseSeen.startS ? null : offIn(pauseSeen) || null,
    breaks: moment.numbers["breaks"] ?? (breaks || null),
    // A planned effort asks for its own power.
    targetW: moment.numbers["targetW"] ?? reading.bandW?.target ?? null,
    driftBeats: began && facts.drift?.canTell === true ? facts.drift.beats : null,
    times: moment.numbers["times"] ?? null,
    rises: moment.numbers["rises"] ?? null,
  };
}
