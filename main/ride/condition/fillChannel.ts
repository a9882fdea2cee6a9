import { CellState, type Channel, type RecordingMode } from "../../contract/ride.ts";

/** How long a sample of a variable recording stands, s (architecture note, recording mode). */
export const VARIABLE_HOLD_S = 10;

/**
 * Closes short holes of a channel in place. In an `every second` ride a hole of at most `bridgeS` cells between two
 * samples holds the value before it and a longer one stays empty; in a `variable` ride a sample stands until the next,
 * at most 10 s. Cells of a pause are never filled, and a rejected value is never replaced.
 */
export function fillChannel(channel: Channel, paused: Uint8Array, mode: RecordingMode, bridgeS: number): void {
  const { value, state } = channel;
  let last = -1;
  for (let k = 0; k < value.length; k++) {
    if (state[k] === CellState.recorded) {
      if (mode === "every second" && last >= 0 && k - last - 1 <= bridgeS) hold(last + 1, k, value[last]);
      last = k;
    } else if (state[k] === CellState.rejected) {
      last = -1;
    } else if (paused[k]) {
      state[k] = CellState.paused;
      last = -1;
    } else if (mode === "variable" && last >= 0 && k - last < VARIABLE_HOLD_S) {
      hold(k, k + 1, value[last]);
    }
  }

  function hold(from: number, to: number, held: number): void {
    for (let i = from; i < to; i++) {
      value[i] = held;
      state[i] = CellState.held;
    }
  }
}
