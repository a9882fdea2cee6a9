import type { Ride, Span } from "../../contract/ride.ts";
import { freeRollDecelerationMps2, middlingRider, steadySpeedMps } from "../../maths/roadPower.ts";
import { meanOf } from "../../maths/statistics.ts";
import { maskOf, runsOf } from "../spans.ts";
import { stopsOf } from "../stops.ts";
import { thresholds } from "../thresholds.ts";

const limits = thresholds.excuse;

/** What the road and the traffic asked of the rider, as far as the data shows: 1 in seconds that each excuses. */
export interface Road {
  readonly stopped: Uint8Array;
  readonly corner: Uint8Array;
  readonly braking: Uint8Array;
  readonly steepDescent: Uint8Array;
  /** 1 in seconds so slow that a break which slows down into them was on its way to a stop; a paused recorder among them. */
  readonly nearStand: Uint8Array;
  /** 1 in seconds at walking pace or slower. */
  readonly walking: Uint8Array;
  /** 1 in the seconds of a tight turn themselves. */
  readonly turning: Uint8Array;
  /** 1 where all is known that is needed to say that none of them was there. */
  readonly known: Uint8Array;
  /** 1 from a stop until shortly after it: power there is pulling away, no surge. */
  readonly pullingAway: Uint8Array;
}

/**
 * Finds stops, walking pace, corners, braking and steep descents on the grid. A channel that is missing excuses nothing and
 * is not `known`.
 *
 * @param levelW pressure of this ride, W: how fast it would go on the level tells which descents are steep
 */
export function roadOf(ride: Ride, levelW: number): Road {
  const { seconds, speed, paused, headingDeg, turnRadiusM, gradientPercent } = ride.grid;
  // Without a speed, cranks at rest may be a coast: only a paused recorder shows a stop.
  const stops = speed ? stopsOf(ride, limits.stopS) : runsOf((s) => paused[s] === 1, 0, seconds);
  const speedAt = (s: number) => speed?.value[s] ?? NaN;
  const gradeAt = (s: number) => gradientPercent?.[s] ?? NaN;

  const stopSpans: Span[] = stops.map((stop) => {
    let rolling = stop.endS;
    const latest = Math.min(seconds, stop.endS + 30);
    while (speed && rolling < latest && !(speedAt(rolling) >= limits.rollingMps)) rolling++;
    return { startS: stop.startS, endS: rolling };
  });

  const walking = new Uint8Array(seconds);
  const nearStand = new Uint8Array(seconds);
  for (let s = 0; s < seconds; s++) {
    if (paused[s] === 1 || speedAt(s) < limits.walkingMps) walking[s] = 1;
    if (paused[s] === 1 || speedAt(s) < limits.nearStandMps) nearStand[s] = 1;
  }

  const turning = new Uint8Array(seconds);
  if (headingDeg && turnRadiusM) {
    for (let s = 0; s < seconds; s++) {
      const v = speedAt(s);
      if (!Number.isFinite(v)) continue;
      const turned = turnedDeg(headingDeg, s, limits.cornerWithinS);
      const radius = turnRadiusM[s];
      const tight = radius <= limits.cornerRadiusM || (v * v) / radius >= limits.cornerSidewaysMps2;
      if (turned >= (tight ? limits.cornerDeg : limits.wideTurnDeg)) turning[s] = 1;
    }
  }

  const beyondRoll = (s: number) => {
    const before = speedAt(s - 1);
    const after = speedAt(s + 1);
    const v = speedAt(s);
    const grade = gradientPercent ? gradeAt(s) : 0;
    if (!(v >= limits.stopBelowMps) || !Number.isFinite(before + after)) return false;
    const slowing = (before - after) / 2;
    // Where the grade is unknown (slow, or no altitude) the flat stands in for it.
    const roll = freeRollDecelerationMps2(middlingRider, v, Number.isFinite(grade) ? grade / 100 : 0);
    return slowing - roll >= limits.brakingBeyondRollMps2;
  };
  const braking = runsOf(beyondRoll, 1, seconds - 1).filter((run) => run.endS - run.startS >= limits.brakingS);

  const levelMps = steadySpeedMps(middlingRider, levelW, 0);
  const steep = runsOf(
    (s) =>
      gradeAt(s) <= limits.descentPercent &&
      speedAt(s) >= limits.stopBelowMps &&
      rolledMps(speedAt(s), gradeAt(s), limits.descentReachS) >= levelMps,
    0,
    seconds,
  ).filter((run) => run.endS - run.startS >= limits.descentS);

  const known = new Uint8Array(seconds);
  if (speed && headingDeg) {
    for (let s = 0; s < seconds; s++) {
      const v = speedAt(s);
      const headingKnown = Number.isFinite(headingDeg[s]) || v < limits.rollingMps;
      const gradeKnown = Number.isFinite(gradeAt(s)) || v < limits.rollingMps;
      known[s] = Number.isFinite(v) && headingKnown && gradeKnown && gradientPercent ? 1 : 0;
    }
  }

  return {
    stopped: maskOf(stopSpans, seconds, limits.stopBeforeS, limits.stopAfterS),
    corner: maskOf(
      runsOf((s) => turning[s] === 1, 0, seconds),
      seconds,
      limits.cornerBeforeS,
      limits.cornerAfterS,
    ),
    braking: maskOf(braking, seconds, limits.brakingBeforeS, limits.brakingAfterS),
    steepDescent: maskOf(steep, seconds, 1, 1),
    walking,
    nearStand,
    turning,
    known,
    pullingAway: maskOf(stopSpans, seconds, 0, thresholds.surge.afterStopS),
  };
}

