import type { Ride, Span } from "../../contract/ride.ts";
import { freeRollDecelerationMps2, middlingRider } from "../../maths/roadPower.ts";
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
  /** 1 where all is known that is needed to say that none of them was there. */
  readonly known: Uint8Array;
  /** 1 from a stop until shortly after it: power there is pulling away, no surge. */
  readonly pullingAway: Uint8Array;
}

/** Finds stops, corners, braking and steep descents on the grid. A channel that is missing excuses nothing and is not `known`. */
export function roadOf(ride: Ride): Road {
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

  const cornerSeconds = new Uint8Array(seconds);
  if (headingDeg && turnRadiusM) {
    for (let s = 0; s < seconds; s++) {
      const radius = turnRadiusM[s];
      const v = speedAt(s);
      const tight = radius <= limits.cornerRadiusM || (v * v) / radius >= limits.cornerSidewaysMps2;
      if (tight && turnedDeg(headingDeg, s, limits.cornerWithinS) >= limits.cornerDeg) cornerSeconds[s] = 1;
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

  const steep = runsOf(
    (s) => gradeAt(s) <= limits.descentPercent && speedAt(s) >= limits.descentMps,
    0,
    seconds,
  ).filter((run) => run.endS - run.startS >= limits.descentS);

  const known = new Uint8Array(seconds);
  if (speed && headingDeg) {
    for (let s = 0; s < seconds; s++) {
      const v = speedAt(s);
      const headingKnown = Number.isFinite(headingDeg[s]) || v < limits.rollingMps;
      const gradeKnown = Number.isFinite(gradeAt(s)) || v < limits.descentMps;
      known[s] = Number.isFinite(v) && headingKnown && gradeKnown && gradientPercent ? 1 : 0;
    }
  }

  return {
    stopped: maskOf(stopSpans, seconds, limits.stopBeforeS, limits.stopAfterS),
    corner: maskOf(
      runsOf((s) => cornerSeconds[s] === 1, 0, seconds),
      seconds,
      limits.cornerBeforeS,
      limits.cornerAfterS,
    ),
    braking: maskOf(braking, seconds, limits.brakingBeforeS, limits.brakingAfterS),
    steepDescent: maskOf(steep, seconds, 1, 1),
    known,
    pullingAway: maskOf(stopSpans, seconds, 0, thresholds.surge.afterStopS),
  };
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
