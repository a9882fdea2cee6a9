/** Clocks that lost their date start at the beginning of some year; a camera is not out longer than this before it is noticed, s. */
const FROM_FACTORY_S = 40 * 86_400;
/** Before this no camera of today was made. */
const FIRST_YEAR = 2010;
/** A date this far from the ride's is not told by a clock that runs, s. */
const FAR_S = 60 * 86_400;

/**
 * True where a camera's clock shows a date from the factory, or one that lies ahead of the ride: it was never set, or has
 * lost its battery, and is no evidence of where a clip belongs. Years of factory dates are those of the first weeks of
 * January (common practice, no source).
 */
export function clockWasReset(createdUtcMs: number, rideStartUtcMs: number): boolean {
  const beforeS = (rideStartUtcMs - createdUtcMs) / 1000;
  if (beforeS < -FAR_S) return true;
  if (beforeS < FAR_S) return false;
  const year = new Date(createdUtcMs).getUTCFullYear();
  return year < FIRST_YEAR || (createdUtcMs - Date.UTC(year, 0, 1)) / 1000 <= FROM_FACTORY_S;
}
