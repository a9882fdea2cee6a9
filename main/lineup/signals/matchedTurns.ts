import { SIGNAL_STEP_S } from "../../contract/signals.ts";

/** A turn is a bend of the course by at least this, degrees, at this rate or more, degrees a second. */
const LEAST_DEG = 30;
const LEAST_RATE = 4;
/** A camera may turn this much before the wheels do, s. */
const LEAD_S = 1;

/**
 * How many turns of the ride a clip shows: bends within it, as the ride's course has them, in which the picture swings to
 * the same side by more than it does at half of all times. `turning` as in `ClipSignals`, `ride` as in `RideSeries`.
 */
export function matchedTurns(turning: Float64Array, ride: Float64Array, offsetS: number): number {
  const usual = [...turning]
    .filter(Number.isFinite)
    .map(Math.abs)
    .sort((a, b) => a - b);
  const typical = usual[usual.length >> 1] ?? Infinity;
  const first = Math.max(0, Math.round(offsetS / SIGNAL_STEP_S));
  const last = Math.min(ride.length, first + turning.length);
  const lead = Math.round(LEAD_S / SIGNAL_STEP_S);
  let matched = 0;
  for (let k = first; k < last; k++) {
    if (!(Math.abs(ride[k]) >= LEAST_RATE)) continue;
    const side = Math.sign(ride[k]);
    const from = k;
    let bentDeg = 0;
    while (k < last && ride[k] * side >= LEAST_RATE) bentDeg += Math.abs(ride[k++]) * SIGNAL_STEP_S;
    if (bentDeg < LEAST_DEG) continue;
    const seen = turning.subarray(Math.max(0, from - first - lead), k - first).filter(Number.isFinite);
    const mean = seen.reduce((sum, v) => sum + v, 0) / seen.length;
    if (mean * side > typical) matched++;
  }
  return matched;
}
