import { PressureState, type BaseFigures, type HourFigures, type Exposure } from "../contract/reading.ts";
import type { Ride, Span } from "../contract/ride.ts";
import { ascentM } from "../maths/ascent.ts";
import { countOf, meanOf, standardDeviationOf } from "../maths/statistics.ts";
import { lengthS } from "./spans.ts";
import { thresholds } from "./thresholds.ts";

const limits = thresholds.base;

/**
 * The figures that a coach of base rides asks for next: means and work of the main part, a table by the hour, what power
 * lost from the first to the last hour, and the time in the band by unbroken length.
 *
 * @param stretches judged spans, in order
 * @param states a `PressureState` a second
 * @param banded whether in, below and above mean anything
 */
export function baseFigures(
  ride: Ride,
  stretches: readonly Span[],
  states: Uint8Array,
  banded: boolean,
  roadKnown: boolean,
): BaseFigures {
  const { power, heartRate, cadence } = ride.grid;
  const judged = (column: Float64Array | undefined, positive = false): Float64Array =>
    Float64Array.from(
      stretches.flatMap(({ startS, endS }) =>
        Array.from(column?.subarray(startS, endS) ?? []).filter((value) => !positive || value > 0),
      ),
    );
  const watts = judged(power?.value);
  const startS = stretches[0]?.startS ?? 0;
  const endS = stretches.at(-1)?.endS ?? 0;
  const hours: HourFigures[] = [];
  for (let fromS = startS; endS - fromS >= limits.leastHourS; fromS += 3600) {
    hours.push(hourOf(ride, { startS: fromS, endS: Math.min(endS, fromS + 3600) }, stretches, roadKnown));
  }
  const whole = hours.filter((hour) => lengthS(hour) === 3600 && hour.meanW !== null);
  const first = whole[0]?.meanW ?? null;
  const last = whole.length >= 2 ? (whole.at(-1)?.meanW ?? null) : null;
  return {
    meanW: orNull(meanOf(watts)),
    meanBpm: orNull(meanOf(judged(heartRate?.value))),
    meanRpm: orNull(meanOf(judged(cadence?.value, true))),
    workKj:
      power && watts.some(Number.isFinite)
        ? watts.reduce((sum, value) => sum + (Number.isFinite(value) ? value : 0), 0) / 1000
        : null,
    hours,
    fadePercent: first !== null && last !== null && first > 0 ? (100 * (first - last)) / first : null,
    exposure: banded ? exposureOf(states, stretches) : null,
    steadiestHour: steadiestHour(ride, stretches),
  };
}

function hourOf(ride: Ride, span: Span, stretches: readonly Span[], roadKnown: boolean): HourFigures {
  const { grid, raw } = ride;
  const inStretch = (s: number) => stretches.some(({ startS, endS }) => s >= startS && s < endS);
  const seconds = Array.from({ length: lengthS(span) }, (_, k) => span.startS + k).filter(inStretch);
  const column = (values: Float64Array | null | undefined) => Float64Array.from(seconds, (s) => values?.[s] ?? NaN);
  const power = column(grid.power?.value);
  const heart = column(grid.heartRate?.value);
  const both = (values: Float64Array) =>
    meanOf(values.map((value, k) => (Number.isFinite(power[k] + heart[k]) ? value : NaN)));
  const left: number[] = [];
  for (let i = 0; i < raw.count; i++) {
    const at = Math.floor(raw.timeS[i]);
    if (at >= span.startS && at < span.endS && inStretch(at) && raw.powerW[i] > 0) left.push(raw.leftPercent[i]);
  }
  return {
    startS: span.startS,
    endS: span.endS,
    meanW: orNull(meanOf(power)),
    meanBpm: orNull(meanOf(heart)),
    meanRpm: orNull(meanOf(column(grid.cadence?.value).map((rpm) => (rpm > 0 ? rpm : NaN)))),
    wattsPerBeat: orNull(both(power) / both(heart)),
    meanMps: roadKnown ? orNull(meanOf(column(grid.speed?.value))) : null,
    climbM: roadKnown && grid.altitude ? ascentM(grid.altitude.value.slice(span.startS, span.endS)) : null,
    leftPercent: orNull(meanOf(left)),
  };
}

/**
 * Time in, below, above the band and off by how long each unbroken stretch of it lasted: exposure variation analysis
 * (Mathiassen and Winkel, Ergonomics 1991;34:1455), levels by classes of unbroken duration. Seconds; unknown ends a run.
 */
export function exposureOf(states: Uint8Array, stretches: readonly Span[]): Exposure {
  const levels = ["inBandS", "belowS", "aboveS", "offS"] as const;
  const rows = Object.fromEntries(levels.map((level) => [level, limits.exposureS.map(() => 0)])) as Record<
    (typeof levels)[number],
    number[]
  >;
  const levelOf = (state: number) =>
    state === PressureState.in
      ? "inBandS"
      : state === PressureState.below
        ? "belowS"
        : state === PressureState.above
          ? "aboveS"
          : state === PressureState.unknown
            ? null
            : "offS";
  for (const { startS, endS } of stretches) {
    for (let s = startS; s < endS; s++) {
      const level = levelOf(states[s]);
      let end = s + 1;
      while (end < endS && levelOf(states[end]) === level) end++;
      const forS = end - s;
      if (level !== null) {
        const index = limits.exposureS.findLastIndex((fromS) => forS >= fromS);
        rows[level][index] += forS;
      }
      s = end - 1;
    }
  }
  return { fromS: limits.exposureS, ...rows };
}

/** The hour of the judged stretches in which the 30 s mean of power moved least, with its mean; null where none is whole. */
function steadiestHour(ride: Ride, stretches: readonly Span[]): BaseFigures["steadiestHour"] {
  const { power, power30sW } = ride.grid;
  if (!power || !power30sW) return null;
  let best: { startS: number; endS: number; meanW: number; swing: number } | null = null;
  for (const stretch of stretches) {
    for (let startS = stretch.startS; startS + 3600 <= stretch.endS; startS += 300) {
      const endS = startS + 3600;
      if (countOf(power.value, startS, endS) < 3600 * limits.knownShare) continue;
      const swing = standardDeviationOf(power30sW.subarray(startS, endS));
      const meanW = meanOf(power.value, startS, endS);
      if (meanW > 0 && (best === null || swing < best.swing)) best = { startS, endS, meanW, swing };
    }
  }
  return best && { startS: best.startS, endS: best.endS, meanW: best.meanW };
}

function orNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
