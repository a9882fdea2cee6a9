/** Least and most of a column within each pixel; NaN where the pixel holds no value. */
export interface Extremes {
  readonly least: Float64Array;
  readonly most: Float64Array;
}

/**
 * A column reduced to the least and the most in each pixel, so that drawing costs the same for any length.
 *
 * @param column values on a regular grid; entry k stands for [startS + k stepS, startS + (k + 1) stepS)
 * @param fromS time at the left edge
 * @param toS time at the right edge
 */
export function perPixel(
  column: Float64Array,
  startS: number,
  stepS: number,
  fromS: number,
  toS: number,
  widthPx: number,
): Extremes {
  const least = new Float64Array(widthPx).fill(Number.NaN);
  const most = new Float64Array(widthPx).fill(Number.NaN);
  const secondsPerPx = (toS - fromS) / widthPx;
  for (let x = 0; x < widthPx; x++) {
    const first = Math.floor((fromS + x * secondsPerPx - startS) / stepS);
    const end = Math.max(first + 1, Math.floor((fromS + (x + 1) * secondsPerPx - startS) / stepS));
    const until = Math.min(column.length, end);
    let low = Infinity;
    let high = -Infinity;
    // What is missing is NaN: neither less nor more than anything.
    for (let k = Math.max(0, first); k < until; k++) {
      const value = column[k]!;
      if (value < low) low = value;
      if (value > high) high = value;
    }
    if (low > high) continue;
    least[x] = low;
    most[x] = high;
  }
  return { least, most };
}
