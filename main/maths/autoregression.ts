/**
 * Takes the autocorrelation out of a column sampled on a grid with holes, so that ordinary least squares may be used.
 *
 * z_1 = v_1; z_i = (v_i - r_i v_(i-1)) / sqrt(1 - r_i^2), r_i = rho^gap_i, for noise whose correlation falls as rho per
 * grid step (AR(1), stationary).
 *
 * @param gaps grid steps from the value before, 1 where there is no hole; the first is not used
 */
export function whitened(values: ArrayLike<number>, gaps: ArrayLike<number>, rho: number): Float64Array {
  const result = new Float64Array(values.length);
  if (values.length > 0) result[0] = values[0];
  // Most gaps are 1: their root is taken once.
  const usual = Math.sqrt(1 - rho * rho);
  for (let i = 1; i < values.length; i++) {
    const gap = gaps[i];
    const r = gap === 1 ? rho : rho ** gap;
    result[i] = (values[i] - r * values[i - 1]) / (gap === 1 ? usual : Math.sqrt(1 - r * r));
  }
  return result;
}

/** log |V| of the correlation matrix that `whitened` undoes: the sum of log(1 - r_i^2). */
export function logCorrelationDeterminant(gaps: ArrayLike<number>, rho: number): number {
  let sum = 0;
  for (let i = 1; i < gaps.length; i++) sum += Math.log(1 - rho ** (2 * gaps[i]));
  return sum;
}
