import { CellState, type Channel } from "../../contract/ride.ts";
import { slidingMedian } from "../../maths/slidingMedian.ts";

/** Faster than legs turn, rpm. Our own bound: the best sprinters on rollers stay below it (from memory). */
const NEVER_RPM = 240;
/** Above it a value must be backed by its neighbours, rpm; our own bound, no source. */
const DOUBTFUL_RPM = 130;

/**
 * Marks cadence that no legs turned as rejected, in place, on a 1 s channel of recorded values: below 0, above 240 rpm, or above
 * 130 rpm and over 1.5 times the median of the 5 s either side. Returns how many.
 */
export function rejectCadence(cadence: Channel): number {
  const { value, state } = cadence;
  const middle = slidingMedian(value, 5);
  let rejected = 0;
  for (let k = 0; k < value.length; k++) {
    const rpm = value[k];
    if (!(rpm < 0 || rpm > NEVER_RPM || (rpm > DOUBTFUL_RPM && rpm > 1.5 * middle[k]))) continue;
    value[k] = NaN;
    state[k] = CellState.rejected;
    rejected++;
  }
  return rejected;
}
