import { bearingDeg, circleRadiusM, distanceM, offsetM } from "../../maths/geodesy.ts";
import { LEAST_SPEED_MPS } from "./gradient.ts";

/** The two ends of a bearing lie at least this far apart in all, m: 1 m of relative error gives some 8 degrees. */
const BASE_M = 10;
/** A point further than this from its neighbour (in time) says nothing about the course here, s. */
const REACH_S = 15;
/** Chords of the circle through three points, m. */
const CHORD_M = 10;
const STRAIGHT_M = 200;

/** Positions on the 1 s grid; NaN where there is none. */
export interface Path {
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
}

/**
 * Course over ground, degrees, unwrapped so that it runs past 360 and below 0: the bearing between the nearest points
 * that lie half of 10 m before and after each cell. NaN below 2 m/s or without positions around.
 */
export function headingDeg(path: Path, speedMps: Float64Array, paused: Uint8Array): Float64Array {
  const n = speedMps.length;
  const out = new Float64Array(n).fill(NaN);
  let last = NaN;
  for (let k = 0; k < n; k++) {
    if (!(speedMps[k]! >= LEAST_SPEED_MPS) || paused[k]) continue;
    const a = pointAway(path, paused, k, -1, BASE_M / 2);
    const b = pointAway(path, paused, k, 1, BASE_M / 2);
    if (a < 0 || b < 0) continue;
    const bearing = bearingDeg(path.latDeg[a]!, path.lonDeg[a]!, path.latDeg[b]!, path.lonDeg[b]!);
    if (bearing !== bearing) continue;
    last = last === last ? last + wrap180(bearing - last) : bearing;
    out[k] = last;
  }
  return out;
}

/**
 * Radius of the path, m: of the circle through each cell's place and the first places at least 10 m before and after
 * it. Infinity when over 200 m, NaN below 2 m/s or without positions around. R = abc / (4 area), school geometry.
 */
export function turnRadiusM(path: Path, speedMps: Float64Array, paused: Uint8Array): Float64Array {
  const n = speedMps.length;
  const out = new Float64Array(n).fill(NaN);
  for (let k = 0; k < n; k++) {
    if (!(speedMps[k]! >= LEAST_SPEED_MPS) || paused[k]) continue;
    const a = pointAway(path, paused, k, -1, CHORD_M);
    const b = pointAway(path, paused, k, 1, CHORD_M);
    if (a < 0 || b < 0) continue;
    const lat = path.latDeg[k]!;
    const lon = path.lonDeg[k]!;
    const pa = offsetM(lat, lon, path.latDeg[a]!, path.lonDeg[a]!);
    const pb = offsetM(lat, lon, path.latDeg[b]!, path.lonDeg[b]!);
    const radius = circleRadiusM(pa.eastM, pa.northM, 0, 0, pb.eastM, pb.northM);
    out[k] = radius > STRAIGHT_M ? Infinity : radius;
  }
  return out;
}

/** The nearest cell in direction `step` whose place is at least `leastM` from cell k's, or -1. */
function pointAway(path: Path, paused: Uint8Array, k: number, step: 1 | -1, leastM: number): number {
  const lat = path.latDeg[k]!;
  const lon = path.lonDeg[k]!;
  if (lat !== lat) return -1;
  for (let i = k + step; i >= 0 && i < paused.length && Math.abs(i - k) <= REACH_S && !paused[i]; i += step) {
    if (distanceM(lat, lon, path.latDeg[i]!, path.lonDeg[i]!) >= leastM) return i;
  }
  return -1;
}

function wrap180(deg: number): number {
  return deg - 360 * Math.round(deg / 360);
}
