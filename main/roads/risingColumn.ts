/** The last index at or before x of a column that rises, but never the last of all: between it and the next lies x. */
export function indexAt(rising: ArrayLike<number>, x: number): number {
  let [low, high] = [0, rising.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (rising[middle]! <= x) low = middle;
    else high = middle;
  }
  return low;
}

/** The value of a column where another that rises is x; at its ends the first and last. Where it stands, the last there. */
export function valueAt(rising: ArrayLike<number>, values: ArrayLike<number>, x: number): number {
  const k = indexAt(rising, x);
  const width = (rising[k + 1] ?? rising[k]!) - rising[k]!;
  const share = width > 0 ? Math.max(0, Math.min(1, (x - rising[k]!) / width)) : x < rising[k]! ? 0 : 1;
  return values[k]! + share * ((values[k + 1] ?? values[k]!) - values[k]!);
}
