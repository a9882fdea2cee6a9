import { meanSteps } from "./meanSteps.ts";

/** A foot in metres (international yard and pound, 1959). */
const FOOT_M = 0.3048;

/**
 * The road's height as charts draw it: means of steps from `startS` to `endS` (whole seconds), in metres or feet; null
 * where nothing is known of it.
 *
 * @param metres a value a second, NaN where missing
 */
export function groundHeights(
  metres: Float64Array,
  unit: "m" | "ft",
  startS: number,
  endS: number,
  stepS: number,
): Float64Array | null {
  const heights = meanSteps(metres, startS, endS, stepS).map((value) => (unit === "ft" ? value / FOOT_M : value));
  return heights.some(Number.isFinite) ? heights : null;
}
