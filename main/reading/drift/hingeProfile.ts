import { logCorrelationDeterminant, whitened } from "../../maths/autoregression.ts";

/** Residual sum of squares of a hinge fit as its corner moves along, all at one autocorrelation. */
export interface HingeProfile {
  readonly rho: number;
  /** Places tried for the corner, minutes. */
  readonly psiMin: Float64Array;
  /** Residual sum of squares with the corner there. */
  readonly rss: Float64Array;
  /** Slope after the corner there, beats a minute. */
  readonly slope: Float64Array;
  /** Log of the hinge column's length once the others are taken out of it, twice: its share of log |X'V^-1 X|. */
  readonly logHinge: Float64Array;
  /** Without a hinge. */
  readonly rssWithout: number;
  /** log |V| plus the other columns' share of log |X'V^-1 X|. */
  readonly logRest: number;
}

/**
 * The profile of y = base columns + slope * max(t - psi, 0) + AR(1) noise over psi, exact at each psi.
 *
 * Whitened once per autocorrelation; the base columns are made orthonormal, so that each psi costs one projection. `psiMin` must ascend.
 *
 * @returns null when the base columns are not independent
 */
export function hingeProfile(
  base: readonly Float64Array[],
  y: Float64Array,
  tMin: Float64Array,
  gaps: Float64Array,
  psiMin: Float64Array,
  rho: number,
): HingeProfile | null {
  const n = y.length;
  const q: Float64Array[] = [];
  let logRest = logCorrelationDeterminant(gaps, rho);
  for (const column of base) {
    const v = whitened(column, gaps, rho);
    const before = Math.sqrt(dot(v, v));
    project(q, v);
    const length = Math.sqrt(dot(v, v));
    if (!(length > 1e-9 * before)) return null;
    for (let i = 0; i < n; i++) v[i] = v[i] / length;
    q.push(v);
    logRest += 2 * Math.log(length);
  }
  const restY = whitened(y, gaps, rho);
  project(q, restY);
  const rssWithout = dot(restY, restY);
  const rss = new Float64Array(psiMin.length);
  const slope = new Float64Array(psiMin.length);
  const logHinge = new Float64Array(psiMin.length);
  const r1 = Float64Array.from(gaps, (gap, i) => (i === 0 ? 0 : rho ** gap));
  const root = r1.map((correlation) => Math.sqrt(1 - correlation * correlation));
  const along = new Float64Array(q.length);
  let first = 0;
  for (let k = 0; k < psiMin.length; k++) {
    const psi = psiMin[k];
    while (first < n && tMin[first] <= psi) first++;
    // The hinge is whitened as it goes along: it is 0 up to the corner.
    let squares = 0;
    let withY = 0;
    along.fill(0);
    let before = 0;
    for (let i = first; i < n; i++) {
      const hinge = tMin[i] - psi;
      const value = (hinge - r1[i] * before) / root[i];
      before = hinge;
      squares += value * value;
      withY += value * restY[i];
      for (let j = 0; j < q.length; j++) along[j] = along[j] + value * q[j][i];
    }
    let length2 = squares;
    for (const part of along) length2 -= part * part;
    if (!(length2 > 1e-9 * squares)) {
      // The hinge is one of the base columns here: it explains nothing more.
      rss[k] = rssWithout;
      logHinge[k] = Infinity;
      continue;
    }
    slope[k] = withY / length2;
    rss[k] = Math.max(0, rssWithout - (withY * withY) / length2);
    logHinge[k] = Math.log(length2);
  }
  return { rho, psiMin, rss, slope, logHinge, rssWithout, logRest };
}

function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += one[i] * other[i];
  return sum;
}

/** Takes the orthonormal columns out of v, twice for the digits' sake. */
function project(q: readonly Float64Array[], v: Float64Array): void {
  for (let pass = 0; pass < 2; pass++) {
    for (const column of q) {
      const part = dot(column, v);
      for (let i = 0; i < v.length; i++) v[i] = v[i] - part * column[i];
    }
  }
}
