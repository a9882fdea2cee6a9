import type { NoSharedRoad, RoadMatch, RoadTrack, SharedStretch } from "../contract/roads.ts";
import type { Ride } from "../contract/ride.ts";
import { medianOf } from "../maths/statistics.ts";
import { nearNodes, type NearNode } from "./nearNodes.ts";
import { originOf, ROAD_STEP_M, roadTrack } from "./roadTrack.ts";

/** Nodes of A that are held against B: every so many. */
const STRIDE = 4;
/** The longest way without a node of the other ride beside it that a stretch lives through, m: a receiver astray for 10 s. */
const BRIDGE_M = 100;
/** What two receivers may differ by in the length of one way: so much, m, and this share of it. */
const SLACK_M = 25;
const SLACK_SHARE = 0.12;
/** Two receivers on one road see it at most this far apart over any kilometre, m; further apart it is the road beside. */
const SAME_ROAD_M = 22;
/** Shorter stretches are crossings and the like, m. */
const LEAST_STRETCH_M = 200;

/** A chain of nodes that is still being followed. */
interface Chain {
  readonly a: number[];
  readonly b: number[];
  readonly apartM: number[];
}

/**
 * Where two rides rode the same road in the same direction: every pair of passes of at least 200 m, by place alone; the
 * clocks play no part. `why` says what stands against it where there is none. Rides of 5 h take well under 2 s.
 */
export function matchRoads(rideA: Ride, rideB: Ride): RoadMatch {
  const origin = originOf(rideA);
  const none = { a: EMPTY, b: EMPTY, stretches: [] };
  if (origin === null) return { ...none, why: "no places in A" };
  if (originOf(rideB) === null) return { ...none, why: "no places in B" };
  const a = roadTrack(rideA, origin);
  const b = roadTrack(rideB, origin);
  const near = nearNodes(b);
  const stretches = followed(a, b, (track, node) => near.along(track, node))
    .flatMap((chain) => onOneRoad(chain))
    .map((chain) => besideB(a, b, chain))
    .filter(({ a: nodes }) => nodes.length > 1 && (nodes.at(-1)! - nodes[0]!) * ROAD_STEP_M >= LEAST_STRETCH_M)
    .map((chain) => stretchOf(a, b, chain))
    .sort((one, other) => other.lengthM - one.lengthM);
  return { a, b, stretches, why: stretches.length > 0 ? null : whyNone(a, b, near) };
}

const EMPTY: RoadTrack = {
  eastM: new Float64Array(0),
  northM: new Float64Array(0),
  dirEast: new Float64Array(0),
  dirNorth: new Float64Array(0),
  timeS: new Float64Array(0),
  piece: new Int32Array(0),
};

/** Chains of nodes of both tracks that advance together. */
function followed(a: RoadTrack, b: RoadTrack, along: (track: RoadTrack, node: number) => NearNode[]): Chain[] {
  const done: Chain[] = [];
  let open: Chain[] = [];
  for (let i = 0; i < a.timeS.length; i += STRIDE) {
    const candidates = along(a, i);
    const taken = new Set<NearNode>();
    const still: Chain[] = [];
    for (const chain of open) {
      const lastA = chain.a.at(-1)!;
      const wayM = (i - lastA) * ROAD_STEP_M;
      const next = a.piece[i] === a.piece[lastA] ? nextOf(chain, b, candidates, taken, wayM) : null;
      if (next !== null) {
        taken.add(next);
        chain.a.push(i);
        chain.b.push(next.node);
        chain.apartM.push(next.apartM);
        still.push(chain);
      } else if (a.piece[i] !== a.piece[lastA] || wayM >= BRIDGE_M) done.push(chain);
      else still.push(chain);
    }
    for (const one of candidates) if (!taken.has(one)) still.push({ a: [i], b: [one.node], apartM: [one.apartM] });
    open = still;
  }
  return [...done, ...open];
}

