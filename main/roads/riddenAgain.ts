import type { ComparedSide } from "../contract/comparison.ts";
import type { RiddenAgain } from "../contract/debriefFacts.ts";
import { type Break, PressureState, type Reading } from "../contract/reading.ts";
import type { Span } from "../contract/ride.ts";
import type { RecordedEffort, RoadBefore } from "../contract/roads.ts";
import { sideOf } from "./comparedStretch.ts";
import { indexAt, valueAt } from "./risingColumn.ts";
import { DAY_TO_DAY_BEATS, LIKE_POWER } from "../contract/likeRides.ts";

/** A road is worth a word from this length on, m, or from so long, s. */
export const LEAST_M = 3000;
export const LEAST_S = 300;
/** Fewer breaks apart say nothing, nor what lies within one standard deviation of the difference of two counts (the root of their sum). */
const LEAST_BREAKS_APART = 2;
/** Of more seconds without known pressure no break is counted. */
const UNKNOWN_SHARE = 0.1;
/** More of them nobody reads. */
const MOST_TOLD = 8;

/** A ride as it is judged. */
interface JudgedEffort {
  readonly ride: RecordedEffort;
  readonly reading: Pick<Reading, "counted" | "breaks" | "pressure" | "columns" | "moments">;
  /** What its meter reads too low (positive), W. */
  readonly meterOffsetW: number;
  /** Of the counted part. */
  readonly rises: readonly Span[];
}

/**
 * The judged roads of a ride that the rider rode before, rises by themselves: of 3 km or 5 min at least in both rides. What
 * is most worth telling stands first: breaks, then the heart, then the newest, then the longest.
 */
export function riddenAgain(effort: JudgedEffort, roads: readonly RoadBefore[]): RiddenAgain[] {
  return roads
    .flatMap((one) => {
      if (one.riderName !== null || one.startUtcMs === null) return [];
      const road = { ...one, startUtcMs: one.startUtcMs };
      const judged = judgedOn(effort, road);
      const rises = effort.rises.flatMap((rise) => judged.flatMap((span) => common(rise, span, 0.95)));
      return [
        ...rises.flatMap((span) => told("rise", effort, road, span)),
        ...judged.flatMap((span) => told("road", effort, road, span)),
      ];
    })
    .sort(
      (one, other) =>
        Number(other.breaks !== null) - Number(one.breaks !== null) ||
        Number(other.heart !== null) - Number(one.heart !== null) ||
        Number(other.likePower) - Number(one.likePower) ||
        other.startUtcMs - one.startUtcMs ||
        other.lengthM - one.lengthM,
    )
    .slice(0, MOST_TOLD);
}

/** Ride time of this ride at which both were judged, on the road they share. */
function judgedOn({ reading }: JudgedEffort, { counted, beside: { spots } }: RoadBefore): Span[] {
  const shared = { startS: spots.firstS[0]!, endS: spots.firstS.at(-1)! };
  const before = counted.map(({ startS, endS }) => ({
    startS: valueAt(spots.secondS, spots.firstS, startS),
    endS: valueAt(spots.secondS, spots.firstS, endS),
  }));
  return reading.counted.stretches
    .flatMap((span) => common(span, shared, 0))
    .flatMap((span) => before.flatMap((other) => common(span, other, 0)));
}

/** What two spans share; empty where that is a smaller share of the first than `least`. */
function common(one: Span, other: Span, least: number): Span[] {
  const [startS, endS] = [Math.max(one.startS, other.startS), Math.min(one.endS, other.endS)];
  return endS > startS && endS - startS >= least * (one.endS - one.startS) ? [{ startS, endS }] : [];
}

type DatedRoad = RoadBefore & { readonly startUtcMs: number };

function told(kind: RiddenAgain["kind"], effort: JudgedEffort, road: DatedRoad, span: Span): RiddenAgain[] {
  const { spots } = road.beside;
  const lengthM = (indexAt(spots.firstS, span.endS) - indexAt(spots.firstS, span.startS)) * road.spotM;
  const then = {
    startS: valueAt(spots.firstS, spots.secondS, span.startS),
    endS: valueAt(spots.firstS, spots.secondS, span.endS),
  };
  const shortest = Math.min(span.endS - span.startS, then.endS - then.startS);
  if (lengthM < LEAST_M && shortest < LEAST_S) return [];
  const { reading } = effort;
  const now = figures(effort.ride, span, {
    breaks: reading.pressure.cranksKnown ? reading.breaks : null,
    unknown: unknownShare(span, (cell) => reading.columns.pressureState[cell]),
    oddHeart: reading.moments.filter((moment) => moment.kind === "oddHeart"),
  });
  const { series } = road.beside;
  const before = figures(road.ride, then, {
    breaks: road.breaks,
    unknown: unknownShare(then, (cell) => series.pressure[cell - series.startS]),
    oddHeart: road.oddHeart,
  });
  const likePower = alike(now.powerW, effort.meterOffsetW, before.powerW, road.meterOffsetW);
  const beats =
    now.heartRateBpm === null || before.heartRateBpm === null
      ? 0
      : Math.round(now.heartRateBpm) - Math.round(before.heartRateBpm);
  return [
    {
      kind,
      lengthM,
      startUtcMs: road.startUtcMs,
      utcOffsetMin: road.utcOffsetMin,
      now,
      before,
      likePower,
      breaks: likePower ? apart(before.breaks, now.breaks) : null,
      heart: likePower && Math.abs(beats) > DAY_TO_DAY_BEATS ? { beats, giveOrTake: DAY_TO_DAY_BEATS } : null,
    },
  ];
}

interface Doubts {
  readonly breaks: readonly Break[] | null;
  /** Share of its seconds without known pressure. */
  readonly unknown: number;
  readonly oddHeart: readonly Span[];
}

/** A ride over a span; what can't be told surely is null. */
function figures(ride: RecordedEffort, span: Span, { breaks, unknown, oddHeart }: Doubts): ComparedSide {
  const inside = breaks?.filter(({ startS }) => startS >= span.startS && startS < span.endS) ?? [];
  const sure = breaks !== null && unknown <= UNKNOWN_SHARE && inside.every(({ excused }) => excused !== null);
  const side = sideOf({ ride, breaks: sure ? inside.filter(({ excused }) => excused === false) : null }, span);
  const odd = oddHeart.some(({ startS, endS }) => startS < span.endS && endS > span.startS);
  return odd ? { ...side, heartRateBpm: null } : side;
}

function unknownShare({ startS, endS }: Span, stateAt: (cell: number) => number | undefined): number {
  let unknown = 0;
  for (let cell = Math.floor(startS); cell < endS; cell++)
    if ((stateAt(cell) ?? PressureState.unknown) === PressureState.unknown) unknown++;
  return unknown / Math.max(1, endS - startS);
}

function alike(nowW: number | null, nowOffsetW: number, beforeW: number | null, beforeOffsetW: number): boolean {
  if (nowW === null || beforeW === null) return false;
  const [now, before] = [nowW + nowOffsetW, beforeW + beforeOffsetW];
  return before > 0 && Math.abs(now - before) <= LIKE_POWER * before;
}

function apart(before: number | null, now: number | null): RiddenAgain["breaks"] {
  if (before === null || now === null) return null;
  const by = Math.abs(now - before);
  return by >= LEAST_BREAKS_APART && by > Math.sqrt(now + before) ? { before, now } : null;
}
