/** Plain statistics over columns in which NaN is a missing value: it is skipped, never counted. */

/** Mean of the values present, two passes; NaN when there is none. */
export function meanOf(values: ArrayLike<number>, from = 0, to = values.length): number {
  let sum = 0;
  let count = 0;
  for (let i = Math.max(0, from); i < Math.min(to, values.length); i++) {
    const value = values[i];
    if (Number.isFinite(value)) {
      sum += value;
      count++;
    }
  }
  if (count === 0) return NaN;
  const first = sum / count;
  let rest = 0;
  for (let i = Math.max(0, from); i < Math.min(to, values.length); i++) {
    const value = values[i];
    if (Number.isFinite(value)) rest += value - first;
  }
  return first + rest / count;
}

/** How many values are present between two indices. */
export function countOf(values: ArrayLike<number>, from = 0, to = values.length): number {
  let count = 0;
  for (let i = Math.max(0, from); i < Math.min(to, values.length); i++) if (Number.isFinite(values[i])) count++;
  return count;
}

/** Sample standard deviation (n - 1) of the values present; NaN with fewer than two. */
export function standardDeviationOf(values: ArrayLike<number>): number {
  const mean = meanOf(values);
  let sum = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (Number.isFinite(value)) {
      sum += (value - mean) ** 2;
      count++;
    }
  }
  return count < 2 ? NaN : Math.sqrt(sum / (count - 1));
}

/**
 * Quantile of the values present by linear interpolation between order statistics (R's type 7); NaN when there is none.
 *
 * @param share 0 to 1
 */
export function quantileOf(values: ArrayLike<number>, share: number): number {
  const sorted = Float64Array.from(Array.from(values).filter((value) => Number.isFinite(value))).sort();
  if (sorted.length === 0) return NaN;
  const place = (sorted.length - 1) * share;
  const below = Math.floor(place);
  const low = sorted[below];
  const high = sorted[Math.min(below + 1, sorted.length - 1)];
  return low + (high - low) * (place - below);
}

/** Middle value of those present; NaN when there is none. */
export function medianOf(values: ArrayLike<number>): number {
  return quantileOf(values, 0.5);
}

/** Slope of the values present per step of the index, by least squares; NaN with fewer than two. */
export function slopeOf(values: ArrayLike<number>, from = 0, to = values.length): number {
  let count = 0;
  let sumX = 0;
  let sumY = 0;
  for (let i = Math.max(0, from); i < Math.min(to, values.length); i++) {
    const value = values[i];
    if (!Number.isFinite(value)) continue;
    count++;
    sumX += i;
    sumY += value;
  }
  if (count < 2) return NaN;
  const meanX = sumX / count;
  const meanY = sumY / count;
  let xx = 0;
  let xy = 0;
  for (let i = Math.max(0, from); i < Math.min(to, values.length); i++) {
    const value = values[i];
    if (!Number.isFinite(value)) continue;
    xx += (i - meanX) ** 2;
    xy += (i - meanX) * (value - meanY);
  }
  return xy / xx;
}
