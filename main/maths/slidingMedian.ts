/**
 * Median of the numbers in cells k - half .. k + half, cut off at the ends, for every k; NaNs are passed over, NaN where
 * none is left. A sorted window that moves on by one: cost n x half, not n x sort.
 */
export function slidingMedian(values: Float64Array, half: number): Float64Array {
  const n = values.length;
  const out = new Float64Array(n);
  const sorted = new Float64Array(2 * half + 2);
  let size = 0;
  for (let i = 0; i < Math.min(half, n); i++) insert(values[i]);
  for (let k = 0; k < n; k++) {
    if (k + half < n) insert(values[k + half]);
    if (k - half - 1 >= 0) remove(values[k - half - 1]);
    const mid = size >> 1;
    out[k] = size === 0 ? NaN : size % 2 ? sorted[mid] : (sorted[mid - 1] + sorted[mid]) / 2;
  }
  return out;

  function insert(v: number): void {
    if (v !== v) return;
    let i = size++;
    for (; i > 0 && sorted[i - 1] > v; i--) sorted[i] = sorted[i - 1]!;
    sorted[i] = v;
  }

  function remove(v: number): void {
    if (v !== v) return;
    let i = 0;
    while (sorted[i] !== v) i++;
    size--;
    for (; i < size; i++) sorted[i] = sorted[i + 1]!;
  }
}
