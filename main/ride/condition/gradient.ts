/** Slower than this the road's grade and the course are not taken, m/s. */
export const LEAST_SPEED_MPS = 2;
const LEAST_WINDOW_S = 8;
/** Steeper than any road ridden; a larger value is a fault of the altitude. */
const STEEPEST_PERCENT = 25;

/**
 * Grade of the road, percent: least-squares slope of altitude on distance over a centred window of `windowM` metres or
 * 8 s, whichever is longer. NaN below 2 m/s, beyond 25 %, without altitude, or with fewer than 3 samples in at least
 * half of the window. Line fits over a window: Draper and Smith, Applied Regression Analysis, ch. 1 (from memory).
 */
export function gradientPercent(
  altitudeM: Float64Array,
  distanceM: Float64Array,
  speedMps: Float64Array,
  paused: Uint8Array,
  windowM: number,
): Float64Array {
  const n = altitudeM.length;
  const out = new Float64Array(n).fill(NaN);
  const half = windowM / 2;
  for (let k = 0; k < n; k++) {
    const here = distanceM[k]!;
    if (paused[k] || here !== here || !(speedMps[k]! >= LEAST_SPEED_MPS)) continue;
    let from = k;
    while (from > 0 && !paused[from - 1] && inside(k, from - 1)) from--;
    let to = k;
    while (to < n - 1 && !paused[to + 1] && inside(k, to + 1)) to++;
    const percent = slope(from, to, here) * 100;
    if (Math.abs(percent) <= STEEPEST_PERCENT) out[k] = percent;
  }
  return out;

  function inside(k: number, i: number): boolean {
    return Math.abs(i - k) <= LEAST_WINDOW_S / 2 || Math.abs(distanceM[i]! - distanceM[k]!) <= half;
  }

  function slope(from: number, to: number, here: number): number {
    let count = 0;
    let sx = 0;
    let sy = 0;
    let sxx = 0;
    let sxy = 0;
    let low = Infinity;
    let high = -Infinity;
    const level = altitudeM[from]!;
    const base = level === level ? level : 0;
    for (let i = from; i <= to; i++) {
      const x = distanceM[i]! - here;
      const y = altitudeM[i]! - base;
      if (x !== x || y !== y) continue;
      count++;
      sx += x;
      sy += y;
      sxx += x * x;
      sxy += x * y;
      if (x < low) low = x;
      if (x > high) high = x;
    }
    if (count < 3 || high - low < half) return NaN;
    return (sxy - (sx * sy) / count) / (sxx - (sx * sx) / count);
  }
}
