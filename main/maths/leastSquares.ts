/** An ordinary least-squares fit. */
export interface LeastSquaresFit {
  /** One per column, in their order. */
  readonly coefficients: Float64Array;
  readonly standardErrors: Float64Array;
  readonly residualSumSquares: number;
  /** sqrt(residual sum of squares / (n - p)). */
  readonly residualDeviation: number;
}

/**
 * Least squares by Householder reflections (QR), which keeps the digits that the normal equations lose.
 *
 * @param columns the design, one array per coefficient, all as long as `y`; a constant is a column of ones
 * @returns null when there are fewer values than columns plus one, or when the columns are not independent
 */
export function leastSquares(columns: readonly ArrayLike<number>[], y: ArrayLike<number>): LeastSquaresFit | null {
  const n = y.length;
  const p = columns.length;
  if (n <= p || p === 0) return null;
  // Columns are scaled to length 1, so that a year and a share weigh alike in the test for independence.
  const scale = columns.map((column) => Math.sqrt(sumOf(n, (i) => column[i] ** 2)));
  if (scale.some((length) => !(length > 0))) return null;
  const q = columns.map((column, j) => Float64Array.from({ length: n }, (_, i) => column[i] / scale[j]));
  const rhs = Float64Array.from({ length: n }, (_, i) => y[i]);
  const r = columns.map(() => new Float64Array(p));
  for (let j = 0; j < p; j++) {
    const column = q[j] as Float64Array;
    const length = Math.sqrt(sumOf(n, (i) => (i >= j ? column[i] ** 2 : 0)));
    if (length < 1e-13) return null;
    const pivot = column[j] > 0 ? -length : length;
    const v = Float64Array.from(column);
    v.fill(0, 0, j);
    v[j] = column[j] - pivot;
    const vv = sumOf(n, (i) => v[i] ** 2);
    const reflect = (target: Float64Array) => {
      const factor = (2 * sumOf(n, (i) => v[i] * target[i])) / vv;
      for (let i = j; i < n; i++) target[i] = target[i] - factor * v[i];
    };
    for (let k = j; k < p; k++) reflect(q[k]);
    reflect(rhs);
    for (let k = j; k < p; k++) (r[j] as Float64Array)[k] = (q[k] as Float64Array)[j];
  }
  const solve = (b: ArrayLike<number>): Float64Array => {
    const x = new Float64Array(p);
    for (let j = p - 1; j >= 0; j--) {
      let value = b[j];
      for (let k = j + 1; k < p; k++) value -= (r[j] as Float64Array)[k] * x[k];
      x[j] = value / (r[j] as Float64Array)[j];
    }
    return x;
  };
  const scaled = solve(rhs);
  const residualSumSquares = sumOf(n, (i) => (i >= p ? rhs[i] ** 2 : 0));
  const variance = residualSumSquares / (n - p);
  // Row j of the inverse of R gives the spread of coefficient j: its squares add up over the unit vectors.
  const spread = new Float64Array(p);
  for (let k = 0; k < p; k++) {
    const inverse = solve(Array.from({ length: p }, (_, j) => (j === k ? 1 : 0)));
    for (let j = 0; j < p; j++) spread[j] = spread[j] + inverse[j] ** 2;
  }
  const coefficients = scaled.map((value, j) => value / scale[j]);
  return {
    coefficients,
    standardErrors: spread.map((value, j) => Math.sqrt(variance * value) / scale[j]),
    residualSumSquares,
    residualDeviation: Math.sqrt(variance),
  };
}

function sumOf(n: number, term: (i: number) => number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += term(i);
  return sum;
}
