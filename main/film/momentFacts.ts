import type { Moment, Reading } from "../contract/reading.ts";
import { PressureState } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { MomentFacts } from "../../overlay/words/debriefPhrases.ts";

function finite(column: Float64Array | undefined, from: number, to: number): number[] {
  return column === undefined ? [] : [...column.subarray(from, to)].filter((value) => Number.isFinite(value));
}

const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

/** Ride before letting go over the top that its shot shows and its figure is of, s: enough to see the effort. */
export const CLIMB_S = 25;

/** When the pressure goes in a moment of the kind "hard up, coast over"; the moment's end where the reading does not say. */
export function coastStartS(moment: Moment): number {
  return moment.endS - (moment.numbers["coastS"] ?? 0);
}

/**
 * A moment in the plain values that its caption and sentence are made of, from the ride's grid and the reading's own
 * spans. Peak power is that of the 3 s mean, the figure on the picture. Null where the ride lacks the sensor.
 */
export function momentFacts(ride: Ride, reading: Reading, moment: Moment): MomentFacts {
  const from = Math.max(0, Math.floor(moment.startS));
  const to = Math.min(ride.grid.seconds, Math.max(from + 1, Math.ceil(moment.endS)));
  // The figure of the effort is that of the seconds shown, so that caption and panel never disagree.
  const effort =
    moment.kind === "hardUpCoastOver"
      ? { from: Math.max(from, Math.floor(coastStartS(moment)) - CLIMB_S), to: Math.floor(coastStartS(moment)) }
      : { from, to };
  const peaks = finite(ride.grid.power3sW ?? undefined, from, to);
  const cadence = finite(ride.grid.cadence?.value, from, to).filter((value) => value > 0);
  const states = reading.columns.pressureState.subarray(from, to);
  const off = [...states].filter(
    (state) => state === PressureState.off || state === PressureState.offExcused || state === PressureState.offUnclear,
  ).length;
  const known = states.some((state) => state !== PressureState.unknown);
  const began = reading.drift.verdict === "began";
  return {
    kind: moment.kind,
    startS: moment.startS,
    endS: moment.endS,
    reason: moment.reason,
    setByCoach: moment.setBy === "coach",
    meanW: mean(finite(ride.grid.power?.value, effort.from, effort.to)),
    peakW: peaks.length === 0 ? null : Math.max(...peaks),
    meanRpm: mean(cadence),
    meanBpm: mean(finite(ride.grid.heartRate?.value, from, to)),
    offS: moment.numbers["coastS"] ?? (known ? off : null),
    breaks:
      moment.numbers["breaks"] ??
      (reading.breaks.filter((one) => one.startS >= moment.startS && one.startS < moment.endS).length || null),
    targetW: reading.bandW?.target ?? null,
    driftBeats: began && reading.drift.correctedForPower ? reading.drift.driftBeats : null,
    times: moment.numbers["times"] ?? null,
    rises: moment.numbers["rises"] ?? null,
  };
}
