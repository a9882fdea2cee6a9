const HALF_WINDOW = 5;
/** A rise counts once it is this much above the last low, m: less may be the sensor's noise. */
const HYSTERESIS_M = 2;

/**
 * Metres climbed: the sum of rises of altitude smoothed by an 11 s mean, a rise or fall counting from 2 m on. The size of
 * the step is common practice, no source. 0 for a flat ride; NaN cells are passed over.
 */
export function ascentM(altitudeM: Float64Array): number {
  let sum = 0;
  let level = NaN;
  let rising = false;
  for (let k = 0; k < altitudeM.length; k++) {
    const here = smoothed(altitudeM, k);
    if (here !== here) continue;
    const turns = rising ? here <= level - HYSTERESIS_M : here >= level + HYSTERESIS_M;
    if (turns) rising = !rising;
    if (rising && here > level) sum += here - level;
    // Rising, the level is the highest so far; falling, the lowest.
    if (level !== level || turns || (rising ? here > level : here < level)) level = here;
  }
  return sum;
}

function smoothed(column: Float64Array, k: number): number {
  if (column[k] !== column[k]) return NaN;
  let sum = 0;
  let count = 0;
  for (let i = Math.max(0, k - HALF_WINDOW); i <= Math.min(column.length - 1, k + HALF_WINDOW); i++) {
    if (column[i] !== column[i]) continue;
    sum += column[i];
    count++;
  }
  return sum / count;
}
