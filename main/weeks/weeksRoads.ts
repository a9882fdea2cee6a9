import type { ComparedSide } from "../contract/comparison.ts";
import type { RoadFigures } from "../contract/rideFigures.ts";
import type { Span } from "../contract/ride.ts";
import { couldTell, type WeeksRide } from "./weeksRide.ts";
import { LIKE_POWER } from "../contract/likeRides.ts";

/** Two stretches of one ride are one road where they share so much of the longer. */
const SAME_SHARE = 0.8;

/** One ride over a road. */
interface WeeksRoadRide {
  readonly startUtcMs: number;
  readonly utcOffsetMin: number | null;
  readonly side: ComparedSide;
  /** Heart rate where power is like the newest ride's there; null where it is not, or not known. */
  readonly likeHeartBpm: number | null;
  /** Drift of the whole ride, beats; null: it can't tell. */
  readonly driftBeats: number | null;
  readonly uncertaintyBeats: number | null;
}

/** A road ridden more than once; it is named by the newest ride's time there, by no place. */
export interface WeeksRoad {
  readonly kind: RoadFigures["kind"];
  readonly lengthM: number;
  /** Newest first. */
  readonly rides: readonly WeeksRoadRide[];
}

interface Found {
  readonly kind: RoadFigures["kind"];
  readonly lengthM: number;
  readonly sides: Map<number, ComparedSide>;
}

/**
 * The roads that an athlete rode more than once, as their debriefs have them; rides whose debrief is gone are left out.
 * A road known from several debriefs is one.
 */
export function weeksRoads(rides: readonly WeeksRide[]): WeeksRoad[] {
  const of = new Map(rides.map((ride) => [ride.startUtcMs, ride]));
  const found: Found[] = [];
  for (const ride of rides.toSorted((one, other) => other.startUtcMs - one.startUtcMs))
    for (const { kind, lengthM, startUtcMs, now, before } of ride.figures.roads ?? []) {
      const road = found.find((one) => one.kind === kind && isOne(one.sides.get(ride.startUtcMs), now));
      if (road === undefined)
        found.push({
          kind,
          lengthM,
          sides: new Map([
            [ride.startUtcMs, now],
            [startUtcMs, before],
          ]),
        });
      else if (!road.sides.has(startUtcMs)) road.sides.set(startUtcMs, before);
    }
  return found.flatMap(({ kind, lengthM, sides }): WeeksRoad[] => {
    const known = [...sides].flatMap(([startUtcMs, side]) => {
      const ride = of.get(startUtcMs);
      return ride === undefined ? [] : [{ ride, side }];
    });
    if (known.length < 2) return [];
    known.sort((one, other) => other.ride.startUtcMs - one.ride.startUtcMs);
    const newest = known[0]!;
    return [{ kind, lengthM, rides: known.map((one) => rowOf(one, newest)) }];
  });
}

interface Ridden {
  readonly ride: WeeksRide;
  readonly side: ComparedSide;
}

function rowOf({ ride, side }: Ridden, newest: Ridden): WeeksRoadRide {
  const tells = couldTell(ride);
  const [ownW, newestW] = [powerOf(ride, side), powerOf(newest.ride, newest.side)];
  const like = ownW !== null && newestW !== null && Math.abs(ownW - newestW) <= LIKE_POWER * newestW;
  return {
    startUtcMs: ride.startUtcMs,
    utcOffsetMin: ride.figures.utcOffsetMin,
    side,
    likeHeartBpm: like ? side.heartRateBpm : null,
    driftBeats: tells ? ride.figures.driftBeats : null,
    uncertaintyBeats: tells ? ride.figures.uncertaintyBeats : null,
  };
}

/** As the meter would read without its offset, W. */
function powerOf({ figures }: WeeksRide, { powerW }: ComparedSide): number | null {
  return powerW === null ? null : powerW + figures.meterOffsetW;
}

function isOne(one: Span | undefined, other: Span): boolean {
  if (one === undefined) return false;
  const shared = Math.min(one.endS, other.endS) - Math.max(one.startS, other.startS);
  return shared >= SAME_SHARE * Math.max(one.endS - one.startS, other.endS - other.startS);
}
