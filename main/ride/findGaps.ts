import { median } from "../maths/median.ts";
import type { Gap, RecordingMode, Span } from "../contract/ride.ts";

/** Steps longer than what any sensor is bridged over count as lost data, s. */
const LOST_S = { "every second": 5, variable: 10 } as const;
/** A recorder that chooses its own steps has lost data only where a step is this many times the usual one. */
const UNUSUAL = 3;

/**
 * Spans without records, in order: pauses as the file tells them, and `lost` where records stop for longer than 5 s
 * (in a `variable` ride 10 s or three times its median step, whichever is longer) without one. A lost span runs from
 * one second after the last record to the next.
 */
export function findGaps(timeS: Float64Array, pauses: readonly Span[], mode: RecordingMode): Gap[] {
  const gaps: Gap[] = pauses.map((p) => ({ ...p, kind: "pause" }));
  const lostS = mode === "variable" ? Math.max(LOST_S.variable, UNUSUAL * medianStep(timeS)) : LOST_S[mode];
  let next = 0;
  for (let i = 1; i < timeS.length; i++) {
    const from = timeS[i - 1];
    const to = timeS[i];
    if (to - from <= lostS) continue;
    while (next < pauses.length && pauses[next].endS < from) next++;
    const pause = pauses[next];
    if (pause && pause.startS < to) continue;
    gaps.push({ startS: from + 1, endS: to, kind: "lost" });
  }
  return gaps.sort((a, b) => a.startS - b.startS);
}

function medianStep(timeS: Float64Array): number {
  return median(timeS.subarray(1).map((t, i) => t - timeS[i])) || 0;
}
