/**
 * Coefficients of an autoregression of a series with holes (NaN): x_t - m = sum of c_i (x_(t - i stride) - m) + noise, by least
 * squares over all t whose history is whole (the normal equations, with a ten-thousandth on the diagonal). All 0 when too
 * little is whole or nothing varies.
 *
 * @param stride steps between the values that are regressed on each other
 */
export function fitAutoregression(series: Float64Array, order: number, stride: number): Float64Array {
  let [sum, count] = [0, 0];
  for (const v of series) {
    if (!Number.isFinite(v)) continue;
    sum += v;
    count++;
  }
  const mean = sum / count;
  const rows = Array.from({ length: order }, () => new Float64Array(order + 1));
  const history = new Float64Array(order);
  let whole = 0;
  for (let t = order * stride; t < series.length; t++) {
    let complete = Number.isFinite(series[t]);
    for (let i = 0; i < order && complete; i++) {
      history[i] = series[t - (i + 1) * stride] - mean;
      complete = Number.isFinite(history[i]);
    }
    if (!complete) continue;
    whole++;
    for (let i = 0; i < order; i++) {
      for (let j = 0; j < order; j++) rows[i][j] += history[i] * history[j];
      rows[i][order] += history[i] * (series[t] - mean);
    }
  }
  const out = new Float64Array(order);
  if (whole < 10 * order || !(rows[0][0] > 0)) return out;
  rows.forEach((row, i) => (row[i] *= 1.0001));
  // Positive definite: elimination needs no pivots.
  for (let k = 0; k < order; k++) {
    for (let i = 0; i < order; i++) {
      if (i === k) continue;
      const f = rows[i][k] / rows[k][k];
      for (let j = k; j <= order; j++) rows[i][j] -= f * rows[k][j];
    }
  }
  return out.map((_, i) => rows[i][order] / rows[i][i]);
}

/** What an autoregression leaves of a series: x_t - sum of c_i x_(t - i stride). NaN where any of them is missing. */
export function innovationsOf(series: Float64Array, coefficients: Float64Array, stride: number): Float64Array {
  return series.map((v, t) => {
    let left = v;
    for (let i = 0; i < coefficients.length; i++) left -= coefficients[i] * (series[t - (i + 1) * stride] ?? NaN);
    return left;
  });
}
