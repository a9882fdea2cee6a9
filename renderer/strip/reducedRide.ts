import type { RideColumns } from "../../main/contract/rideColumns.ts";
import type { StripSpan } from "./stripSpan.ts";

const STATES = 7;

/**
 * The road and the pressure of a span in so many cells, for the thread of a whole ride: in each cell the state that held
 * longest and the mean height. A cell never stands for less than a second.
 */
export function reducedRide(columns: RideColumns, span: StripSpan, cells: number): RideColumns {
  const lengthS = span.toS - span.fromS;
  const count = Math.max(2, Math.min(cells, Math.ceil(lengthS)));
  const { pressureState: states, altitudeM: heights } = columns;
  const pressureState = new Uint8Array(count);
  const altitudeM = heights === null ? null : new Float64Array(count);
  const held = new Uint32Array(STATES);
  for (let cell = 0; cell < count; cell++) {
    const first = Math.floor(span.fromS + (cell * lengthS) / count);
    const end = Math.min(columns.seconds, Math.max(first + 1, Math.floor(span.fromS + ((cell + 1) * lengthS) / count)));
    held.fill(0);
    let sum = 0;
    let known = 0;
    for (let k = Math.max(0, first); k < end; k++) {
      held[states[k]!]!++;
      const height = heights === null ? Number.NaN : heights[k]!;
      if (Number.isNaN(height)) continue;
      sum += height;
      known++;
    }
    pressureState[cell] = held.indexOf(Math.max(...held));
    if (altitudeM !== null) altitudeM[cell] = known === 0 ? Number.NaN : sum / known;
  }
  return { ...columns, seconds: count, pressureState, altitudeM };
}
