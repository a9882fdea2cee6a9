/**
 * Mean of a column over steps of whole cells from `startS` to `endS`; NaN cells are skipped, a step without a value is
 * NaN. The last step may be shorter.
 */
export function meanSteps(column: Float64Array, startS: number, endS: number, stepS: number): Float64Array {
  const means = new Float64Array(Math.ceil((endS - startS) / stepS));
  for (let step = 0; step < means.length; step++) {
    let sum = 0;
    let count = 0;
    for (let at = startS + step * stepS; at < Math.min(endS, startS + (step + 1) * stepS); at++) {
      const value = column[at];
      if (value !== undefined && Number.isFinite(value)) {
        sum += value;
        count++;
      }
    }
    means[step] = count === 0 ? Number.NaN : sum / count;
  }
  return means;
}
