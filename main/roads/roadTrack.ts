import type { RoadTrack } from "../contract/roads.ts";
import { CellState, type Ride } from "../contract/ride.ts";
import { offsetM } from "../maths/geodesy.ts";

/** Way between two nodes of a track, m. */
export const ROAD_STEP_M = 5;
/** Longest hole that is taken as straight road: so long in motion without a place, s, or so far, m; our own bounds. */
const HOLE_S = 30;
const HOLE_M = 200;
/** Places are the mean of their neighbours' by a bell curve of this SD, s: receivers jitter from second to second. */
const SMOOTH_S = 1.5;
/** The direction of a node is that from so far before it to so far after it, m. */
const DIRECTION_M = 15;

/** The plane that two rides are laid on. */
export interface Origin {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** The place in the middle of a ride's recorded ones; null where it has none. */
export function originOf(ride: Ride): Origin | null {
  const { position } = ride.grid;
  if (position === null) return null;
  const known = position.latDeg.findIndex((lat, k) => Number.isFinite(lat) && Number.isFinite(position.lonDeg[k]));
  return known < 0 ? null : { latDeg: position.latDeg[known]!, lonDeg: position.lonDeg[known]! };
}

/** Places as recorded while the rider moved. */
interface Points {
  readonly t: number[];
  readonly x: number[];
  readonly y: number[];
  /** 1 where no road is known between the point before and this one. */
  readonly broken: number[];
}

/**
 * A ride as a line along the ground with a node every `ROAD_STEP_M`, on the plane about `origin`. Seconds without a
 * recorded place and seconds at rest take no room on it; holes of more than 30 s or 200 m break it. Empty without places.
 * The plane is equirectangular about the origin's latitude: lengths are off by at most 2 % 100 km away, in both rides alike.
 */
export function roadTrack(ride: Ride, origin: Origin): RoadTrack {
  return evenSteps(smoothed(recordedPoints(ride, origin)));
}

function recordedPoints(ride: Ride, origin: Origin): Points {
  const points: Points = { t: [], x: [], y: [], broken: [] };
  const { position, moving, movingS, seconds } = ride.grid;
  if (position === null) return points;
  let heldBack = false;
  for (let k = 0; k < seconds; k++) {
    if (position.state[k] !== CellState.recorded || !Number.isFinite(position.latDeg[k])) continue;
    // The first and last second at rest stand for the whole of it.
    if (!moving[k] && !moving[k - 1] && !moving[k + 1] && heldBack) continue;
    heldBack = !moving[k];
    const { eastM, northM } = planeM(origin, position.latDeg[k]!, position.lonDeg[k]!);
    const last = points.t.length - 1;
    const hop = last < 0 ? 0 : Math.hypot(eastM - points.x[last]!, northM - points.y[last]!);
    const hole = last >= 0 && (hop > HOLE_M || movingS[k]! - movingS[points.t[last]!]! > HOLE_S);
    points.t.push(k);
    points.x.push(eastM);
    points.y.push(northM);
    points.broken.push(last < 0 || hole ? 1 : 0);
  }
  return points;
}

function planeM(origin: Origin, latDeg: number, lonDeg: number): { eastM: number; northM: number } {
  const { eastM } = offsetM(origin.latDeg, origin.lonDeg, origin.latDeg, lonDeg);
  const { northM } = offsetM(origin.latDeg, origin.lonDeg, latDeg, origin.lonDeg);
  return { eastM, northM };
}

function smoothed(points: Points): Points {
  const { t, broken } = points;
  const n = t.length;
  const x = new Array<number>(n);
  const y = new Array<number>(n);
  const reach = 3 * SMOOTH_S;
  for (let k = 0; k < n; k++) {
    let low = k;
    while (!broken[low] && t[k]! - t[low - 1]! <= reach) low--;
    let high = k;
    while (high + 1 < n && !broken[high + 1] && t[high + 1]! - t[k]! <= reach) high++;
    // Only as far on one side as on the other, so that nothing is drawn towards the longer one.
    const even = Math.min(t[k]! - t[low]!, t[high]! - t[k]!) + 1e-9;
    let weights = 0;
    let sx = 0;
    let sy = 0;
    for (let i = low; i <= high; i++) {
      if (Math.abs(t[i]! - t[k]!) > even) continue;
      const weight = Math.exp(-(((t[i]! - t[k]!) / SMOOTH_S) ** 2) / 2);
      weights += weight;
      sx += weight * points.x[i]!;
      sy += weight * points.y[i]!;
    }
    x[k] = sx / weights;
    y[k] = sy / weights;
  }
  return { t, x, y, broken };
}

function evenSteps({ t, x, y, broken }: Points): RoadTrack {
  const east: number[] = [];
  const north: number[] = [];
  const time: number[] = [];
  const piece: number[] = [];
  let number = -1;
  let owed = 0;
  for (let k = 0; k < t.length; k++) {
    if (broken[k]) {
      number++;
      owed = 0;
      put(x[k]!, y[k]!, t[k]!);
      continue;
    }
    const hop = Math.hypot(x[k]! - x[k - 1]!, y[k]! - y[k - 1]!);
    let at = ROAD_STEP_M - owed;
    for (; at <= hop; at += ROAD_STEP_M) {
      const share = at / hop;
      put(mix(x[k - 1]!, x[k]!, share), mix(y[k - 1]!, y[k]!, share), mix(t[k - 1]!, t[k]!, share));
    }
    owed = hop - (at - ROAD_STEP_M);
  }
  const track = {
    eastM: Float64Array.from(east),
    northM: Float64Array.from(north),
    timeS: Float64Array.from(time),
    piece: Int32Array.from(piece),
  };
  return { ...track, ...directions(track) };

  function put(eastM: number, northM: number, timeS: number): void {
    east.push(eastM);
    north.push(northM);
    time.push(timeS);
    piece.push(number);
  }
}

function directions({ eastM, northM, piece }: Pick<RoadTrack, "eastM" | "northM" | "piece">) {
  const n = eastM.length;
  const dirEast = new Float64Array(n);
  const dirNorth = new Float64Array(n);
  const reach = Math.round(DIRECTION_M / ROAD_STEP_M);
  for (let i = 0; i < n; i++) {
    let low = Math.max(0, i - reach);
    let high = Math.min(n - 1, i + reach);
    while (piece[low] !== piece[i]) low++;
    while (piece[high] !== piece[i]) high--;
    const dx = eastM[high]! - eastM[low]!;
    const dy = northM[high]! - northM[low]!;
    const length = Math.hypot(dx, dy);
    if (length === 0) continue;
    dirEast[i] = dx / length;
    dirNorth[i] = dy / length;
  }
  return { dirEast, dirNorth };
}

function mix(from: number, to: number, share: number): number {
  return from + (to - from) * share;
}
