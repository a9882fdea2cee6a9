import { LONGEST_STEP_S, SMOOTH_S, type Points, lastAt } from "./trackPoints.ts";

/**
 * How two tracks part from each other once their mean distance is taken out: along the way, where only two bikes part,
 * and across it, where receivers do so just as well.
 */
export interface Parting {
  /** Root mean square, m. */
  readonly alongM: number;
  readonly acrossM: number;
  /** Root mean square of what it changes by within `PARTING_STEP_S`, m. */
  readonly alongChangeM: number;
  readonly acrossChangeM: number;
  /** Root mean square of the difference of their speeds, each as late as suits best and the mean of `PARTING_STEP_S`, m/s; NaN without speeds. */
  readonly speedMps: number;
  /** Length of what was compared, s. */
  readonly spanS: number;
}

/** Over so many seconds receivers keep their errors and bikes do not keep their distance. */
const PARTING_STEP_S = 8;
/** A recorder's speed may come earlier or later than its places by up to this, s. */
const SPEED_LATE_S = 2;

function rootMean(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);
}

/** Root mean square of the speeds' difference, each value the mean of `PARTING_STEP_S`, at the shift of time within `SPEED_LATE_S` that makes it least, m/s. */
function speedParting(a: Points, b: Points, offsetS: number): number {
  let least = Infinity;
  for (let late = -SPEED_LATE_S; late <= SPEED_LATE_S; late += 0.5) {
    const off: { readonly t: number; readonly v: number }[] = [];
    let k = 0;
    for (let i = lastAt(b.t, a.t[0]! + offsetS); i < b.t.length; i++) {
      const t = b.t[i]! - offsetS + late;
      if (t < a.t[0]!) continue;
      if (t > a.t[a.t.length - 1]!) break;
      while (k + 2 < a.t.length && a.t[k + 1]! <= t) k++;
      const step = a.t[k + 1]! - a.t[k]!;
      const v = a.v[k]! + ((t - a.t[k]!) / step) * (a.v[k + 1]! - a.v[k]!) - b.v[i]!;
      if (step <= LONGEST_STEP_S && Number.isFinite(v)) off.push({ t, v });
    }
    if (off.length < 5) continue;
    const means: number[] = [];
    let [from, sum] = [0, 0];
    off.forEach(({ t, v }, to) => {
      sum += v;
      while (off[from]!.t < t - PARTING_STEP_S) sum -= off[from++]!.v;
      if (t - off[0]!.t >= PARTING_STEP_S - 1) means.push(sum / (to - from + 1));
    });
    if (means.length > 0) least = Math.min(least, rootMean(means));
  }
  return Number.isFinite(least) ? least : NaN;
}

/** How the tracks part at an offset; every sample of the second track is read. */
export function partingAt(a: Points, b: Points, offsetS: number): Parting {
  const last = a.t.length - 1;
  const rows: { readonly t: number; readonly along: number; readonly across: number }[] = [];
  let k = 0;
  let [ux, uy] = [1, 0];
  for (let i = Math.max(1, lastAt(b.t, a.t[0]! + offsetS)); i + 1 < b.t.length; i++) {
    const t = b.t[i]! - offsetS;
    if (t < a.t[0]! + SMOOTH_S) continue;
    if (t > a.t[last]! - SMOOTH_S) break;
    while (k + 1 < last && a.t[k + 1]! <= t) k++;
    const step = a.t[k + 1]! - a.t[k]!;
    if (step > LONGEST_STEP_S) continue;
    const [wayX, wayY] = [b.x[i + 1]! - b.x[i - 1]!, b.y[i + 1]! - b.y[i - 1]!];
    const way = Math.hypot(wayX, wayY);
    // Where it stands the last direction holds.
    if (way > 1) [ux, uy] = [wayX / way, wayY / way];
    const f = (t - a.t[k]!) / step;
    const dx = a.x[k]! + f * (a.x[k + 1]! - a.x[k]!) - b.x[i]!;
    const dy = a.y[k]! + f * (a.y[k + 1]! - a.y[k]!) - b.y[i]!;
    rows.push({ t, along: dx * ux + dy * uy, across: dy * ux - dx * uy });
  }
  const spread = (of: (row: (typeof rows)[number]) => number) => {
    const mean = rows.reduce((sum, row) => sum + of(row), 0) / rows.length;
    return rootMean(rows.map((row) => of(row) - mean));
  };
  const change = (of: (row: (typeof rows)[number]) => number) => {
    const changes: number[] = [];
    let from = 0;
    for (const row of rows) {
      while (rows[from]!.t < row.t - PARTING_STEP_S - 0.5) from++;
      if (rows[from]!.t <= row.t - PARTING_STEP_S + 0.5) changes.push(of(row) - of(rows[from]!));
    }
    return rootMean(changes);
  };
  return {
    alongM: spread((row) => row.along),
    acrossM: spread((row) => row.across),
    alongChangeM: change((row) => row.along),
    acrossChangeM: change((row) => row.across),
    speedMps: speedParting(a, b, offsetS),
    spanS: rows.length > 1 ? rows[rows.length - 1]!.t - rows[0]!.t : 0,
  };
}
