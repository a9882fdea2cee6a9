/**
 * Power as the heart feels it: a first-order lag of 1 s power, W, restarted nowhere, so that the heart's memory of a
 * climb outlives the climb.
 *
 * Seconds without data count as 0 W while the rider stands still; else the last known lag stands in for as long as the
 * time constant, and after that nothing is known until power comes back. NaN before the first value.
 *
 * @param tauS time constant, s
 * @param standing 1 in seconds in which the rider stands still
 */
export function laggedPowerW(powerW: Float64Array, tauS: number, standing: Uint8Array): Float64Array {
  const lagged = new Float64Array(powerW.length).fill(NaN);
  const gain = 1 - Math.exp(-1 / tauS);
  let state = NaN;
  let unknownS = 0;
  for (let s = 0; s < powerW.length; s++) {
    const present = powerW[s];
    const watts = Number.isFinite(present) ? present : standing[s] === 1 ? 0 : NaN;
    unknownS = Number.isFinite(watts) ? 0 : unknownS + 1;
    // What the heart answers to is too old to be known.
    if (unknownS > tauS) state = NaN;
    if (Number.isFinite(watts)) state = Number.isFinite(state) ? state + gain * (watts - state) : watts;
    lagged[s] = state;
  }
  return lagged;
}
