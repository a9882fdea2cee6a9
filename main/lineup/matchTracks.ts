import type { TelemetryPositions } from "../contract/telemetry.ts";

/** Where one recorded track lies in time on another. */
export interface TrackMatch {
  /** Time on the second track of the first one's time 0, s. */
  readonly offsetS: number;
  /** Half-width of about 95 %, s; at least 0.1. */
  readonly uncertaintyS: number;
  /** Root mean square distance after a shared shift is taken out, m. */
  readonly rmsM: number;
  /** Way covered by the matched samples, m. */
  readonly movedM: number;
  /** Log likelihood; larger is better. */
  readonly score: number;
}

/** Receivers differ by about this, m: the part that stays the same for minutes, and the part that does not. */
const SHIFT_SIGMA_M = 3;
const NOISE_SIGMA_M = 3;
const SPEED_SIGMA_MPS = 0.7;
/** Errors of neighbouring samples hang together over about this long, s. */
const CORRELATION_S = 5;
/** Nothing is read between records further apart than this, s. */
const LONGEST_STEP_S = 3.5;

interface Points {
  readonly t: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly v: Float64Array;
}

/** Metres on a plane about (lat0, lon0): enough for tracks some 100 km wide (equirectangular). */
function onPlane(track: TelemetryPositions, lat0: number, lon0: number): Points {
  const perDeg = 111_195;
  const shrink = Math.cos((lat0 * Math.PI) / 180);
  return {
    t: track.mediaS,
    x: Float64Array.from(track.lonDeg, (lon) => (lon - lon0) * perDeg * shrink),
    y: Float64Array.from(track.latDeg, (lat) => (lat - lat0) * perDeg),
    v: track.speedMps,
  };
}

/** Index of the last entry at or before `t`; 0 when there is none. */
function lastAt(times: Float64Array, t: number): number {
  let [low, high] = [0, times.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (times[middle] <= t) low = middle;
    else high = middle - 1;
  }
  return low;
}

interface Sum {
  readonly cost: number;
  readonly rmsM: number;
}

/** How finely the second track is walked: every `stride`-th sample, each counting `effective` independent ones. */
interface Pace {
  readonly stride: number;
  readonly effective: number;
  /** Samples that the whole of the first track would meet. */
  readonly expected: number;
}

/**
 * Misfit at one offset: distances with a shared shift allowed for, and speeds. The second track's samples are held
 * against the first one, read between its denser samples. Null when under 60 % overlaps.
 */
function misfit(a: Points, b: Points, offsetS: number, pace: Pace): Sum | null {
  const last = a.t.length - 1;
  let [n, sx, sy, sq, speed] = [0, 0, 0, 0, 0];
  const first = Math.ceil(lastAt(b.t, a.t[0] + offsetS) / pace.stride) * pace.stride;
  let k = 0;
  for (let i = first; i < b.t.length; i += pace.stride) {
    const t = b.t[i] - offsetS;
    if (t < a.t[0]) continue;
    if (t > a.t[last]) break;
    while (k + 1 < last && a.t[k + 1] <= t) k++;
    const step = a.t[k + 1] - a.t[k];
    if (step > LONGEST_STEP_S) continue;
    const f = (t - a.t[k]) / step;
    const dx = a.x[k] + f * (a.x[k + 1] - a.x[k]) - b.x[i];
    const dy = a.y[k] + f * (a.y[k + 1] - a.y[k]) - b.y[i];
    const v = a.v[k] + f * (a.v[k + 1] - a.v[k]) - b.v[i];
    n++;
    sx += dx;
    sy += dy;
    sq += dx * dx + dy * dy;
    if (Number.isFinite(v)) speed += Math.min(v * v, 25);
  }
  if (n < 0.6 * pace.expected || n < 5) return null;
  // Shared shift b minimises sum |d - b|^2 / sigma^2 + |b|^2 / shift^2; each sample counts `effective`.
  const weight = pace.effective / NOISE_SIGMA_M ** 2;
  const shrink = (n * weight) / (n * weight + 1 / SHIFT_SIGMA_M ** 2);
  const [bx, by] = [(sx / n) * shrink, (sy / n) * shrink];
  const rest = sq - 2 * (bx * sx + by * sy) + n * (bx * bx + by * by);
  const all = (rest * weight + (speed * pace.effective) / SPEED_SIGMA_MPS ** 2) * (pace.expected / n);
  return { cost: all + (bx * bx + by * by) / SHIFT_SIGMA_M ** 2, rmsM: Math.sqrt(Math.max(0, rest) / n) };
}

