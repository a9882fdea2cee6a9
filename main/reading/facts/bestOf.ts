import type { DebriefFacts } from "../../contract/debriefFacts.ts";
import { PressureState, type Reading } from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf } from "../../maths/statistics.ts";
import { risesOf } from "../moments/hardUpCoastOver.ts";
import { lengthS } from "../spans.ts";

const HOUR_S = 3600;
/** A rise is worth a word from so long on, s, and ridden evenly from so much of it at the plan. Own choice. */
const RISE_S = 180;
const EVEN_SHARE = 0.8;

/** The hour of the judged spans with most time in the band; of equal ones the first. */
export function bestHour(spans: readonly Span[], states: Uint8Array): DebriefFacts["bestHour"] {
  let best: (Span & { inS: number }) | null = null;
  for (const { startS, endS } of spans) {
    let inS = 0;
    for (let s = startS; s < endS; s++) {
      if (states[s] === PressureState.in) inS++;
      if (s - HOUR_S >= startS && states[s - HOUR_S] === PressureState.in) inS--;
      if (s + 1 - startS >= HOUR_S && (best === null || inS > best.inS))
        best = { startS: s + 1 - HOUR_S, endS: s + 1, inS };
    }
  }
  return best && { startS: best.startS, endS: best.endS, inPercent: Math.round((100 * best.inS) / HOUR_S) };
}

/** The longest rise that was ridden at the plan from bottom to top. */
export function evenRise(
  ride: Ride,
  { counted, columns }: Pick<Reading, "counted" | "columns">,
): DebriefFacts["evenRise"] {
  const power = ride.grid.power;
  if (power === null) return null;
  const even = risesOf({ ride, counted })
    .filter((rise) => {
      const inS = columns.pressureState
        .subarray(rise.startS, rise.endS)
        .reduce((sum, state) => sum + (state === PressureState.in ? 1 : 0), 0);
      return lengthS(rise) >= RISE_S && inS >= EVEN_SHARE * lengthS(rise);
    })
    .sort((one, other) => lengthS(other) - lengthS(one))[0];
  if (even === undefined) return null;
  return { ...even, meanW: Math.round(meanOf(power.value, even.startS, even.endS)) };
}
