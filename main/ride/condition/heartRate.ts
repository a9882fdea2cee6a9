import { CellState } from "../../contract/ride.ts";
import type { Channel } from "../../contract/ride.ts";
import { median } from "../../maths/median.ts";
import { slidingMedian } from "../../maths/slidingMedian.ts";

/** Bounds of a believable heart rate, bpm; our own choice. */
const LOWEST_BPM = 30;
const HIGHEST_BPM = 220;
/** A heart does not step further than this in one second; our own choice. */
const STEP_BPM = 8;
const HALF_WINDOW_S = 15;
const LOCK_S = 60;
const STUCK_S = 120;
/** The 30 s power must have moved by this much for an unmoving heart rate to count as stuck, W; our own choice. */
const STUCK_POWER_W = 40;

/** Seconds of heart rate marked as rejected, by cause. */
export interface HeartRejects {
  readonly spikesS: number;
  readonly cadenceLockS: number;
  readonly stuckS: number;
}

/**
 * Marks heart rate that no heart made as rejected, in place, on a 1 s channel of recorded values: outside 30 to 220 bpm;
 * a step of more than 8 bpm in 1 s; further from the median of 31 s than max(8, 5 x 1.4826 x MAD) bpm (Hampel's rule;
 * Davies and Gather, JASA 1993;88:782, from memory); within 3 of the cadence for 60 s with r > 0.9 between their 5 s
 * changes (the sensor counts pedal turns); the same value for 120 s while the 30 s power moves.
 */
export function rejectHeartRate(heart: Channel, cadence: Channel | null, power30sW: Float64Array | null): HeartRejects {
  const { value, state } = heart;
  const n = value.length;
  const bad = new Uint8Array(n);
  const believable = value.map((v) => (v >= LOWEST_BPM && v <= HIGHEST_BPM ? v : NaN));
  const middle = slidingMedian(believable, HALF_WINDOW_S);
  for (let k = 0; k < n; k++) {
    const bpm = value[k];
    if (bpm !== bpm) continue;
    const away = Math.abs(bpm - middle[k]);
    if (believable[k] !== bpm || (k > 0 && Math.abs(bpm - value[k - 1]) > STEP_BPM)) bad[k] = 1;
    else if (away > STEP_BPM) {
      const window = believable.subarray(Math.max(0, k - HALF_WINDOW_S), k + HALF_WINDOW_S + 1);
      if (away > 5 * 1.4826 * median(window.map((v) => Math.abs(v - middle[k])))) bad[k] = 1;
    }
  }
  const spikesS = count(bad);
  if (cadence) markCadenceLock(value, cadence.value, bad);
  const afterLock = count(bad);
  if (power30sW) markStuck(value, power30sW, bad);
  const all = count(bad);
  for (let k = 0; k < n; k++) {
    if (!bad[k]) continue;
    value[k] = NaN;
    state[k] = CellState.rejected;
  }
  return { spikesS, cadenceLockS: afterLock - spikesS, stuckS: all - afterLock };
}

function markCadenceLock(heart: Float64Array, cadence: Float64Array, bad: Uint8Array): void {
  for (let k = 0; k < heart.length; k++) {
    let end = k;
    while (end < heart.length && Math.abs(heart[end] - cadence[end]) <= 3) end++;
    if (end - k >= LOCK_S && changesCorrelation(heart, cadence, k, end) > 0.9) bad.fill(1, k, end);
    if (end > k) k = end;
  }
}

function changesCorrelation(a: Float64Array, b: Float64Array, from: number, to: number): number {
  let n = 0;
  let sa = 0;
  let sb = 0;
  let saa = 0;
  let sbb = 0;
  let sab = 0;
  for (let k = from + 5; k < to; k++) {
    const x = a[k] - a[k - 5];
    const y = b[k] - b[k - 5];
    n++;
    sa += x;
    sb += y;
    saa += x * x;
    sbb += y * y;
    sab += x * y;
  }
  const va = saa - (sa * sa) / n;
  const vb = sbb - (sb * sb) / n;
  return va > 0 && vb > 0 ? (sab - (sa * sb) / n) / Math.sqrt(va * vb) : 0;
}

function markStuck(heart: Float64Array, power30sW: Float64Array, bad: Uint8Array): void {
  for (let k = 0; k < heart.length; k++) {
    let end = k;
    let low = Infinity;
    let high = -Infinity;
    while (end < heart.length && heart[end] === heart[k]) {
      const w = power30sW[end];
      if (w < low) low = w;
      if (w > high) high = w;
      end++;
    }
    if (end - k >= STUCK_S && high - low >= STUCK_POWER_W) bad.fill(1, k, end);
    if (end > k) k = end - 1;
  }
}

function count(flags: Uint8Array): number {
  let sum = 0;
  for (const f of flags) sum += f;
  return sum;
}
