import type { Ride, Span } from "../../contract/ride.ts";
import { freeRollDecelerationMps2, middlingRider, roadPowerW, steadySpeedMps } from "../../maths/roadPower.ts";
import { meanOf, quantileOf } from "../../maths/statistics.ts";
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
  /** 1 in seconds so slow that a break which brakes down into them was; wider than `nearStand`. */
  readonly slow: Uint8Array;
  /** 1 in seconds at walking pace or slower. */
  readonly walking: Uint8Array;
  /** 1 in the seconds of a tight turn themselves. */
  readonly turning: Uint8Array;
  /** 1 around a bend that is no corner, in which riders stop pressing more often than on the straight all the same. */
  readonly bend: Uint8Array;
  /** The ride's own pressure, W, and the speed that it gives on the level, m/s: road power model. */
  readonly levelW: number;
  readonly levelMps: number;
  /** Usual speed of the ride on the level, m/s; NaN where it has none. */
  readonly usualMps: number;
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
  const slow = new Uint8Array(seconds);
  for (let s = 0; s < seconds; s++) {
    if (paused[s] === 1 || speedAt(s) < limits.walkingMps) walking[s] = 1;
    if (paused[s] === 1 || speedAt(s) < limits.nearStandMps) nearStand[s] = 1;
    if (paused[s] === 1 || speedAt(s) < limits.brakedToMps) slow[s] = 1;
  }

  const turning = new Uint8Array(seconds);
  const bending = new Uint8Array(seconds);
  if (headingDeg && turnRadiusM) {
    for (let s = 0; s < seconds; s++) {
      const v = speedAt(s);
      if (!Number.isFinite(v)) continue;
      const turned = turnedDeg(headingDeg, s, limits.cornerWithinS);
      const radius = turnRadiusM[s];
      const tight = radius <= limits.cornerRadiusM || (v * v) / radius >= limits.cornerSidewaysMps2;
      if (turned >= (tight ? limits.cornerDeg : limits.wideTurnDeg)) turning[s] = 1;
      if (turned >= limits.bendDeg && (v * v) / radius >= limits.bendSidewaysMps2) bending[s] = 1;
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
  const heldUp = braking.flatMap((run) => heldUpAfter(run, speedAt));

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
    braking: unionOf(
      maskOf(braking, seconds, limits.brakingBeforeS, limits.brakingAfterS),
      maskOf(heldUp, seconds, 0, 0),
    ),
    steepDescent: maskOf(steep, seconds, 1, 1),
    walking,
    nearStand,
    slow,
    turning,
    bend: maskOf(
      runsOf((s) => bending[s] === 1, 0, seconds),
      seconds,
      limits.cornerBeforeS,
      limits.cornerAfterS,
    ),
    levelW,
    levelMps,
    usualMps: usualSpeedMps(ride),
    known,
    pullingAway: maskOf(stopSpans, seconds, 0, thresholds.surge.afterStopS),
  };
}

function unionOf(one: Uint8Array, other: Uint8Array): Uint8Array {
  return one.map((value, s) => value | other[s]);
}

/** The seconds after a span of braking in which what made the rider brake still sets the pace: none where it braked little. */
function heldUpAfter(braking: Span, speedAt: (s: number) => number): Span[] {
  const fromMps = speedAt(braking.startS - 1);
  let lowMps = speedAt(braking.endS);
  if (!(lowMps <= limits.heldUpShare * fromMps)) return [];
  let endS = braking.endS;
  while (endS < braking.endS + limits.heldUpS && speedAt(endS) <= lowMps + limits.heldUpGainMps) {
    lowMps = Math.min(lowMps, speedAt(endS));
    endS++;
  }
  return [{ startS: braking.endS, endS }];
}

/**
 * The seconds of a loss of pressure in which a steep descent, in it or ended just before it, runs out: still as fast as the
 * ride's own pressure is on the level.
 */
export function runOutOf(ride: Ride, road: Road, span: Span): Span[] {
  const speed = ride.grid.speed?.value;
  if (!speed) return [];
  const fromS = Math.max(0, span.startS - limits.runOutAfterS);
  return runsOf((s) => road.steepDescent[s] === 1, fromS, span.endS).map((run) => {
    let endS = run.endS;
    while (endS < Math.min(span.endS, run.endS + limits.runOutS) && speed[endS] >= road.levelMps) endS++;
    return { startS: run.endS, endS };
  });
}

/** Median speed of the moving seconds on the level, m/s; NaN without any. */
function usualSpeedMps({ grid }: Ride): number {
  const { speed, gradientPercent } = grid;
  const level = speed?.value.filter(
    (mps, s) =>
      mps >= limits.rollingMps && Math.abs(gradientPercent?.[s] ?? NaN) <= thresholds.pressure.gradeClassPercent,
  );
  return level && level.length > 0 ? quantileOf([...level], 0.5) : NaN;
}

