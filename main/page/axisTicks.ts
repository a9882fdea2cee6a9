/** Steps that people count in. */
const NICE = [1, 2, 2.5, 5, 10];
/** Steps of time, s. */
const NICE_TIME_S = [60, 120, 300, 600, 900, 1200, 1800, 3600, 7200, 14_400, 28_800];

/** Round values from below `low` to above `high`, at most `most` of them. */
export function axisTicks(low: number, high: number, most: number): number[] {
  const span = Math.max(1e-9, high - low);
  const raw = span / Math.max(1, most - 1);
  const power = 10 ** Math.floor(Math.log10(raw));
  for (const step of [...NICE.map((nice) => nice * power), 20 * power]) {
    const first = Math.floor(low / step + 1e-9);
    const last = Math.ceil(high / step - 1e-9);
    if (last - first + 1 <= most)
      return Array.from({ length: Math.max(2, last - first + 1) }, (_, index) => (first + index) * step);
  }
  return [low, high];
}

/** Round times within [startS, endS], at most `most` of them. */
export function timeTicks(startS: number, endS: number, most: number): number[] {
  const step =
    NICE_TIME_S.find((one) => (endS - startS) / one < most) ?? Math.ceil((endS - startS) / most / 86_400) * 86_400;
  const first = Math.ceil(startS / step);
  const last = Math.floor(endS / step);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => (first + index) * step);
}