/** Minimum of the misfit near a whole second: fine grid, then a parabola. */
function refine(a: Points, b: Points, around: number, pace: Pace, movedM: number): TrackMatch | null {
  const at = (offset: number) => misfit(a, b, offset, pace)?.cost ?? Infinity;
  let centre = around;
  for (const step of [0.25, 0.05, 0.01]) {
    let best = { offset: centre, cost: at(centre) };
    for (let k = -6; k <= 6; k++) {
      const cost = at(centre + k * step);
      if (cost < best.cost) best = { offset: centre + k * step, cost };
    }
    centre = best.offset;
  }
  const here = misfit(a, b, centre, pace);
  if (!here) return null;
  // Curvature over +-0.5 s: closer by, the straight lines between records make corners.
  const curvature = (at(centre + 0.5) + at(centre - 0.5) - 2 * here.cost) / 0.25;
  const uncertaintyS = curvature > 0 && Number.isFinite(curvature) ? Math.max(0.1, 2 * Math.sqrt(2 / curvature)) : Infinity;
  return { offsetS: centre, uncertaintyS, rmsM: here.rmsM, movedM, score: -here.cost / 2 };
}

/**
 * Finds where track `a` lies on track `b` in time, by positions and speeds: least squares with a shared shift between the
 * two receivers. `best` is null when they never come within 100 m; `others` are further minima, best first, more than
 * 8 s away from it and from each other.
 */
export function matchTracks(a: TelemetryPositions, b: TelemetryPositions): { readonly best: TrackMatch | null; readonly others: readonly TrackMatch[] } {
  if (a.mediaS.length < 5 || b.mediaS.length < 5) return { best: null, others: [] };
  const [lat0, lon0] = [a.latDeg[0], a.lonDeg[0]];
  const camera = onPlane(a, lat0, lon0);
  const ride = onPlane(b, lat0, lon0);
  const last = camera.t.length - 1;
  let movedM = 0;
  for (let k = 0, before = 0; k <= last; k++) {
    // A way is measured in steps of a second: between closer samples the receiver's noise would be added up.
    if (camera.t[k] - camera.t[before] < 1) continue;
    movedM += Math.hypot(camera.x[k] - camera.x[before], camera.y[k] - camera.y[before]);
    before = k;
  }
  const steps = Array.from(ride.t.subarray(1), (t, k) => t - ride.t[k]).sort((p, q) => p - q);
  const spacingS = Math.max(steps[steps.length >> 1], 0.1);
  const spanS = camera.t[last] - camera.t[0];
  const paceOf = (most: number): Pace => {
    const stride = Math.max(1, Math.floor(spanS / spacingS / most));
    return { stride, effective: Math.min(1, (stride * spacingS) / CORRELATION_S), expected: Math.max(1, spanS / (stride * spacingS)) };
  };
  const [coarse, fine] = [paceOf(40), paceOf(600)];
  const from = Math.floor(ride.t[0] - camera.t[last]);
  const to = Math.ceil(ride.t[ride.t.length - 1] - camera.t[0]);
  const minima: { offset: number; cost: number }[] = [];
  let [two, one] = [Infinity, Infinity];
  for (let offset = from; offset <= to + 1; offset++) {
    const sum = misfit(camera, ride, offset, coarse);
    const cost = sum && sum.rmsM < 100 ? sum.cost : Infinity;
    if (one <= two && one < cost) minima.push({ offset: offset - 1, cost: one });
    two = one;
    one = cost;
  }
  minima.sort((p, q) => p.cost - q.cost);
  const matches: TrackMatch[] = [];
  for (const minimum of minima.slice(0, 20)) {
    const match = refine(camera, ride, minimum.offset, fine, movedM);
    if (match && matches.every((m) => Math.abs(m.offsetS - match.offsetS) > 8)) matches.push(match);
  }
  matches.sort((p, q) => q.score - p.score);
  return { best: matches[0] ?? null, others: matches.slice(1) };
}
