import type { TelemetryPositions } from "../contract/telemetry.ts";
import { LONGEST_STEP_S, SMOOTH_S, type Points, lastAt, onPlane, smoothed } from "./trackPoints.ts";
import { type Parting, partingAt } from "./trackParting.ts";

/** Where one recorded track lies in time on another. */
export interface TrackMatch {
  /** Time on the second track of the first one's time 0, s. */
  readonly offsetS: number;
  /** Half-width of about 95 %, s; at least 0.1. */
  readonly uncertaintyS: number;
  /** The part of it that the shape of the tracks alone gives: what two matches weigh against each other, s. */
  readonly sharpS: number;
  /** Root mean square distance after their mean distance is taken out, m. */
  readonly rmsM: number;
  /** Way covered by the matched samples, m. */
  readonly movedM: number;
  /** Log likelihood; larger is better. */
  readonly score: number;
  /** How the two tracks part where they are held together. */
  readonly parting: Parting;
}

/**
 * How much of the receivers' change across the way goes into the printed error, and the least that is taken for it, m: so
 * that 19 of 20 places of 1,800 made pairs with 1.5 to 4 m of correlated noise lie within it (seeds kept for tuning).
 */
const WANDER_IN_ERROR = 3.4;
const LEAST_WANDER_M = 1.2;
/** Over longer than this it evens out, s. */
const WANDER_S = 120;

/**
 * How far apart two receivers see the same place, m, and how long they keep that, s (from memory; held to made tracks in
 * the tests): the difference wanders slowly, so what it changes by from one second to the next is far less than what it is.
 */
const APART_SIGMA_M = 3;
const APART_MEMORY_S = 60;
/** Places jitter by about this beside, m. */
const JITTER_SIGMA_M = 0.3;

/** How well two tracks can agree at the same instant. */
interface Noise {
  /** What the distance between them changes by, over what it is expected to; and their speeds' difference, m/s. */
  readonly change: number;
  readonly speedMps: number;
  /** Independent samples in one, of each: neighbouring ones hang together. */
  readonly changeShare: number;
  readonly speedShare: number;
}

/** Before the tracks have been held together (from memory); samples hang together over 3 s or so. */
const FOREIGN_NOISE = (spacingS: number): Noise => {
  const share = Math.min(1, spacingS / 3);
  return { change: 1, speedMps: 0.7, changeShare: share, speedShare: share };
};
/** No two receivers are taken to agree better than this. */
const LEAST_NOISE = { change: 0.2, speedMps: 0.08 };
/** Receivers this far apart throughout, or tracks that part by this much, are not in one place, m. */
const APART_M = 40;
const FURTHEST_M = 100;
/** Sum of squares, and of products of neighbours, of so many residuals. */
class Residuals {
  count = 0;
  squares = 0;
  products = 0;
  private last = NaN;

  add(value: number): void {
    this.count++;
    this.squares += value * value;
    if (Number.isFinite(this.last)) this.products += value * this.last;
    this.last = value;
  }

  /** Root mean square; NaN without any. */
  rms(): number {
    return Math.sqrt(this.squares / this.count);
  }

  /** Independent residuals in one, by how much neighbours hang together: (1 - r) / (1 + r). */
  share(): number {
    const r = Math.min(Math.max(this.products / this.squares, 0), 0.95);
    return (1 - r) / (1 + r);
  }
}

interface Held {
  /** Distance at the first sample, squared, over what it is expected to be. */
  readonly first: number;
  readonly x: Residuals;
  readonly y: Residuals;
  readonly speed: Residuals;
  /** Mean distance, m, and what is left of it when that is taken out. */
  readonly apartM: number;
  readonly rmsM: number;
  /** Samples that should have met, over those that did. */
  readonly missing: number;
}

function costOf({ first, x, y, speed, missing }: Held, noise: Noise): number {
  return (
    first +
    missing *
      (((x.squares + y.squares) * noise.changeShare) / noise.change ** 2 +
        (speed.squares * noise.speedShare) / noise.speedMps ** 2)
  );
}

