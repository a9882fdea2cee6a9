import { fft, nextPowerOfTwo } from "./fft.ts";

/** The transforms of a series, of its square and of its mask: made once, used against many others. */
interface Spectra {
  readonly size: number;
  readonly length: number;
  readonly value: readonly [Float64Array, Float64Array];
  readonly square: readonly [Float64Array, Float64Array];
  readonly mask: readonly [Float64Array, Float64Array];
}

function spectraOf(series: Float64Array, size: number): Spectra {
  const parts = [0, 1, 2].map(() => [new Float64Array(size), new Float64Array(size)] as const);
  for (let k = 0; k < series.length; k++) {
    const v = series[k];
    if (!Number.isFinite(v)) continue;
    parts[0][0][k] = v;
    parts[1][0][k] = v * v;
    parts[2][0][k] = 1;
  }
  for (const [re, im] of parts) fft(re, im);
  return { size, length: series.length, value: parts[0], square: parts[1], mask: parts[2] };
}

/** Correlation of two series at every lag. */
export interface LagScores {
  /** Lag of entry 0: entry k pairs sample i of the short series with sample i + firstLag + k of the long one. */
  readonly firstLag: number;
  /** -1 to 1; NaN where too few samples meet or one side does not vary. */
  readonly r: Float64Array;
}

/**
 * Masked normalised correlation at every lag by Fourier transform (Padfield 2012): missing samples (NaN) on either side
 * take no part, and means and variances are those of the samples that meet. Made for one long series and many short ones.
 */
export class MaskedCorrelator {
  private readonly long: Float64Array;
  private readonly cache = new Map<number, Spectra>();

  constructor(long: Float64Array) {
    this.long = long;
  }

  /** Scores for `short`; a lag counts where at least `leastShare` of its samples meet samples of the long series. */
  against(short: Float64Array, leastShare: number): LagScores {
    const size = nextPowerOfTwo(short.length + this.long.length);
    let long = this.cache.get(size);
    if (!long) {
      long = spectraOf(this.long, size);
      this.cache.set(size, long);
    }
    const x = spectraOf(short, size);
    const present = short.reduce((sum, v) => sum + (Number.isFinite(v) ? 1 : 0), 0);
    // Two real correlations share one complex transform: the first comes out as the real part, the second as the imaginary.
    const pair = (a: Spectra["value"], b: Spectra["value"], c: Spectra["value"], d: Spectra["value"]) => {
      const re = new Float64Array(size);
      const im = new Float64Array(size);
      for (let k = 0; k < size; k++) {
        const pr = a[0][k] * b[0][k] + a[1][k] * b[1][k];
        const pi = a[0][k] * b[1][k] - a[1][k] * b[0][k];
        const qr = c[0][k] * d[0][k] + c[1][k] * d[1][k];
        const qi = c[0][k] * d[1][k] - c[1][k] * d[0][k];
        re[k] = pr - qi;
        im[k] = pi + qr;
      }
      fft(re, im, true);
      return [re, im] as const;
    };
    const [count, sxy] = pair(x.mask, long.mask, x.value, long.value);
    const [sx, sy] = pair(x.value, long.mask, x.mask, long.value);
    const [sxx, syy] = pair(x.square, long.mask, x.mask, long.square);
    const firstLag = 1 - short.length;
    const r = new Float64Array(short.length + this.long.length - 1).fill(NaN);
    for (let k = 0; k < r.length; k++) {
      const at = (firstLag + k + size) % size;
      const n = count[at];
      if (n < Math.max(4, leastShare * present)) continue;
      const vx = sxx[at] - (sx[at] * sx[at]) / n;
      const vy = syy[at] - (sy[at] * sy[at]) / n;
      if (vx <= 1e-9 * n || vy <= 1e-9 * n) continue;
      r[k] = Math.max(-1, Math.min(1, (sxy[at] - (sx[at] * sy[at]) / n) / Math.sqrt(vx * vy)));
    }
    return { firstLag, r };
  }
}
