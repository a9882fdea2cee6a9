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
  for (let start = 0; start < n; start++) {
    if (broken(start)) continue;
    let end = start;
    while (end < n && !broken(end)) end++;
    fitRun(start, end);
    start = end;
  }
  return out;

  function broken(i: number): boolean {
    return paused[i] !== 0 || distanceM[i] !== distanceM[i];
  }

  /** Cells [start, end) without a break: distance never falls, so both ends of the window only move on. */
  function fitRun(start: number, end: number): void {
    const fit = new LineFit(distanceM, altitudeM);
    let from = start;
    let to = start;
    for (let k = start; k < end; k++) {
      const here = distanceM[k];
      while (to < end && (to - k <= LEAST_WINDOW_S / 2 || distanceM[to] - here <= half)) fit.add(to++);
      while (k - from > LEAST_WINDOW_S / 2 && here - distanceM[from] > half) fit.remove(from++);
      if (!(speedMps[k] >= LEAST_SPEED_MPS)) continue;
      if (distanceM[to - 1] - distanceM[from] < half) continue;
      fit.moveOrigin(from, to);
      const percent = fit.slope() * 100;
      if (Math.abs(percent) <= STEEPEST_PERCENT) out[k] = percent;
    }
  }
}

/** The origin follows the window so that sums of squares lose no digits, m. */
const ORIGIN_REACH_M = 2000;

/** Running sums of a straight-line fit of y on x over a window of two columns; entries without a y are passed over. */
class LineFit {
  private n = 0;
  private x0 = 0;
  private y0 = 0;
  private sx = 0;
  private sy = 0;
  private sxx = 0;
  private sxy = 0;

  constructor(
    private readonly xs: Float64Array,
    private readonly ys: Float64Array,
  ) {}

  add(i: number): void {
    if (this.n === 0 && this.ys[i] === this.ys[i]) this.startAt(i);
    this.sum(i, 1);
  }

  remove(i: number): void {
    this.sum(i, -1);
  }

  /** Sums the window [from, to) afresh when the origin has fallen far behind. */
  moveOrigin(from: number, to: number): void {
    if (Math.abs(this.xs[from] - this.x0) <= ORIGIN_REACH_M) return;
    this.n = 0;
    for (let i = from; i < to; i++) this.add(i);
  }

  /** Slope, NaN with fewer than 3 entries. */
  slope(): number {
    return this.n < 3 ? NaN : (this.sxy - (this.sx * this.sy) / this.n) / (this.sxx - (this.sx * this.sx) / this.n);
  }

  private startAt(i: number): void {
    this.x0 = this.xs[i]!;
    this.y0 = this.ys[i]!;
    this.sx = this.sy = this.sxx = this.sxy = 0;
  }

  private sum(i: number, sign: 1 | -1): void {
    const x = this.xs[i] - this.x0;
    const y = this.ys[i] - this.y0;
    if (y !== y) return;
    this.n += sign;
    this.sx += sign * x;
    this.sy += sign * y;
    this.sxx += sign * x * x;
    this.sxy += sign * x * y;
  }
}