/** The candidate that a chain goes on to: the one nearest to where equal advance would lead. */
function nextOf(
  chain: Chain,
  b: RoadTrack,
  candidates: readonly NearNode[],
  taken: ReadonlySet<NearNode>,
  wayM: number,
): NearNode | null {
  const lastB = chain.b.at(-1)!;
  const slackM = SLACK_M + SLACK_SHARE * wayM;
  let best: NearNode | null = null;
  let bestCost = Infinity;
  for (const one of candidates) {
    const advanceM = (one.node - lastB) * ROAD_STEP_M;
    const offM = Math.abs(advanceM - wayM);
    if (offM > slackM || one.node < lastB || taken.has(one) || b.piece[one.node] !== b.piece[lastB]) continue;
    const cost = offM + one.apartM;
    if (cost < bestCost) [best, bestCost] = [one, cost];
  }
  return best;
}

/** The parts of a chain in which the receivers agree as two on one road do: over about a kilometre, in the median. */
function onOneRoad(chain: Chain): Chain[] {
  const reach = Math.round(500 / (STRIDE * ROAD_STEP_M));
  const parts: Chain[] = [];
  let part: Chain | null = null;
  for (let k = 0; k < chain.a.length; k++) {
    const around = chain.apartM.slice(Math.max(0, k - reach), k + reach + 1);
    if (medianOf(around) > SAME_ROAD_M) {
      part = null;
      continue;
    }
    if (part === null) parts.push((part = { a: [], b: [], apartM: [] }));
    part.a.push(chain.a[k]!);
    part.b.push(chain.b[k]!);
    part.apartM.push(chain.apartM[k]!);
  }
  return parts;
}

/**
 * A chain without the places of A that lie before B's line begins or after it ends: B's nearest node is its end there, and
 * B would seem to stand while A rides past.
 */
function besideB(a: RoadTrack, b: RoadTrack, chain: Chain): Chain {
  /** How far a place of A lies past its node of B, along B's way, m. */
  const pastM = (k: number): number => {
    const [i, j] = [chain.a[k]!, chain.b[k]!];
    return (a.eastM[i]! - b.eastM[j]!) * b.dirEast[j]! + (a.northM[i]! - b.northM[j]!) * b.dirNorth[j]!;
  };
  const endsAt = (j: number, step: 1 | -1): boolean => b.piece[j] !== b.piece[j + step];
  let first = 0;
  while (first < chain.a.length && endsAt(chain.b[first]!, -1) && pastM(first) < 0) first++;
  let end = chain.a.length;
  while (end > first && endsAt(chain.b[end - 1]!, 1) && pastM(end - 1) > 0) end--;
  return { a: chain.a.slice(first, end), b: chain.b.slice(first, end), apartM: chain.apartM.slice(first, end) };
}

function stretchOf(a: RoadTrack, b: RoadTrack, chain: Chain): SharedStretch {
  const [firstA, lastA] = [chain.a[0]!, chain.a.at(-1)!];
  return {
    a: { startS: a.timeS[firstA]!, endS: a.timeS[lastA]! },
    b: { startS: b.timeS[chain.b[0]!]!, endS: b.timeS[chain.b.at(-1)!]! },
    lengthM: (lastA - firstA) * ROAD_STEP_M,
    apartM: medianOf(chain.apartM),
    aNodes: Int32Array.from(chain.a),
    bNodes: Int32Array.from(chain.b),
  };
}

/** Nodes of one ride that lie beside the other's against its direction, for so long that the road is the same, m. */
const OPPOSITE_M = 500;
/** Further than this from each other, the rides share no neighbourhood, m. */
const FAR_M = 1000;

function whyNone(a: RoadTrack, b: RoadTrack, near: ReturnType<typeof nearNodes>): NoSharedRoad {
  if (Math.min(a.timeS.length, b.timeS.length) * ROAD_STEP_M < LEAST_STRETCH_M) return "too short";
  let oppositeM = 0;
  for (let i = 0; i < a.timeS.length; i += STRIDE) if (near.isAgainst(a, i)) oppositeM += STRIDE * ROAD_STEP_M;
  if (oppositeM >= OPPOSITE_M) return "opposite direction";
  return near.distanceToBoundsM(a) > FAR_M ? "far apart" : "other roads";
}