/**
 * Whether a loss of pressure lies in a passage so slow, on a road that does not rise, that something the data does not show
 * set the pace: traffic, company, a path.
 */
export function inSlowPassage(ride: Ride, road: Road, span: Span): boolean {
  const { speed, gradientPercent, seconds } = ride.grid;
  if (!speed || !gradientPercent) return false;
  const mps: number[] = [];
  const percent: number[] = [];
  const toS = Math.min(seconds, span.endS + limits.slowPassageS);
  for (let s = Math.max(0, span.startS - limits.slowPassageS); s < toS; s++) {
    if (s >= span.startS && s < span.endS) continue;
    mps.push(speed.value[s]);
    percent.push(gradientPercent[s]);
  }
  return (
    meanOf(mps) < limits.slowPassageShare * road.usualMps && meanOf(percent) < thresholds.pressure.gradeClassPercent
  );
}

/**
 * First second of a loss of pressure from which the rider, slowing down, crept up to a stop soon after it: a touch of pressure
 * may lie between, but no more speed. Null where no stop followed.
 */
export function creepsFrom(ride: Ride, road: Road, span: Span): number | null {
  const speed = ride.grid.speed?.value;
  if (!speed) return null;
  const capMps = meanOf(speed, span.endS - 1, span.endS) + limits.approachGainMps;
  const untilS = Math.min(ride.grid.seconds, span.endS + limits.approachS);
  let standS = span.endS;
  while (standS < untilS && road.nearStand[standS] === 0 && speed[standS] <= capMps) standS++;
  if (standS >= untilS || road.nearStand[standS] === 0) return null;
  const touchW = meanOf(ride.grid.power?.value ?? [], span.endS, standS);
  if (touchW > limits.approachTouchShare * road.levelW) return null;
  let fromS = span.endS;
  while (fromS > span.startS && speed[fromS - 1] <= capMps) fromS--;
  return fromS > span.startS ? slowsFrom(ride, fromS, span.startS) : null;
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

/** Whether so much more speed than rolling free takes was lost in the seconds before one: the brakes took it. */
export function brakedInto(ride: Ride, at: number): boolean {
  const speed = ride.grid.speed?.value;
  const from = at - limits.slowingOverS;
  if (!speed || from < 0) return false;
  const percent = ride.grid.gradientPercent?.[from] ?? NaN;
  return (
    rolledMps(speed[from], Number.isFinite(percent) ? percent : 0, limits.slowingOverS) - speed[at] >= limits.brakedMps
  );
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

/**
 * Whether something other than the legs moved the rider over a span without pressure: the road falls enough to hold the
 * speed by itself, or the speed stays up or rises where the road must slow it (a group, a wind behind, or data that is
 * wrong).
 *
 * The energy balance of the road power model over the span, with the recorded grade: work against air and rolling, height
 * and speed gained, none of which pressure gave. Unknown speed or grade carries nobody.
 */
export function isCarried(ride: Ride, span: Span): boolean {
  const { speed, gradientPercent } = ride.grid;
  if (!speed || !gradientPercent) return false;
  const { carriedEndsS: ends, gainedOverS } = limits;
  let resistJ = 0;
  let heightJ = 0;
  // From the middle of the seconds that give the speed at one end to the middle of those at the other.
  for (let s = span.startS + (ends - 1) / 2; s < span.endS - (ends + 1) / 2; s++) {
    const parts = roadPowerW(middlingRider, {
      speedMps: speed.value[s],
      grade: gradientPercent[s] / 100,
      headwindMps: 0,
      accelerationMps2: 0,
    });
    resistJ += parts.airW + parts.rollingW + parts.bearingsW;
    heightJ += parts.climbW;
  }
  const startMps = meanOf(speed.value, span.startS, span.startS + ends);
  const endMps = meanOf(speed.value, span.endS - ends, span.endS);
  const speedJ = (middlingRider.massKg / 2) * (endMps ** 2 - startMps ** 2);
  if (-heightJ >= limits.carriedByFallShare * resistJ) return true;
  if (resistJ + heightJ + speedJ >= limits.carriedShare * resistJ) return true;
  // The last second may be pressed already: a meter shows it late.
  for (let s = span.startS; s < span.endS - 1; s++) {
    for (let over = 2; over <= gainedOverS && s + over < span.endS - 1; over++) {
      const rolled = rolledMps(speed.value[s], gradientPercent[s + Math.floor(over / 2)], over);
      if (speed.value[s + over] - rolled >= limits.gainedMps) return true;
    }
  }
  return false;
}
