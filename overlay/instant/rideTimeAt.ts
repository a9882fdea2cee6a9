/**
 * Ride time of an instant in a clip, s from the ride's first record.
 *
 * @param clock rideS = offsetS + rate * mediaS; a device delay is already in the offset
 * @param mediaS presentation time in the clip, s
 */
export function rideTimeAt(clock: { readonly offsetS: number; readonly rate: number }, mediaS: number): number {
  return clock.offsetS + clock.rate * mediaS;
}

/** Sums of binary fractions may fall this far short of a whole second that they stand for, s. */
const ROUNDING_S = 1e-6;

/** The cell of the 1 s grid that an instant falls into; negative or past the end when outside the ride. */
export function cellAt(rideS: number): number {
  return Math.floor(rideS + ROUNDING_S);
}
