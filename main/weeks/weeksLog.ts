import type { RideFigures } from "../contract/rideFigures.ts";
import { couldTell, type WeeksRide } from "./weeksRide.ts";
import { weeksRoads, type WeeksRoad } from "./weeksRoads.ts";
import { DAY_TO_DAY_BEATS, LIKE_LENGTH, LIKE_POWER } from "../contract/likeRides.ts";

/** Fewer points than this make no line. */
const LEAST_FOR_TREND = 5;
const WEEK_MS = 7 * 86_400_000;

export interface WeeksTrend {
  readonly rides: number;
  /** Change of drift, beats a week; Theil-Sen (median of the slopes between all pairs). */
  readonly beatsPerWeek: number;
  /** The line itself: drift at the first and the last of them, beats. */
  readonly fromBeats: number;
  readonly toBeats: number;
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
  /** Over the time from the first to the last of them, beats. */
  readonly changeBeats: number;
  /** True when the change is more than day-to-day noise of heart rate. */
  readonly shown: boolean;
}

/** Rides of one kind of setting; road and trainer meters differ, so they are never put together. */
export interface WeeksGroup {
  readonly place: "road" | "trainer";
  /** The meter offsets in use, W; one entry where all rides agree. */
  readonly offsetsW: readonly number[];
  readonly rides: readonly WeeksRide[];
  /** Null: under five rides alike, so there is no line. */
  readonly trend: WeeksTrend | null;
}

export interface WeeksLog {
  readonly groups: readonly WeeksGroup[];
  /** Roads ridden more than once. */
  readonly roads: readonly WeeksRoad[];
  /** Debriefs left out, with the reason as a code. */
  readonly leftOut: readonly { readonly name: string; readonly because: "no figures" | "no date" }[];
}

function near(value: number, other: number, share: number): boolean {
  return Math.abs(value - other) <= share * Math.abs(other);
}

function isLike(ride: RideFigures, newest: RideFigures): boolean {
  if (!near(ride.countedS, newest.countedS, LIKE_LENGTH)) return false;
  if (ride.meanW === null || newest.meanW === null) return ride.meanW === newest.meanW;
  return near(ride.meanW + ride.meterOffsetW, newest.meanW + newest.meterOffsetW, LIKE_POWER);
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return sorted.length % 2 === 1 ? sorted[Math.floor(half)]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** Median of the slopes between all pairs (Sen, J Am Stat Assoc 1968;63:1379; from memory); null under five rides that could tell. */
export function driftTrend(rides: readonly WeeksRide[]): WeeksTrend | null {
  const points = rides.flatMap((ride) =>
    ride.like && couldTell(ride) && ride.figures.driftBeats !== null
      ? [{ week: ride.startUtcMs / WEEK_MS, beats: ride.figures.driftBeats }]
      : [],
  );
  if (points.length < LEAST_FOR_TREND) return null;
  const slopes = points.flatMap((one, index) =>
    points
      .slice(index + 1)
      .flatMap((other) => (other.week === one.week ? [] : [(other.beats - one.beats) / (other.week - one.week)])),
  );
  if (slopes.length === 0) return null;
  const beatsPerWeek = middle(slopes);
  const [first, last] = [points[0]!, points.at(-1)!];
  const changeBeats = beatsPerWeek * (last.week - first.week);
  const fromBeats = middle(points.map((one) => one.beats - beatsPerWeek * (one.week - first.week)));
  const ends = {
    fromBeats,
    toBeats: fromBeats + changeBeats,
    fromUtcMs: first.week * WEEK_MS,
    toUtcMs: last.week * WEEK_MS,
  };
  return { rides: points.length, beatsPerWeek, ...ends, changeBeats, shown: Math.abs(changeBeats) > DAY_TO_DAY_BEATS };
}

/**
 * The athlete's log over debriefs, oldest first. Road and trainer stand apart. A drift-free time of "at least" stays
 * open-ended: nothing here averages it. A ride in a group stands with the road; its easing enters no lapse anyway.
 */
export function weeksLog(
  debriefs: readonly { readonly name: string; readonly figures: RideFigures | null }[],
): WeeksLog {
  const leftOut: WeeksLog["leftOut"][number][] = [];
  const dated: { name: string; figures: RideFigures; startUtcMs: number }[] = [];
  for (const { name, figures } of debriefs) {
    if (figures === null) leftOut.push({ name, because: "no figures" });
    else if (figures.startUtcMs === null) leftOut.push({ name, because: "no date" });
    else dated.push({ name, figures, startUtcMs: figures.startUtcMs });
  }
  dated.sort((a, b) => a.startUtcMs - b.startUtcMs);
  const groups = (["road", "trainer"] as const).flatMap((place): WeeksGroup[] => {
    const own = dated.filter((one) => (one.figures.setting === "trainer") === (place === "trainer"));
    const newest = own.at(-1);
    if (newest === undefined) return [];
    const rides = own.map((one): WeeksRide => ({ ...one, like: isLike(one.figures, newest.figures) }));
    const offsetsW = [...new Set(own.map((one) => one.figures.meterOffsetW))].sort((a, b) => a - b);
    return [{ place, offsetsW, rides, trend: driftTrend(rides) }];
  });
  return { groups, roads: weeksRoads(groups.flatMap(({ rides }) => rides)), leftOut };
}
