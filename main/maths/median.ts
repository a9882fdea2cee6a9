/** Middle value of the numbers in `values` (mean of the two middle ones for an even count); NaNs are passed over, NaN if none is left. */
export function median(values: Iterable<number>): number {
  const sorted: number[] = [];
  for (const v of values) if (v === v) sorted.push(v);
  if (sorted.length === 0) return NaN;
  sorted.sort((a, b) => a - b);
  const mid = sorted.length >> 1;
  return sorted.length % 2 ? sorted[mid] : (sorted[mid - 1] + sorted[mid]) / 2;
}
