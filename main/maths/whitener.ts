/** Noise made of two parts, each with a correlation that falls as rho per grid step: a quick one and a slow one. */
export interface MixedNoise {
  /** Correlation of the quick part one step apart, 0 to under 1. */
  readonly quickRho: number;
  readonly slowRho: number;
  /** The slow part's share of the variance, 0 to 1. */
  readonly slowShare: number;
}

/** Takes mixed noise out of columns on one grid; see `mixedWhitener`. */
export interface Whitener {
  /** Step i: correlations over the gap before it, gains, and the root of the innovation's variance. */
  readonly quick: Float64Array;
  readonly slow: Float64Array;
  readonly gainQuick: Float64Array;
  readonly gainSlow: Float64Array;
  readonly root: Float64Array;
  /** log |V| of the noise's correlation matrix. */
  readonly logDeterminant: number;
}

/**
 * The exact whitening of mixed noise, as the innovations of its Kalman filter (Harvey 1989, ch. 3; from memory): linear in
 * the column and one pass long. With no slow part it is the usual AR(1) whitening.
 *
 * @param gaps grid steps from the value before; the first is not used
 */
export function mixedWhitener(gaps: ArrayLike<number>, noise: MixedNoise): Whitener {
  const n = gaps.length;
  const make = () => new Float64Array(n);
  const [quick, slow, gainQuick, gainSlow, root] = [make(), make(), make(), make(), make()];
  const varQuick = 1 - noise.slowShare;
  const varSlow = noise.slowShare;
  let pqq = varQuick;
  let pss = varSlow;
  let pqs = 0;
  let logDeterminant = 0;
  for (let i = 0; i < n; i++) {
    if (i > 0) {
      const gap = gaps[i];
      const q = noise.quickRho ** gap;
      const s = noise.slowRho ** gap;
      quick[i] = q;
      slow[i] = s;
      pqq = q * q * pqq + varQuick * (1 - q * q);
      pss = s * s * pss + varSlow * (1 - s * s);
      pqs = q * s * pqs;
    }
    const variance = pqq + 2 * pqs + pss;
    const kq = (pqq + pqs) / variance;
    const ks = (pqs + pss) / variance;
    gainQuick[i] = kq;
    gainSlow[i] = ks;
    root[i] = Math.sqrt(variance);
    logDeterminant += Math.log(variance);
    pqq -= kq * kq * variance;
    pss -= ks * ks * variance;
    pqs -= kq * ks * variance;
  }
  return { quick, slow, gainQuick, gainSlow, root, logDeterminant };
}

/** A column with the noise's correlation taken out; as long as the column plus `extra` zeros at its end. */
export function whiten(whitener: Whitener, values: ArrayLike<number>, extra = 0): Float64Array {
  const n = values.length;
  const result = new Float64Array(n + extra);
  let quick = 0;
  let slow = 0;
  for (let i = 0; i < n; i++) {
    quick *= whitener.quick[i];
    slow *= whitener.slow[i];
    const innovation = values[i] - quick - slow;
    result[i] = innovation / whitener.root[i];
    quick += whitener.gainQuick[i] * innovation;
    slow += whitener.gainSlow[i] * innovation;
  }
  return result;
}
