import type { PlaceMap, RoadMatch, SharedStretch } from "../contract/roads.ts";
import { ROAD_STEP_M } from "./roadTrack.ts";
import { slidingMedian } from "../maths/slidingMedian.ts";

/** The foot of a place on the other's line is looked for so many nodes before and after it. */
const SEARCH = 8;
/** What one ride is ahead of the other along the road is the mean over so much way, m: it changes far more slowly than places jitter. */
const MEAN_M = 120;
const MEDIAN_M = 60;

/**
 * A shared stretch as a function of place, in steps of `ROAD_STEP_M`: at each step the ride time of A there and the ride
 * time of B at the same spot of the road. Each place of A is dropped square onto B's line; what comes out is smoothed over
 * 120 m of road. Both times rise; where B stood, `bS` steps over its halt.
 */
export function placeMap({ a, b }: RoadMatch, stretch: SharedStretch): PlaceMap {
  const { aNodes, bNodes } = stretch;
  const first = aNodes[0]!;
  const count = aNodes[aNodes.length - 1]! - first + 1;
  const lead = new Float64Array(count);
  let leg = 0;
  for (let k = 0; k < count; k++) {
    const i = first + k;
    while (leg + 2 < aNodes.length && aNodes[leg + 1]! <= i) leg++;
    const wayA = aNodes[leg + 1]! - aNodes[leg]!;
    const guess = bNodes[leg]! + ((bNodes[leg + 1]! - bNodes[leg]!) * (i - aNodes[leg]!)) / Math.max(1, wayA);
    lead[k] = footOn(b, guess, a.eastM[i]!, a.northM[i]!) - i;
  }
  const even = meanAround(slidingMedian(lead, Math.round(MEDIAN_M / ROAD_STEP_M / 2)), nodes(MEAN_M));
  const atM = new Float64Array(count);
  const aS = new Float64Array(count);
  const bS = new Float64Array(count);
  const [lowB, highB] = [bNodes[0]! - SEARCH, bNodes[bNodes.length - 1]! + SEARCH];
  for (let k = 0; k < count; k++) {
    atM[k] = k * ROAD_STEP_M;
    aS[k] = a.timeS[first + k]!;
    bS[k] = timeAt(b.timeS, Math.min(highB, Math.max(lowB, first + k + even[k]!)));
    if (k > 0) bS[k] = Math.max(bS[k]!, bS[k - 1]!);
  }
  return { atM, aS, bS };
}

function nodes(wayM: number): number {
  return 2 * Math.round(wayM / ROAD_STEP_M / 2) + 1;
}

/** Where the place (x, y) is nearest to the line about node `guess`, in nodes and parts of one. */
function footOn(track: RoadMatch["b"], guess: number, x: number, y: number): number {
  const middle = Math.round(guess);
  let best = guess;
  let bestM2 = Infinity;
  for (let j = Math.max(0, middle - SEARCH); j < Math.min(track.timeS.length - 1, middle + SEARCH); j++) {
    if (track.piece[j] !== track.piece[j + 1]) continue;
    const dx = track.eastM[j + 1]! - track.eastM[j]!;
    const dy = track.northM[j + 1]! - track.northM[j]!;
    const square = dx * dx + dy * dy;
    if (square === 0) continue;
    const share = ((x - track.eastM[j]!) * dx + (y - track.northM[j]!) * dy) / square;
    const held = Math.min(1, Math.max(0, share));
    const m2 = (track.eastM[j]! + held * dx - x) ** 2 + (track.northM[j]! + held * dy - y) ** 2;
    if (m2 < bestM2) [best, bestM2] = [j + held, m2];
  }
  return best;
}

/** Mean of the values about each, over at most `window` of them and only as far on one side as on the other. */
function meanAround(values: Float64Array, window: number): Float64Array {
  const sums = new Float64Array(values.length + 1);
  values.forEach((value, k) => (sums[k + 1] = sums[k]! + value));
  return values.map((_, k) => {
    const reach = Math.min((window - 1) / 2, k, values.length - 1 - k);
    return (sums[k + reach + 1]! - sums[k - reach]!) / (2 * reach + 1);
  });
}

function timeAt(timeS: Float64Array, node: number): number {
  const low = Math.min(timeS.length - 1, Math.max(0, Math.floor(node)));
  const high = Math.min(timeS.length - 1, low + 1);
  return timeS[low]! + (timeS[high]! - timeS[low]!) * Math.min(1, Math.max(0, node - low));
}
