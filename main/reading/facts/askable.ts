import { PressureState, type Break, type Surge } from "../../contract/reading.ts";
import type { Setting } from "../../contract/plan.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf } from "../../maths/statistics.ts";

/** A road that falls by more than this is a descent, percent; faster than this nobody is asked for pressure, m/s (43 km/h). Own choice. */
const DESCENT_PERCENT = -1;
const FASTEST_MPS = 12;
/** A turn of so much within so long, so near a break, is a corner, degrees and s. Own choice. */
const TURN_DEG = 30;
const TURN_WITHIN_S = 10;
const AROUND_S = 5;
/** Slower than this, or so near to it, is traffic or a stop, m/s and s. Own choice. */
const SLOW_MPS = 3;
const SLOW_AROUND_S = 20;
/** So long after riding above the plan a pause belongs to the effort, s. Own choice. */
const AFTER_HARD_S = 60;
/**
 * Where no power is planned, hard is what lies so much above the ride's own: its 30 s mean of power above the mean on the
 * pedals, or, without power, its heart rate above the ride's mean, beats. Own choice.
 */
const HARD_SHARE = 0.25;
const HARD_BEATS = 10;
const HALF_MEAN_S = 15;

/**
 * Breaks without a reason where pressure may be asked for. On the road all of speed, grade and course must be known
 * around them and say that the way was free, level or rising, and straight; on a trainer there is no road. Never right
 * after a hard effort, and none in a group, where easing in the wheel is good riding, nor where neither power nor heart
 * rate says what was hard.
 */
export function askableBreaks(
  ride: Ride,
  setting: Setting,
  breaks: readonly Break[],
  surges: readonly Surge[],
  states: Uint8Array,
  efforts: readonly Span[],
): Span[] {
  if (setting === "group") return [];
  const hard = [...surges, ...efforts];
  const hardByItself = ownHard(ride, states);
  if (hardByItself === null) return [];
  return breaks
    .filter(
      (one) =>
        one.excused === false &&
        !afterHard(one, hard, states) &&
        !hardByItself(one) &&
        (setting === "trainer" ? true : roadIsFree(ride, one)),
    )
    .map(({ startS, endS }) => ({ startS, endS }));
}

function afterHard({ startS }: Span, hard: readonly Span[], states: Uint8Array): boolean {
  if (hard.some((one) => one.startS < startS && startS - one.endS <= AFTER_HARD_S)) return true;
  let aboveS = 0;
  for (let s = Math.max(0, startS - AFTER_HARD_S); s < startS; s++) if (states[s] === PressureState.above) aboveS++;
  return aboveS >= AROUND_S;
}

/** Whether a break follows an effort that was hard for this very ride; null: nothing tells. */
function ownHard({ grid }: Ride, states: Uint8Array): ((one: Span) => boolean) | null {
  const { power, power30sW, heartRate } = grid;
  const any = (from: number, to: number, over: (second: number) => boolean): boolean => {
    for (let s = Math.max(0, from); s < to; s++) if (over(s)) return true;
    return false;
  };
  if (power !== null && power30sW !== null) {
    const level = meanOf(power.value.filter((_, s) => PRESSED.has(states[s])));
    return ({ startS }) =>
      any(startS - AFTER_HARD_S, startS - HALF_MEAN_S, (s) => power30sW[s] > (1 + HARD_SHARE) * level);
  }
  if (heartRate === null) return null;
  const level = meanOf(heartRate.value.filter((_, s) => PRESSED.has(states[s])));
  return ({ startS, endS }) => any(startS - HALF_MEAN_S, endS, (s) => heartRate.value[s] > level + HARD_BEATS);
}

const PRESSED = new Set<number>([PressureState.in, PressureState.below, PressureState.above]);

function roadIsFree({ grid }: Ride, { startS, endS }: Span): boolean {
  const { speed, gradientPercent, headingDeg, seconds } = grid;
  if (!speed || !gradientPercent || !headingDeg) return false;
  const from = Math.max(0, startS - AROUND_S);
  const to = Math.min(seconds, endS + AROUND_S);
  let known = 0;
  for (let s = from; s < to; s++) if (Number.isFinite(speed.value[s] + gradientPercent[s] + headingDeg[s])) known++;
  if (known < 0.8 * (to - from)) return false;
  if (!(meanOf(gradientPercent, startS, endS) >= DESCENT_PERCENT)) return false;
  if (!(meanOf(gradientPercent, from, startS + 1) >= DESCENT_PERCENT)) return false;
  for (let s = from; s < to; s++) {
    if (speed.value[s] > FASTEST_MPS) return false;
    for (let later = s + 1; later <= Math.min(s + TURN_WITHIN_S, to - 1); later++)
      if (Math.abs(headingDeg[later] - headingDeg[s]) >= TURN_DEG) return false;
  }
  for (let s = Math.max(0, startS - SLOW_AROUND_S); s < Math.min(seconds, endS + SLOW_AROUND_S); s++)
    if (speed.value[s] < SLOW_MPS || grid.paused[s] === 1) return false;
  return true;
}
