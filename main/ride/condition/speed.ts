import { CellState, type Channel } from "../../contract/ride.ts";

/** Faster than any bicycle is ridden, m/s (200 km/h); our own bound. */
export const NEVER_MPS = 56;

/**
 * Speed from the distance travelled, m/s, where a file has places but no speed: (d[k+2] - d[k-2]) / 4, shortened at the
 * ends, at holes, at pauses and where a track segment ends to what is known on either side. Null where no cell can be
 * told. A cell between two places is held, one of a pause paused.
 *
 * @param measured 1 in cells that hold a place or distance of the file @param begins 1 in cells that begin a segment
 */
export function speedFromDistance(
  distanceM: Float64Array,
  paused: Uint8Array,
  measured: Uint8Array,
  begins: Uint8Array,
): Channel | null {
  const n = distanceM.length;
  const value = new Float64Array(n).fill(NaN);
  const state = new Uint8Array(n);
  let any = false;
  for (let k = 0; k < n; k++) {
    if (paused[k]) state[k] = CellState.paused;
    if (paused[k] || distanceM[k] !== distanceM[k]) continue;
    const from = reach(k, -1);
    const to = reach(k, 1);
    if (to === from) continue;
    const mps = (distanceM[to] - distanceM[from]) / (to - from);
    if (!(mps >= 0 && mps <= NEVER_MPS)) continue;
    value[k] = mps;
    state[k] = measured[k] ? CellState.recorded : CellState.held;
    any = true;
  }
  return any ? { value, state } : null;

  function reach(k: number, step: 1 | -1): number {
    let far = k;
    for (let i = k + step; i >= 0 && i < n && Math.abs(i - k) <= 2; i += step) {
      if (paused[i] || distanceM[i] !== distanceM[i] || begins[Math.max(i, i - step)]) break;
      far = i;
    }
    return far;
  }
}