/** The noise that the tracks show where they are held together. */
function noiseOf({ x, y, speed }: Held): Noise {
  const change = Math.max(LEAST_NOISE.change, Math.hypot(x.rms(), y.rms()) / Math.SQRT2);
  const known = speed.count >= 5;
  return {
    change,
    speedMps: known ? Math.max(LEAST_NOISE.speedMps, speed.rms()) : 1,
    changeShare: Math.min(x.share(), y.share()),
    speedShare: known ? speed.share() : 0,
  };
}

/** How finely the second track is walked: every `stride`-th sample. */
interface Pace {
  readonly stride: number;
  /** Samples that the whole of the first track would meet. */
  readonly expected: number;
}

/**
 * The tracks held together at one offset: how the distance between them changes from sample to sample (as first-order
 * autoregressive noise, each over what it is expected to be), and their speeds' difference. The second track's samples
 * are held against the first one, read between its denser samples. Null when under 60 % overlaps.
 */
function hold(a: Points, b: Points, offsetS: number, pace: Pace): Held | null {
  const last = a.t.length - 1;
  const [x, y, speed] = [new Residuals(), new Residuals(), new Residuals()];
  let [n, sx, sy, sq] = [0, 0, 0, 0];
  let apart = 0;
  let before: { t: number; dx: number; dy: number } | null = null;
  const from = Math.ceil(lastAt(b.t, a.t[0]! + offsetS) / pace.stride) * pace.stride;
  let k = 0;
  for (let i = from; i < b.t.length; i += pace.stride) {
    const t = b.t[i]! - offsetS;
    // At its ends the first track is smoothed less than the second.
    if (t < a.t[0]! + SMOOTH_S) continue;
    if (t > a.t[last]! - SMOOTH_S) break;
    while (k + 1 < last && a.t[k + 1]! <= t) k++;
    const step = a.t[k + 1]! - a.t[k]!;
    if (step > LONGEST_STEP_S) continue;
    const f = (t - a.t[k]!) / step;
    const dx = a.x[k]! + f * (a.x[k + 1]! - a.x[k]!) - b.x[i]!;
    const dy = a.y[k]! + f * (a.y[k + 1]! - a.y[k]!) - b.y[i]!;
    const v = a.v[k]! + f * (a.v[k + 1]! - a.v[k]!) - b.v[i]!;
    n++;
    sx += dx;
    sy += dy;
    sq += dx * dx + dy * dy;
    if (before) {
      const kept = Math.exp((before.t - t) / APART_MEMORY_S);
      const expected = Math.sqrt(APART_SIGMA_M ** 2 * (1 - kept * kept) + JITTER_SIGMA_M ** 2);
      x.add((dx - kept * before.dx) / expected);
      y.add((dy - kept * before.dy) / expected);
    } else apart = (dx * dx + dy * dy) / APART_SIGMA_M ** 2;
    if (Number.isFinite(v)) speed.add(Math.max(-5, Math.min(5, v)));
    before = { t, dx, dy };
  }
  if (n < 0.6 * pace.expected || n < 5) return null;
  const apartM = Math.hypot(sx, sy) / n;
  return {
    first: apart,
    x,
    y,
    speed,
    missing: pace.expected / n,
    apartM,
    rmsM: Math.sqrt(Math.max(0, sq / n - apartM ** 2)),
  };
}

