import type { PairCard, PairPace, PairSeries, PairSpots } from "../../main/contract/pair.ts";
import type { PanelValues } from "../instant/panelValuesAt.ts";
import { cellAt } from "../instant/rideTimeAt.ts";
import { threadPageAt, type RoadAndPressure, type ThreadPage } from "../instant/threadPageAt.ts";

/** Where both sides are, ride time, s. */
export interface PairTimes {
  readonly firstS: number;
  readonly secondS: number;
}

/** What stands between two pictures: the first against the second at the spot where the first is. Null is a dash. */
export interface PairDifference {
  /** Whole seconds that the first has gained since the stretch began; negative: lost. */
  readonly gainedS: number;
  readonly powerW: number | null;
  readonly heartRateBpm: number | null;
}

/** The figures of a pair at an instant. */
export interface PairNumbers {
  readonly values: readonly [PanelValues, PanelValues];
  readonly difference: PairDifference;
}

export interface PairInstant {
  readonly sides: readonly [PairSideInstant, PairSideInstant];
  readonly difference: PairDifference;
}

interface PairSideInstant {
  readonly values: PanelValues;
  /** Both threads lie on one page: the stretch, by the first's time at each spot. */
  readonly page: ThreadPage;
}

/**
 * The place function of a pair: where each ride is at a film time since the card's start. Before and past its ends the
 * first and last; every picture, number and thread of the pair is asked for here.
 */
export function paceAt({ filmS, firstS, secondS }: PairPace, atS: number): PairTimes {
  return { firstS: between(filmS, firstS, atS), secondS: between(filmS, secondS, atS) };
}

/** The figures where both sides are at these ride times. */
export function pairNumbersAt({ sides, spots, follow }: PairCard, { firstS, secondS }: PairTimes): PairNumbers {
  const first = valuesAt(sides[0].series, firstS);
  const second = valuesAt(sides[1].series, secondS);
  const spotS = between(spots.firstS, spots.secondS, firstS);
  // By place the figures on the two pictures are those of one spot, and the difference is theirs.
  const there = follow === "place" ? second : valuesAt(sides[1].series, spotS);
  return {
    values: [first, second],
    difference: {
      gainedS: Math.round(spotS - spots.secondS[0]! - (firstS - spots.firstS[0]!)) + 0,
      powerW: less(first.powerW, there.powerW),
      heartRateBpm: less(first.heartRateBpm, there.heartRateBpm),
    },
  };
}

/** What a pair shows where both sides are at these ride times. @param drawn where the threads end, where they grow in steps */
export function pairAt(card: PairCard, times: PairTimes, drawn: PairTimes = times): PairInstant {
  const { spots, follow } = card;
  const { values, difference } = pairNumbersAt(card, times);
  const page = { startS: spots.firstS[0]!, endS: spots.firstS.at(-1)! };
  const { own, other } = roadsOf(card);
  const otherTo = follow === "place" ? drawn.firstS : between(spots.secondS, spots.firstS, drawn.secondS);
  return {
    sides: [
      { values: values[0], page: threadPageAt(own, page, drawn.firstS) },
      { values: values[1], page: threadPageAt(other, page, otherTo) },
    ],
    difference,
  };
}

/** Of whole figures, as they are shown. */
function less(first: number | null, second: number | null): number | null {
  return first === null || second === null ? null : Math.round(first) - Math.round(second);
}

/** What a series shows at a ride time of its own. */
export function valuesAt(series: PairSeries, rideS: number): PanelValues {
  const cell = cellAt(rideS);
  const late = series.lateS?.[cell - series.startS] ?? 0;
  const known = (cellAt(rideS - late) < cell ? cell - 1 : cell) - series.startS;
  return {
    rideS: cell,
    countedS: series.countedS?.[cell - series.startS] ?? null,
    phase: null,
    powerW: series.powerW[known] ?? null,
    heartRateBpm: series.heartRateBpm[known] ?? null,
    cadenceRpm: series.cadenceRpm?.[known] ?? null,
    speedMps: series.speedMps[known] ?? null,
    gradientPercent: null,
    likePowerBeats: series.likePowerBeats?.[cell - series.startS] ?? null,
  };
}

interface Roads {
  readonly own: RoadAndPressure;
  readonly other: RoadAndPressure;
}

/** Of each card's sides, which are never changed. */
const made = new WeakMap<PairCard["sides"], Roads>();

/** The first's road and pressure by its ride time, and the second's at the same spots: made once for a card. */
function roadsOf({ sides, spots }: PairCard): Roads {
  const before = made.get(sides);
  if (before !== undefined) return before;
  const seconds = Math.ceil(spots.firstS.at(-1)!) + 1;
  const [first, second] = [sides[0].series, sides[1].series];
  const empty = () => ({
    setting: "road" as const,
    altitudeM: new Float64Array(seconds).fill(Number.NaN),
    pressureState: new Uint8Array(seconds),
  });
  const roads = { own: empty(), other: empty() };
  for (let cell = Math.max(0, Math.floor(spots.firstS[0]!)); cell < seconds; cell += 1) {
    roads.own.altitudeM[cell] = first.altitudeM[cell - first.startS] ?? Number.NaN;
    roads.own.pressureState[cell] = first.pressure[cell - first.startS] ?? 0;
    const there = cellAt(between(spots.firstS, spots.secondS, cell + 0.5)) - second.startS;
    roads.other.altitudeM[cell] = second.altitudeM[there] ?? Number.NaN;
    roads.other.pressureState[cell] = second.pressure[there] ?? 0;
  }
  made.set(sides, roads);
  return roads;
}

/** The value of a column where another that rises is x, by straight lines; past its ends the first and last. */
export function between(rising: PairSpots["firstS"], values: readonly number[], x: number): number {
  let [low, high] = [0, rising.length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (rising[middle]! <= x) low = middle;
    else high = middle - 1;
  }
  const width = (rising[low + 1] ?? rising[low]!) - rising[low]!;
  const share = width > 0 ? Math.max(0, Math.min(1, (x - rising[low]!) / width)) : 0;
  return values[low]! + share * ((values[low + 1] ?? values[low]!) - values[low]!);
}
