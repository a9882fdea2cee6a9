import type { RecordingMode, Span } from "../contract/ride.ts";

/** Share of 1 s steps from which a recording counts as `every second`. */
const LEAST_SHARE = 0.8;

/**
 * Finds how a recorder stepped: `variable` when fewer than 80 % of the steps between records are 1 s or less, those that
 * touch a pause or begin a segment left out. Repeated times are no steps.
 */
export function recordingMode(timeS: Float64Array, startsSegment: Uint8Array, pauses: readonly Span[]): RecordingMode {
  let steps = 0;
  let single = 0;
  let next = 0;
  for (let i = 1; i < timeS.length; i++) {
    const from = timeS[i - 1];
    const to = timeS[i];
    while (next < pauses.length && pauses[next].endS < from) next++;
    const touchesPause = next < pauses.length && pauses[next].startS <= to;
    if (to === from || startsSegment[i] || touchesPause) continue;
    steps++;
    if (to - from < 1.5) single++;
  }
  return steps > 0 && single < LEAST_SHARE * steps ? "variable" : "every second";
}
