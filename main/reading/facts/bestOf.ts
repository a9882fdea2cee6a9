import type { DebriefFacts } from "../../contract/debriefFacts.ts";
import { PressureState, type Reading } from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf, quantileOf } from "../../maths/statistics.ts";
import { risesOf } from "../moments/riseThenOff.ts";
import { lengthS } from "../spans.ts";

const HOUR_S = 3600;
/** A rise is worth a word from so long on, s, and ridden evenly from so much of it at the plan. Own choice. */
const RISE_S = 180;
const EVEN_SHARE = 0.8;
/** Power is even where nine tenths of the pedalled time lie within so much of its middle, and so long of it is known, s. Own choice. */
const EVEN_POWER = 0.24;
const EVEN_POWER_S = 1200;
const HALF_MEAN_S = 15;

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

/**
 * What nine tenths of the time on the pedals lay between, as 30 s means; null where that is no even power. A mean that
 * reaches into a pause is not counted: it is of the pause.
 */
export function evenPower(
  ride: Ride,
  { counted, columns }: Pick<Reading, "counted" | "columns">,
): DebriefFacts["evenPower"] {
  const means = ride.grid.power30sW;
  if (means === null) return null;
  const pressed: number[] = [];
  let known = 0;
  for (const { startS, endS } of counted.stretches) {
    let onSince: number | null = null;
    const untilS = Math.ceil(endS);
    for (let s = Math.ceil(startS); s <= untilS; s++) {
      const state = s < untilS ? columns.pressureState[s] : PressureState.unknown;
      if (state !== undefined && state !== PressureState.unknown) known++;
      if (state === PressureState.in || state === PressureState.below || state === PressureState.above) {
        onSince ??= s;
        continue;
      }
      if (onSince !== null) {
        const whole = means.subarray(onSince + HALF_MEAN_S, Math.max(onSince + HALF_MEAN_S, s - HALF_MEAN_S));
        for (const watts of whole) if (Number.isFinite(watts)) pressed.push(watts);
      }
      onSince = null;
    }
  }
  if (pressed.length < EVEN_POWER_S || pressed.length < known / 2) return null;
  const [lowW, highW] = [quantileOf(pressed, 0.05), quantileOf(pressed, 0.95)];
  if (highW - lowW > EVEN_POWER * quantileOf(pressed, 0.5)) return null;
  return { lowW: Math.round(lowW), highW: Math.round(highW) };
}
