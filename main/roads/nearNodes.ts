import type { RoadTrack } from "../contract/roads.ts";

/** Two receivers see one place of a road at most this far apart, m. */
const NEAR_M = 36;
/** Directions within 50 degrees are the same way. */
const SAME_WAY_COS = 0.64;
/** Nodes further on than this are another pass, nodes. */
const PASS_GAP = 8;

/** A node of the other track beside a place. */
export interface NearNode {
  readonly node: number;
  readonly apartM: number;
}

/** Looks up which nodes of a track lie beside a place: a grid of squares as wide as `NEAR_M`. */
export function nearNodes(track: RoadTrack): {
  /** The nearest node of each pass that goes the same way as `of` does at `node`, in order. */
  along(of: RoadTrack, node: number): NearNode[];
  /** Whether a pass beside it goes the other way, and none the same. */
  isAgainst(of: RoadTrack, node: number): boolean;
  /** How far apart the boxes about both tracks lie, m; 0 where they overlap. */
  distanceToBoundsM(of: RoadTrack): number;
} {
  const squares = new Map<number, number[]>();
  const key = (column: number, row: number): number => column * 4_194_304 + row;
  for (let j = 0; j < track.timeS.length; j++) {
    const at = key(Math.floor(track.eastM[j]! / NEAR_M), Math.floor(track.northM[j]! / NEAR_M));
    const there = squares.get(at);
    if (there === undefined) squares.set(at, [j]);
    else there.push(j);
  }

  function around(of: RoadTrack, node: number, sign: 1 | -1): NearNode[] {
    const x = of.eastM[node]!;
    const y = of.northM[node]!;
    const found: NearNode[] = [];
    const column = Math.floor(x / NEAR_M);
    const row = Math.floor(y / NEAR_M);
    for (let c = column - 1; c <= column + 1; c++)
      for (let r = row - 1; r <= row + 1; r++)
        for (const j of squares.get(key(c, r)) ?? []) {
          const apartM = Math.hypot(track.eastM[j]! - x, track.northM[j]! - y);
          const cos = track.dirEast[j]! * of.dirEast[node]! + track.dirNorth[j]! * of.dirNorth[node]!;
          if (apartM <= NEAR_M && cos * sign >= SAME_WAY_COS) found.push({ node: j, apartM });
        }
    return found.sort((one, other) => one.node - other.node);
  }

  return {
    along(of, node) {
      const passes: NearNode[] = [];
      let lastNode = -Infinity;
      for (const one of around(of, node, 1)) {
        if (one.node - lastNode > PASS_GAP || track.piece[one.node] !== track.piece[lastNode]) passes.push(one);
        else if (one.apartM < passes.at(-1)!.apartM) passes[passes.length - 1] = one;
        lastNode = one.node;
      }
      return passes;
    },
    isAgainst: (of, node) => around(of, node, 1).length === 0 && around(of, node, -1).length > 0,
    distanceToBoundsM(of) {
      const [mine, theirs] = [boundsOf(track), boundsOf(of)];
      const gap = (axis: 0 | 1): number =>
        Math.max(0, mine.low[axis] - theirs.high[axis], theirs.low[axis] - mine.high[axis]);
      return Math.hypot(gap(0), gap(1));
    },
  };
}

type Corner = readonly [number, number];

function boundsOf({ eastM, northM }: RoadTrack): { low: Corner; high: Corner } {
  const low: [number, number] = [Infinity, Infinity];
  const high: [number, number] = [-Infinity, -Infinity];
  for (let i = 0; i < eastM.length; i++) {
    low[0] = Math.min(low[0], eastM[i]!);
    low[1] = Math.min(low[1], northM[i]!);
    high[0] = Math.max(high[0], eastM[i]!);
    high[1] = Math.max(high[1], northM[i]!);
  }
  return { low, high };
}
