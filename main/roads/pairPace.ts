import type { FollowWay, PairPace, PairSpots } from "../contract/pair.ts";
import type { PlaceMap } from "../contract/roads.ts";
import type { Span } from "../contract/ride.ts";
import { valueAt } from "./risingColumn.ts";

/** Longer than this over one step of road, s: the rider stood there (under walking pace). */
const STOOD_S = 5;
/** What the step itself then takes, s. */
const ROLLED_S = 1;
/** A halt is shown for so long, s; while it is, the other picture holds. */
const HALT_SHOWN_S = 2;
/** Fastest that a picture runs. */
const FASTEST = 2;
/** The first runs as filmed while the second's speed keeps within these. */
const SLOWEST = 0.5;
/** Entries of the pace are so far apart, s of film. */
const STEP_S = 0.5;
/** The second's times are the mean of their neighbours' by a bell curve of this SD, s: no step of speed is seen. */
const SMOOTH_S = 1.5;

/** One step of road, s of each ride. */
interface Step {
  readonly firstS: number;
  readonly secondS: number;
  readonly haltFirstS: number;
  readonly haltSecondS: number;
}

/**
 * Two rides by place over a span of the first: at each instant of the film both are at one spot of the road. The first
 * runs as filmed while that leaves the second between half and twice its speed; beyond, the first gives way so that
 * neither runs faster than twice as filmed. Where one stood, the other holds, for 2 s at most.
 *
 * @param span within the map, ride time of the first
 */
function paceByPlace(map: PlaceMap, span: Span): PairPace {
  const spots = spotsWithin(map, span);
  const steps: Step[] = [];
  for (let k = 1; k < spots.firstS.length; k++)
    steps.push(stepOf(spots.firstS[k]! - spots.firstS[k - 1]!, spots.secondS[k]! - spots.secondS[k - 1]!));
  mergeHalts(steps);
  const pace: Knots = { filmS: [0], firstS: [spots.firstS[0]!], secondS: [spots.secondS[0]!] };
  let from = 0;
  for (let k = 0; k <= steps.length; k++) {
    const halt = steps[k];
    if (halt !== undefined && halt.haltFirstS + halt.haltSecondS === 0) continue;
    run(pace, steps.slice(from, halt === undefined ? k : k + 1));
    if (halt !== undefined) hold(pace, halt, k === steps.length - 1);
    from = k + 1;
  }
  return pace;
}

/** A receiver wanders while its rider stands: halts that are this few steps of road apart are one. */
const SAME_HALT_STEPS = 3;

/** Puts every halt into one step: the last of those that it came in. */
function mergeHalts(steps: Step[]): void {
  let before = -Infinity;
  for (let k = 0; k < steps.length; k++) {
    const step = steps[k]!;
    if (step.haltFirstS + step.haltSecondS === 0) continue;
    if (k - before <= SAME_HALT_STEPS) {
      const { haltFirstS, haltSecondS, ...rolled } = steps[before]!;
      steps[before] = { ...rolled, haltFirstS: 0, haltSecondS: 0 };
      steps[k] = {
        ...step,
        haltFirstS: step.haltFirstS + haltFirstS,
        haltSecondS: step.haltSecondS + haltSecondS,
      };
    }
    before = k;
  }
}

/** Two rides by time from where a span of the first begins. */
function paceByTime(map: PlaceMap, span: Span): PairPace {
  const spots = spotsWithin(map, span);
  const lengthS = span.endS - span.startS;
  const secondS = spots.secondS[0]!;
  return { filmS: [0, lengthS], firstS: [span.startS, span.endS], secondS: [secondS, secondS + lengthS] };
}

/** The pace of a way. */
export function pairPace(map: PlaceMap, span: Span, follow: FollowWay): PairPace {
  return follow === "place" ? paceByPlace(map, span) : paceByTime(map, span);
}

/** Spots of the road within a span of the first, its ends among them. */
export function spotsWithin({ aS, bS }: PlaceMap, { startS, endS }: Span): PairSpots {
  const firstS = [startS];
  const secondS = [valueAt(aS, bS, startS)];
  for (let k = 0; k < aS.length; k++) {
    if (aS[k]! <= startS || aS[k]! >= endS) continue;
    firstS.push(aS[k]!);
    secondS.push(bS[k]!);
  }
  return { firstS: [...firstS, endS], secondS: [...secondS, valueAt(aS, bS, endS)] };
}

interface Knots {
  readonly filmS: number[];
  readonly firstS: number[];
  readonly secondS: number[];
}

function stepOf(firstS: number, secondS: number): Step {
  const halt = (s: number): number => (s > STOOD_S ? s - ROLLED_S : 0);
  const [haltFirstS, haltSecondS] = [halt(firstS), halt(secondS)];
  return { firstS: firstS - haltFirstS, secondS: secondS - haltSecondS, haltFirstS, haltSecondS };
}

/** Both ride on: the second's times smoothed over those of the first, then the film's time laid on them. */
function run(pace: Knots, steps: readonly Step[]): void {
  const firstS = [0];
  const secondS = [0];
  for (const step of steps) {
    if (step.firstS + step.secondS <= 0) continue;
    firstS.push(firstS.at(-1)! + step.firstS);
    secondS.push(secondS.at(-1)! + step.secondS);
  }
  const lengthS = firstS.at(-1)!;
  const count = Math.max(1, Math.round(lengthS / STEP_S));
  const every = lengthS / count;
  const raw = Float64Array.from({ length: count + 1 }, (_, k) => valueAt(firstS, secondS, k * every));
  const even = smoothed(raw, every);
  const [first0, second0] = [pace.firstS.at(-1)!, pace.secondS.at(-1)!];
  for (let k = 1; k <= count; k++) {
    const [movedS, otherS] = [every, even[k]! - even[k - 1]!];
    const tookS = Math.max(otherS / FASTEST, movedS / FASTEST, Math.min(movedS, otherS / SLOWEST));
    if (tookS <= 0) continue;
    pace.filmS.push(pace.filmS.at(-1)! + tookS);
    pace.firstS.push(first0 + k * every);
    pace.secondS.push(second0 + even[k]!);
  }
}

/** One stood, the other waits; what is left of the halt is stepped over while the picture stands. @param isLast the film ends there */
function hold(pace: Knots, { haltFirstS, haltSecondS }: Step, isLast: boolean): void {
  const shownS = Math.min(HALT_SHOWN_S, Math.max(haltFirstS, haltSecondS));
  const put = (filmS: number, firstS: number, secondS: number): void => {
    pace.filmS.push(filmS);
    pace.firstS.push(firstS);
    pace.secondS.push(secondS);
  };
  const [filmS, firstS, secondS] = [pace.filmS.at(-1)!, pace.firstS.at(-1)!, pace.secondS.at(-1)!];
  put(filmS + shownS, firstS + Math.min(shownS, haltFirstS), secondS + Math.min(shownS, haltSecondS));
  if (!isLast) put(filmS + shownS, firstS + haltFirstS, secondS + haltSecondS);
}

/** Each value the mean of its neighbours', only as far on one side as on the other: the ends stay, and rising stays rising. */
function smoothed(values: Float64Array, stepS: number): Float64Array {
  const reach = Math.ceil((3 * SMOOTH_S) / stepS);
  return values.map((_, k) => {
    const even = Math.min(reach, k, values.length - 1 - k);
    let [sum, weights] = [0, 0];
    for (let i = -even; i <= even; i++) {
      const weight = Math.exp(-(((i * stepS) / SMOOTH_S) ** 2) / 2);
      sum += weight * values[k + i]!;
      weights += weight;
    }
    return sum / weights;
  });
}
