import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { distanceM } from "../../maths/geodesy.ts";
import type { Ride, Span } from "../../contract/ride.ts";

/** What a camera on this ride should have seen and heard, on the grid of the signals; NaN where the ride does not tell. */
export interface RideSeries {
  readonly motion: Float64Array;
  readonly sound: Float64Array;
  readonly turning: Float64Array;
  /** Natural log of how much the road shakes a bike, as far as speed tells. */
  readonly shake: Float64Array;
  /** Speed itself, m/s, for pictures. */
  readonly speedMps: Float64Array;
  /** Speed as a camera should have seen it, m/s: 0 also while the recorder paused and the bike stayed where it was. */
  readonly seenMps: Float64Array;
}

/** No value is made between records further apart than this, s; where the recorder chose its own steps it wrote none since little changed. */
const LONGEST_STEP_S = 3;
const LONGEST_CHOSEN_STEP_S = 10;
/** A pause's ends are told by the nearest positions within this, s. */
const PAUSE_EDGE_S = 15;
/** Course is taken between positions this far apart, s. */
const COURSE_STEP_S = 3;
/** Below this speed other noise covers wind and tyres, m/s. */
const QUIET_MPS = 3;
/** Shake grows with speed; this keeps standing from being endlessly still, m/s. */
const CREEP_MPS = 0.3;
/** Below this speed the course means nothing, m/s. */
const SLOW_MPS = 1.2;

/** A pause at whose ends the bike is no further apart than this was spent standing, m: what positions scatter, and a few steps. */
const STANDING_PAUSE_M = 40;

/** The pauses of the recorder in which the bike stayed where it was, as far as its positions tell. */
function standingPauses(ride: Ride): Span[] {
  const { timeS, latDeg, lonDeg, count } = ride.raw;
  const known = (k: number) => Number.isFinite(latDeg[k]) && Number.isFinite(lonDeg[k]);
  return ride.gaps.filter(({ kind, startS, endS }) => {
    if (kind !== "pause") return false;
    let before = -1;
    while (before + 1 < count && timeS[before + 1] <= startS) before++;
    let after = before + 1;
    while (after < count && timeS[after] < endS) after++;
    while (before >= 0 && !known(before)) before--;
    while (after < count && !known(after)) after++;
    if (before < 0 || after >= count || startS - timeS[before] > PAUSE_EDGE_S || timeS[after] - endS > PAUSE_EDGE_S)
      return false;
    return distanceM(latDeg[before], lonDeg[before], latDeg[after], lonDeg[after]) <= STANDING_PAUSE_M;
  });
}

/** Times and values of a column's records that have one, and of the ends of `held` spans, at which it has `heldValue`. */
function knots(
  ride: Ride,
  column: Float64Array,
  held: readonly Span[],
  heldValue: number,
): { readonly atS: number; readonly value: number }[] {
  const { timeS, count } = ride.raw;
  const out: { atS: number; value: number }[] = [];
  for (let k = 0; k < count; k++) {
    if (Number.isFinite(column[k]) && !held.some((span) => timeS[k] >= span.startS && timeS[k] <= span.endS))
      out.push({ atS: timeS[k], value: column[k] });
  }
  for (const span of held) out.push({ atS: span.startS, value: heldValue }, { atS: span.endS, value: heldValue });
  return out.sort((a, b) => a.atS - b.atS);
}

/** Reads knots at the middle of each grid cell, straight between neighbours no further apart than `LONGEST_STEP_S`, or at both ends of one of `held`. */
function onGrid(
  points: readonly { readonly atS: number; readonly value: number }[],
  held: readonly Span[],
  paused: Uint8Array,
  cells: number,
  longestS: number,
): Float64Array {
  const out = new Float64Array(cells).fill(NaN);
  let k = 0;
  for (let cell = 0; cell < cells; cell++) {
    const t = (cell + 0.5) * SIGNAL_STEP_S;
    while (k < points.length && points[k].atS <= t) k++;
    if (k === 0 || k >= points.length) continue;
    const [before, after] = [points[k - 1], points[k]];
    const bridged = held.some(
      (span) => before.atS <= span.endS && after.atS >= span.startS && t >= span.startS && t <= span.endS,
    );
    if (!bridged && (after.atS - before.atS > longestS || paused[Math.floor(t)] === 1)) continue;
    out[cell] = before.value + ((t - before.atS) / (after.atS - before.atS)) * (after.value - before.value);
  }
  return out;
}

function percentile(values: Float64Array, share: number): number {
  const sorted = values.filter(Number.isFinite).sort();
  return sorted[Math.floor(share * (sorted.length - 1))] ?? NaN;
}

/** Rate of turn from positions, degrees a second, positive to the right; 0 when slow, NaN without positions. */
function turnRate(lat: Float64Array, lon: Float64Array, speed: Float64Array): Float64Array {
  const half = Math.round(COURSE_STEP_S / SIGNAL_STEP_S / 2);
  const n = lat.length;
  const course = new Float64Array(n).fill(NaN);
  for (let k = half; k < n - half; k++) {
    const dy = lat[k + half] - lat[k - half];
    const dx = (lon[k + half] - lon[k - half]) * Math.cos((lat[k] * Math.PI) / 180);
    if (Math.hypot(dx, dy) > 0) course[k] = (Math.atan2(dx, dy) * 180) / Math.PI;
  }
  const rate = new Float64Array(n).fill(NaN);
  for (let k = 1; k < n - 1; k++) {
    if (Number.isFinite(speed[k]) && speed[k] < SLOW_MPS) rate[k] = 0;
    else {
      const turned = course[k + 1] - course[k - 1];
      rate[k] = (turned - 360 * Math.round(turned / 360)) / (2 * SIGNAL_STEP_S);
    }
  }
  return rate;
}

/**
 * The ride as motion, sound and turning. Motion saturates with speed and wind grows with its square (40 dB for ten times
 * the speed, held to the 95th percentile, where cameras clip); shake grows with speed; these models are our own, not published.
 */
export function rideSeries(ride: Ride): RideSeries {
  const cells = Math.max(1, Math.ceil(ride.elapsedS / SIGNAL_STEP_S));
  const held = standingPauses(ride);
  const { paused } = ride.grid;
  const longestS = ride.mode === "variable" ? LONGEST_CHOSEN_STEP_S : LONGEST_STEP_S;
  const seenMps = onGrid(knots(ride, ride.raw.speedMps, held, 0), held, paused, cells, longestS);
  const place = (column: Float64Array) => onGrid(knots(ride, column, [], NaN), held, paused, cells, longestS);
  const loud = seenMps.map((v) => 40 * Math.log10(Math.max(v, QUIET_MPS)));
  const most = percentile(loud, 0.95);
  return {
    speedMps: seenMps.map((v, k) => (paused[Math.floor((k + 0.5) * SIGNAL_STEP_S)] === 1 ? NaN : v)),
    seenMps,
    motion: seenMps.map((v) => Math.log(0.05 + v / (v + 3))),
    sound: loud.map((v) => Math.min(v, most)),
    shake: seenMps.map((v) => Math.log(CREEP_MPS + v)),
    turning: turnRate(place(ride.raw.latDeg), place(ride.raw.lonDeg), seenMps),
  };
}
