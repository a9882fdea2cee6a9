import { circleRadiusM, offsetM } from "../../maths/geodesy.ts";
import { LEAST_SPEED_MPS } from "./gradient.ts";

/** The two ends of a bearing lie at least this far apart in all, m: 1 m of relative error gives some 8 degrees. */
const BASE_M = 10;
/** A point further than this from its neighbour (in time) says nothing about the course here, s. */
const REACH_S = 15;
/** Least chords of the circle through three points, m. */
const CHORD_M = 10;
const STRAIGHT_M = 200;

/** Places on the 1 s grid; NaN where there is none. */
export interface Path {
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
}

/** The two columns that come from the path: see `RideGrid`. */
export interface Course {
  readonly headingDeg: Float64Array;
  readonly turnRadiusM: Float64Array;
}

/**
 * Course over ground, degrees, unwrapped so that it runs past 360 and below 0: the bearing between the nearest places at
 * least 5 m before and after each cell. Radius of the path, m: of the circle through each cell's place and the nearest
 * places at least 10 m before and after it (R = abc / (4 area), school geometry); Infinity when over 200 m. Both NaN
 * below 2 m/s or without places around.
 */
export function courseOf(path: Path, speedMps: Float64Array, paused: Uint8Array): Course {
  const n = speedMps.length;
  const headingDeg = new Float64Array(n).fill(NaN);
  const turnRadiusM = new Float64Array(n).fill(NaN);
  const { eastM, northM } = plane(path);
  let last = NaN;
  for (let k = 0; k < n; k++) {
    if (!(speedMps[k] >= LEAST_SPEED_MPS) || paused[k] || eastM[k] !== eastM[k]) continue;
    const near = [away(k, -1, BASE_M / 2), away(k, 1, BASE_M / 2)] as const;
    if (near[0] < 0 || near[1] < 0) continue;
    const east = eastM[near[1]] - eastM[near[0]];
    const north = northM[near[1]] - northM[near[0]];
    if (east !== 0 || north !== 0) {
      const bearing = (Math.atan2(east, north) * 180) / Math.PI;
      last = last === last ? last + wrap180(bearing - last) : (bearing + 360) % 360;
      headingDeg[k] = last;
    }
    const a = away(k, -1, CHORD_M);
    const b = away(k, 1, CHORD_M);
    if (a < 0 || b < 0) continue;
    const radius = circleRadiusM(eastM[a], northM[a], eastM[k], northM[k], eastM[b], northM[b]);
    turnRadiusM[k] = radius > STRAIGHT_M ? Infinity : radius;
  }
  return { headingDeg, turnRadiusM };

  /** The nearest cell in direction `step` whose place is at least `leastM` from cell k's, or -1. */
  function away(k: number, step: 1 | -1, leastM: number): number {
    for (let i = k + step; i >= 0 && i < n && Math.abs(i - k) <= REACH_S && !paused[i]; i += step) {
      const east = eastM[i] - eastM[k];
      const north = northM[i] - northM[k];
      if (east * east + north * north >= leastM * leastM) return i;
    }
    return -1;
  }
}

/** The path unrolled onto a plane, hop by hop: true to length and direction between places that lie near each other. */
function plane(path: Path): { eastM: Float64Array; northM: Float64Array } {
  const n = path.latDeg.length;
  const eastM = new Float64Array(n).fill(NaN);
  const northM = new Float64Array(n).fill(NaN);
  let last = -1;
  for (let k = 0; k < n; k++) {
    if (path.latDeg[k] !== path.latDeg[k]) continue;
    const hop =
      last < 0
        ? { eastM: 0, northM: 0 }
        : offsetM(path.latDeg[last], path.lonDeg[last], path.latDeg[k], path.lonDeg[k]);
    eastM[k] = (last < 0 ? 0 : eastM[last]) + hop.eastM;
    northM[k] = (last < 0 ? 0 : northM[last]) + hop.northM;
    last = k;
  }
  return { eastM, northM };
}

function wrap180(deg: number): number {
  return deg - 360 * Math.round(deg / 360);
}