/** Speed that rolling free for so long on one grade (percent) leads to from a speed, m/s. */
function rolledMps(fromMps: number, percent: number, forS: number): number {
  let mps = fromMps;
  for (let s = 0; s < forS; s++) mps = Math.max(0, mps - freeRollDecelerationMps2(middlingRider, mps, percent / 100));
  return mps;
}

/**
 * First second from which the rider slows down, without a let-up, until `at`: of the mean of five seconds, and never
 * before `fromS`.
 */
export function slowsFrom(ride: Ride, at: number, fromS: number): number {
  const speed = ride.grid.speed?.value;
  if (!speed) return at;
  const mean = (s: number) => meanOf(speed, s - 2, s + 3);
  let start = at;
  while (start > fromS && mean(start - limits.slowingOverS) - mean(Math.min(at, start)) >= limits.slowingMps) start--;
  // What is seen to be slowing from here on began so much earlier.
  return start < at ? Math.max(fromS, start - limits.slowingOverS + 1) : at;
}

/** Largest change of heading between two seconds at most so far apart, around a second, degrees; 0 where unknown. */
function turnedDeg(headingDeg: Float64Array, at: number, withinS: number): number {
  const half = Math.floor(withinS / 2);
  let low = Infinity;
  let high = -Infinity;
  for (let s = Math.max(0, at - half); s <= Math.min(headingDeg.length - 1, at + half); s++) {
    const heading = headingDeg[s];
    if (!Number.isFinite(heading)) continue;
    low = Math.min(low, heading);
    high = Math.max(high, heading);
  }
  return high >= low ? high - low : 0;
}

/** Whether speed falls by much more than rolling free explains, over a span and a little around it. */
export function slowedBeyondRolling(ride: Ride, span: Span): boolean {
  const speed = ride.grid.speed?.value;
  if (!speed) return false;
  const from = Math.max(0, span.startS - 2);
  const to = Math.min(ride.grid.seconds, span.endS + 3);
  let rolledMps = speed[from];
  let worst = 0;
  for (let s = from + 1; s < to; s++) {
    const v = speed[s];
    if (!Number.isFinite(v) || !Number.isFinite(rolledMps)) return false;
    const grade = ride.grid.gradientPercent?.[s] ?? NaN;
    rolledMps = Math.max(
      0,
      rolledMps - freeRollDecelerationMps2(middlingRider, rolledMps, Number.isFinite(grade) ? grade / 100 : 0),
    );
    worst = Math.max(worst, rolledMps - v);
  }
  return worst >= limits.slowedMps;
}
