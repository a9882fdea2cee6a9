import type { Lap } from "../contract/ride.ts";

/** So many laps alike are no hand's work. Own choice. */
const LEAST = 3;
/** A thumb is not so even: laps within these of each other are the recorder's, s and m. Own choice. */
const WITHIN_S = 1.5;
const WITHIN_M = 15;

/** What automatic laps are made by. */
export type LapRule = "distance" | "time";

/**
 * Laps that the file says were pressed by hand, or says nothing about, but that all have the same length (the last one
 * left out, which ends with the ride): equal distance or equal time. Null where they are not.
 *
 * @param distanceM cumulative distance on the 1 s grid, m; null without one
 */
export function automaticLaps(laps: readonly Lap[], distanceM: Float64Array | null): LapRule | null {
  const whole = laps.slice(0, -1);
  if (whole.length < LEAST || laps.every(({ trigger }) => trigger === "auto")) return null;
  const alike = (lengths: readonly number[], within: number): boolean => {
    const sorted = [...lengths].sort((one, other) => one - other);
    return (sorted.at(-1) as number) - sorted[0] <= 2 * within;
  };
  if (
    alike(
      whole.map(({ startS, endS }) => endS - startS),
      WITHIN_S,
    )
  )
    return "time";
  if (!distanceM) return null;
  const at = (s: number) => distanceM[Math.max(0, Math.min(distanceM.length - 1, Math.round(s)))];
  const ridden = whole.map(({ startS, endS }) => at(endS) - at(startS));
  return ridden.every((metres) => metres >= 200) && alike(ridden, WITHIN_M) ? "distance" : null;
}