/** Minimum of the misfit near a whole second: fine grid, then weighed anew by the noise found there. */
function refine(a: Points, b: Points, around: number, pace: Pace, spacingS: number, movedM: number): TrackMatch | null {
  let noise = FOREIGN_NOISE(spacingS);
  const at = (offset: number) => {
    const held = hold(a, b, offset, pace);
    return held ? costOf(held, noise) : Infinity;
  };
  let centre = around;
  const settle = (): void => {
    for (const step of [0.25, 0.05, 0.01]) {
      let best = { offset: centre, cost: at(centre) };
      for (let k = -6; k <= 6; k++) {
        const cost = at(centre + k * step);
        if (cost < best.cost) best = { offset: centre + k * step, cost };
      }
      centre = best.offset;
    }
  };
  settle();
  const score = -at(centre) / 2;
  for (let round = 0; round < 2; round++) {
    const held = hold(a, b, centre, pace);
    if (!held) return null;
    noise = noiseOf(held);
    settle();
  }
  const here = hold(a, b, centre, pace);
  if (!here) return null;
  // Curvature over +-0.5 s: closer by, the straight lines between records make corners.
  const curvature = (at(centre + 0.5) + at(centre - 0.5) - 2 * at(centre)) / 0.25;
  const sharpS = curvature > 0 && Number.isFinite(curvature) ? Math.max(0.1, 2 * Math.sqrt(2 / curvature)) : Infinity;
  const parting = partingAt(a, b, centre);
  // What the receivers wander by along the way looks like time; how much that is, they show across it.
  const wanderM = Math.max(LEAST_WANDER_M, Number.isFinite(parting.acrossChangeM) ? parting.acrossChangeM : 0);
  const speedMps = movedM / Math.max(1, parting.spanS);
  const wanderS = (WANDER_IN_ERROR * wanderM) / Math.max(speedMps, 0.1) / Math.sqrt(1 + parting.spanS / WANDER_S);
  return {
    offsetS: centre,
    uncertaintyS: Math.hypot(sharpS, wanderS),
    sharpS,
    rmsM: here.rmsM,
    movedM,
    score,
    parting,
  };
}

/**
 * Finds where track `a` lies on track `b` in time, by positions and speeds: least squares, with a
 * distance between the two receivers that wanders slowly. `best` is null when they never come within 100 m; `others` are further minima, best first, more than
 * 8 s away from it and from each other.
 */
export function matchTracks(
  a: TelemetryPositions,
  b: TelemetryPositions,
): { readonly best: TrackMatch | null; readonly others: readonly TrackMatch[] } {
  if (a.mediaS.length < 5 || b.mediaS.length < 5) return { best: null, others: [] };
  const [lat0, lon0] = [a.latDeg[0]!, a.lonDeg[0]!];
  const camera = smoothed(onPlane(a, lat0, lon0));
  const ride = smoothed(onPlane(b, lat0, lon0));
  const last = camera.t.length - 1;
  let movedM = 0;
  for (let k = 0, before = 0; k <= last; k++) {
    // A way is measured in steps of a second: between closer samples the receiver's noise would be added up.
    if (camera.t[k]! - camera.t[before]! < 1) continue;
    movedM += Math.hypot(camera.x[k]! - camera.x[before]!, camera.y[k]! - camera.y[before]!);
    before = k;
  }
  const steps = Array.from(ride.t.subarray(1), (t, k) => t - ride.t[k]!).sort((p, q) => p - q);
  const spacingS = Math.max(steps[steps.length >> 1]!, 0.1);
  const spanS = camera.t[last]! - camera.t[0]!;
  // A clip longer than the ride meets no more than the ride.
  const rideS = ride.t[ride.t.length - 1]! - ride.t[0]!;
  const paceOf = (most: number): Pace => {
    const stride = Math.max(1, Math.floor(spanS / spacingS / most));
    return { stride, expected: Math.max(1, Math.min(spanS, rideS) / (stride * spacingS)) };
  };
  const [coarse, fine] = [paceOf(40), paceOf(600)];
  const from = Math.floor(ride.t[0]! - camera.t[last]!);
  const to = Math.ceil(ride.t[ride.t.length - 1]! - camera.t[0]!);
  const noise = FOREIGN_NOISE(coarse.stride * spacingS);
  const minima: { offset: number; cost: number }[] = [];
  let [two, one] = [Infinity, Infinity];
  for (let offset = from; offset <= to + 1; offset++) {
    const held = hold(camera, ride, offset, coarse);
    const cost = held && held.rmsM < FURTHEST_M && held.apartM < APART_M ? costOf(held, noise) : Infinity;
    if (one <= two && one < cost) minima.push({ offset: offset - 1, cost: one });
    two = one;
    one = cost;
  }
  minima.sort((p, q) => p.cost - q.cost);
  const matches: TrackMatch[] = [];
  for (const minimum of minima.slice(0, 20)) {
    const match = refine(camera, ride, minimum.offset, fine, fine.stride * spacingS, movedM);
    if (match && matches.every((m) => Math.abs(m.offsetS - match.offsetS) > 8)) matches.push(match);
  }
  matches.sort((p, q) => q.score - p.score);
  return { best: matches[0] ?? null, others: matches.slice(1) };
}
