import type { TelemetryPositions } from "../contract/telemetry.ts";

/** Both tracks are smoothed by a bell curve of this SD, s. */
export const SMOOTH_S = 0.7;
/** Nothing is read between records further apart than this, s. */
export const LONGEST_STEP_S = 3.5;

/** A track on a plane: time, s, place, m, and speed, m/s, of each sample. */
export interface Points {
  readonly t: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly v: Float64Array;
}

/** Metres on a plane about (lat0, lon0): enough for tracks some 100 km wide (equirectangular). */
export function onPlane(track: TelemetryPositions, lat0: number, lon0: number): Points {
  const perDeg = 111_195;
  const shrink = Math.cos((lat0 * Math.PI) / 180);
  return {
    t: track.mediaS,
    x: Float64Array.from(track.lonDeg, (lon) => (lon - lon0) * perDeg * shrink),
    y: Float64Array.from(track.latDeg, (lat) => (lat - lat0) * perDeg),
    v: track.speedMps,
  };
}

/** A track with each sample the mean of those about it, in the same way on both tracks: what a shift is read from lasts longer. */
export function smoothed({ t, x, y, v }: Points): Points {
  const out = { t, x: new Float64Array(t.length), y: new Float64Array(t.length), v: new Float64Array(t.length) };
  let from = 0;
  for (let k = 0; k < t.length; k++) {
    while (t[from]! < t[k]! - 3 * SMOOTH_S) from++;
    let [weights, speedWeights, sx, sy, sv] = [0, 0, 0, 0, 0];
    // Only as far on one side as on the other, so that nothing moves in time at the ends.
    const reach = Math.min(3 * SMOOTH_S, t[k]! - t[0]!, t[t.length - 1]! - t[k]!) + 1e-9;
    for (let i = from; i < t.length && t[i]! <= t[k]! + reach; i++) {
      if (t[i]! < t[k]! - reach) continue;
      const weight = Math.exp(-(((t[i]! - t[k]!) / SMOOTH_S) ** 2) / 2);
      weights += weight;
      sx += weight * x[i]!;
      sy += weight * y[i]!;
      if (!Number.isFinite(v[i])) continue;
      speedWeights += weight;
      sv += weight * v[i]!;
    }
    out.x[k] = sx / weights;
    out.y[k] = sy / weights;
    out.v[k] = Number.isFinite(v[k]) ? sv / speedWeights : NaN;
  }
  return out;
}

/** Index of the last entry at or before `t`; 0 when there is none. */
export function lastAt(times: Float64Array, t: number): number {
  let [low, high] = [0, times.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (times[middle]! <= t) low = middle;
    else high = middle - 1;
  }
  return low;
}
