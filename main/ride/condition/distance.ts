import { distanceM as between } from "../../maths/geodesy.ts";
import type { RawRecords } from "../../contract/ride.ts";

/** A count that falls by more than this, to less than half, has been started again, m. */
const RESET_M = 100;

/** Whether any entry is a number. */
export function hasValues(column: Float64Array): boolean {
  for (const v of column) if (v === v) return true;
  return false;
}

/**
 * Cumulative distance per record, m, from positions: great circles between neighbours of one track segment; the way
 * from one segment to the next was not recorded and counts nothing. NaN at records without a position.
 */
export function distanceFromPositions(raw: RawRecords, startsSegment: Uint8Array): Float64Array {
  const out = new Float64Array(raw.count).fill(NaN);
  let last = -1;
  let sum = 0;
  for (let i = 0; i < raw.count; i++) {
    if (startsSegment[i]) last = -1;
    if (raw.latDeg[i] !== raw.latDeg[i] || raw.lonDeg[i] !== raw.lonDeg[i]) continue;
    if (last >= 0) sum += between(raw.latDeg[last], raw.lonDeg[last], raw.latDeg[i], raw.lonDeg[i]);
    out[i] = sum;
    last = i;
  }
  return out;
}

/**
 * A cumulative distance on the 1 s grid, m: each cell holds the last value recorded in it; holes of at most `bridgeS`
 * cells are filled in a straight line, longer ones stay NaN. It never falls: a recorder's count that starts again is
 * carried on, a smaller step back stands still.
 */
export function distanceOnGrid(
  timeS: Float64Array,
  distanceM: Float64Array,
  seconds: number,
  bridgeS: number,
): Float64Array {
  const out = new Float64Array(seconds).fill(NaN);
  let carried = 0;
  let before = NaN;
  let reached = 0;
  for (let i = 0; i < timeS.length; i++) {
    const d = distanceM[i];
    if (d !== d) continue;
    if (before - d > RESET_M && d < before / 2) carried += before;
    before = d;
    reached = Math.max(reached, d + carried);
    out[Math.floor(timeS[i])] = reached;
  }
  fillStraight(out, bridgeS);
  return out;
}

/** Fills holes of at most `bridgeS` cells in a straight line, in place; longer ones and the ends stay NaN. */
export function fillStraight(column: Float64Array, bridgeS: number): void {
  let last = -1;
  for (let k = 0; k < column.length; k++) {
    if (column[k] !== column[k]) continue;
    if (last >= 0 && k - last > 1 && k - last - 1 <= bridgeS) {
      for (let i = last + 1; i < k; i++)
        column[i] = column[last] + ((column[k] - column[last]) * (i - last)) / (k - last);
    }
    last = k;
  }
}
