import { PressureState, type CountedPart, type ReadingColumns, type Surge } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { DriftFound } from "./drift/driftReading.ts";
import { maskOf } from "./spans.ts";
import { thresholds } from "./thresholds.ts";

/** The reading's columns on the ride's grid, for panels, charts and the page. */
export function readingColumns(
  ride: Ride,
  states: Uint8Array,
  counted: CountedPart,
  surges: readonly Surge[],
  drift: DriftFound,
): ReadingColumns {
  const seconds = ride.grid.seconds;
  const judged = maskOf(counted.stretches, seconds);
  const countedS = new Float64Array(seconds).fill(NaN);
  let soFar = 0;
  for (let s = counted.startS; s < counted.endS; s++) {
    countedS[s] = soFar;
    soFar += judged[s];
  }
  return {
    pressureState: states,
    surge: maskOf(surges, seconds),
    countedS,
    likePowerBeats: likePowerBeats(ride, states, drift, counted),
  };
}

/**
 * Mean heart rate of the last five minutes at power like the first reading's, minus that reading, beats.
 *
 * Shown only after the first reading, inside the judged stretch, where power was in the band for most of the five minutes
 * and at least half of them were at like power; NaN everywhere else.
 */
function likePowerBeats(ride: Ride, states: Uint8Array, drift: DriftFound, counted: CountedPart): Float64Array {
  const beats = new Float64Array(ride.grid.seconds).fill(NaN);
  const { first, stretch, laggedW } = drift;
  const heart = ride.grid.heartRate;
  if (!first || !stretch || !laggedW || !heart) return beats;
  const limits = thresholds.drift;
  const span = limits.readingS;
  const like = (s: number) =>
    Math.abs(laggedW[s] - first.laggedW) <= limits.likePowerW && Number.isFinite(heart.value[s]);
  let sum = 0;
  let count = 0;
  let inBand = 0;
  const take = (s: number, sign: 1 | -1) => {
    if (states[s] === PressureState.in) inBand += sign;
    if (!like(s)) return;
    count += sign;
    sum += sign * heart.value[s];
  };
  for (let s = stretch.startS; s < Math.min(stretch.endS, counted.endS); s++) {
    take(s, 1);
    if (s - span >= stretch.startS) take(s - span, -1);
    if (s + 1 < first.span.endS || count < limits.likePowerS || inBand <= span / 2) continue;
    beats[s] = sum / count - first.bpm;
  }
  return beats;
}
