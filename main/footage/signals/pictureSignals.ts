import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { median } from "../../maths/median.ts";

/** Small grey pictures that motion and turning are read from. */
export const GREY_WIDTH = 128;
export const GREY_HEIGHT = 72;

/** Turning is read from pictures no further apart than this, s. */
const TURN_STEP_S = 0.15;
/** Motion is read over about this long, s: shorter, and a slow picture seems to stand still. */
const MOTION_STEP_S = 0.25;
/** No bike turns faster, picture widths a second: what goes by faster is traffic, and tells nothing of the camera. */
const FASTEST_TURN = 0.6;
/** Shifts are sought this far to either side, columns. */
const REACH = 20;

interface Grey {
  readonly atS: number;
  readonly pixels: Uint8Array;
  readonly profile: Float64Array;
}

/** Sums of the columns in the middle half of the rows, less their own slow part. */
function columnProfile(pixels: Uint8Array): Float64Array {
  const sums = new Float64Array(GREY_WIDTH);
  for (let row = GREY_HEIGHT >> 2; row < (GREY_HEIGHT * 3) >> 2; row++) {
    for (let x = 0; x < GREY_WIDTH; x++) sums[x] += pixels[row * GREY_WIDTH + x];
  }
  const out = new Float64Array(GREY_WIDTH);
  for (let x = 0; x < GREY_WIDTH; x++) {
    let [sum, n] = [0, 0];
    for (let j = Math.max(0, x - 10); j <= Math.min(GREY_WIDTH - 1, x + 10); j++) {
      sum += sums[j];
      n++;
    }
    out[x] = sums[x] - sum / n;
  }
  return out;
}

/** Columns by which `b` lies right of `a`, to a fraction; NaN when the two have nothing in common. */
function shiftOf(a: Float64Array, b: Float64Array): number {
  const scores = new Float64Array(2 * REACH + 1);
  for (let s = -REACH; s <= REACH; s++) {
    let [ab, aa, bb] = [0, 0, 0];
    for (let x = Math.max(0, -s); x < GREY_WIDTH - Math.max(0, s); x++) {
      ab += a[x] * b[x + s];
      aa += a[x] ** 2;
      bb += b[x + s] ** 2;
    }
    scores[s + REACH] = aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : NaN;
  }
  let best = 0;
  for (let k = 1; k < scores.length; k++) if (scores[k] > scores[best]) best = k;
  if (!(scores[best] > 0.3) || best === 0 || best === 2 * REACH) return NaN;
  const [l, c, r] = [scores[best - 1], scores[best], scores[best + 1]];
  const bend = l - 2 * c + r;
  return best - REACH + (bend < 0 ? (0.5 * (l - r)) / bend : 0);
}

/** Log of the mean change of brightness, one common gain taken out; sky and handlebar rows left out. */
function change(a: Uint8Array, b: Uint8Array): number {
  const from = Math.round(0.3 * GREY_HEIGHT) * GREY_WIDTH;
  const to = Math.round(0.95 * GREY_HEIGHT) * GREY_WIDTH;
  let [ab, aa, sum] = [0, 0, 0];
  for (let k = from; k < to; k++) {
    ab += a[k] * b[k];
    aa += a[k] * a[k];
    sum += a[k];
  }
  if (aa === 0 || sum === 0) return NaN;
  const gain = ab / aa;
  let diff = 0;
  for (let k = from; k < to; k++) diff += Math.abs(b[k] - gain * a[k]);
  return Math.log(0.002 + diff / sum / gain);
}

/** Means of values that fall into cells of the signals' grid. */
class Cells {
  private readonly sum: Float64Array;
  private readonly n: Float64Array;

  constructor(count: number) {
    this.sum = new Float64Array(count);
    this.n = new Float64Array(count);
  }

  add(atS: number, value: number): void {
    const cell = Math.floor(atS / SIGNAL_STEP_S);
    if (!Number.isFinite(value) || cell < 0 || cell >= this.sum.length) return;
    this.sum[cell] += value;
    this.n[cell] += 1;
  }

  /** Mean of each cell; cells without a value stand between their neighbours up to `bridgeS` apart, else NaN. */
  means(bridgeS: number): Float64Array {
    const out = this.sum.map((sum, k) => (this.n[k] > 0 ? sum / this.n[k] : NaN));
    const most = Math.round(bridgeS / SIGNAL_STEP_S);
    let last = -1;
    for (let k = 0; k < out.length; k++) {
      if (!Number.isFinite(out[k])) continue;
      if (last >= 0 && k - last > 1 && k - last <= most) {
        for (let j = last + 1; j < k; j++) out[j] = out[last] + ((j - last) / (k - last)) * (out[k] - out[last]);
      }
      last = k;
    }
    return out;
  }
}

/** Running median over seven cells: a turn lasts longer than a jolt or a wrong shift. */
function calmed(series: Float64Array): Float64Array {
  return series.map((value, k) => (Number.isFinite(value) ? median(series.subarray(Math.max(0, k - 3), k + 4)) : NaN));
}

/** Reads motion and turning from grey pictures in order of time. */
export class PictureSignals {
  private readonly motionCells: Cells;
  private readonly turnCells: Cells;
  private readonly foreignCells: number[] = [];
  private readonly recent: Grey[] = [];
  private pictures = 0;
  private moved = 0;
  private readonly intervalS: number;

  /** `count` cells; pictures come about every `intervalS`. */
  constructor(count: number, intervalS: number) {
    this.motionCells = new Cells(count);
    this.turnCells = new Cells(count);
    this.intervalS = intervalS;
  }

  /** One picture of `GREY_WIDTH` x `GREY_HEIGHT` at media time `atS`. */
  add(atS: number, pixels: Uint8Array): void {
    const now: Grey = { atS, pixels, profile: columnProfile(pixels) };
    const last = this.recent[this.recent.length - 1];
    if (last) {
      const step = atS - last.atS;
      let foreign = false;
      if (step > 0 && step <= TURN_STEP_S) {
        // The scene goes left when the camera turns right.
        const turn = -shiftOf(last.profile, now.profile) / GREY_WIDTH / step;
        foreign = Math.abs(turn) > FASTEST_TURN;
        if (foreign) this.foreignCells.push(Math.floor(atS / SIGNAL_STEP_S));
        else this.turnCells.add((atS + last.atS) / 2, turn);
      }
      const back = [...this.recent]
        .reverse()
        .find((old) => atS - old.atS >= Math.min(MOTION_STEP_S, this.intervalS) - 0.01);
      if (back) {
        const value = foreign ? NaN : change(back.pixels, pixels);
        this.motionCells.add((atS + back.atS) / 2, value);
        if (value > Math.log(0.003)) this.moved++;
        this.pictures++;
      }
    }
    this.recent.push(now);
    if (this.recent.length > 4) this.recent.shift();
  }

  /** True when the picture never changed: a frozen or still picture, which tells nothing. */
  frozen(): boolean {
    return this.pictures > 0 && this.moved < 0.02 * this.pictures;
  }

  /** A series with the cells left out in which something passed close by, and those next to them: it is heard, too. */
  withoutPassing(series: Float64Array): Float64Array {
    const out = series.slice();
    for (const cell of this.foreignCells) out.fill(NaN, Math.max(0, cell - 4), cell + 5);
    return out;
  }

  motion(): Float64Array {
    return this.motionCells.means(Math.max(1.1, 2.5 * this.intervalS));
  }

  turning(): Float64Array | null {
    const means = this.turnCells.means(0.8);
    return means.some(Number.isFinite) ? calmed(means) : null;
  }
}
