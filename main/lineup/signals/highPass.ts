/**
 * A series less its running mean over `window` samples (missing ones left out), held to 3 standard deviations. NaN stays
 * NaN.
 */
export function highPass(series: Float64Array, window: number): Float64Array {
  const n = series.length;
  const sum = new Float64Array(n + 1);
  const count = new Float64Array(n + 1);
  for (let k = 0; k < n; k++) {
    const there = Number.isFinite(series[k]);
    sum[k + 1] = sum[k] + (there ? series[k] : 0);
    count[k + 1] = count[k] + (there ? 1 : 0);
  }
  const half = window >> 1;
  const out = new Float64Array(n);
  let squares = 0;
  for (let k = 0; k < n; k++) {
    const from = Math.max(0, k - half);
    const to = Math.min(n, k + half + 1);
    out[k] = series[k] - (sum[to] - sum[from]) / (count[to] - count[from]);
    if (Number.isFinite(out[k])) squares += out[k] ** 2;
  }
  const limit = 3 * Math.sqrt(squares / Math.max(1, count[n]));
  return out.map((v) => Math.max(-limit, Math.min(limit, v)));
}
