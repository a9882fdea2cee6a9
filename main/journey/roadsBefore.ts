import type { RoadBefore, SharedStretch } from "../contract/roads.ts";
import type { Ride } from "../contract/ride.ts";
import { pairSeries } from "../film/pairItems.ts";
import { rideColumns } from "../reading/rideColumns.ts";
import { matchRoads } from "../roads/matchRoads.ts";
import { spotsWithin } from "../roads/pairPace.ts";
import { placeMap } from "../roads/placeMap.ts";
import { LEAST_M, LEAST_S } from "../roads/riddenAgain.ts";
import { ROAD_STEP_M } from "../roads/roadTrack.ts";
import { readRide } from "../ride/readRide.edge.ts";
import type { EarlierRide } from "./earlierRides.ts";
import type { ReadOutcome } from "./judge.ts";

/** More roads of one earlier ride are laps of a circuit. */
const MOST_ROADS = 4;

/**
 * Where a ride goes along roads of earlier ones, in one go of 3 km or 5 min at least; of several passes of one, that which
 * shares most. Files that are gone or can't be read are left out: nothing is said of them.
 */
export async function roadsBefore(
  ride: Ride,
  earlier: readonly EarlierRide[],
  judge: (ride: Ride, document: EarlierRide["document"]) => ReadOutcome,
): Promise<RoadBefore[]> {
  const found: RoadBefore[] = [];
  for (const { path, document, riderName } of earlier) {
    const before = await readRide(path).catch(() => null);
    if (before !== null) found.push(...sharedRoads(ride, judge(before, document), riderName));
  }
  return found;
}

/** The roads of a ride that one other rode too. */
function sharedRoads(ride: Ride, before: ReadOutcome, riderName: string | null): RoadBefore[] {
  const match = matchRoads(ride, before.ride);
  const taken: SharedStretch[] = [];
  for (const stretch of match.stretches) {
    const lengthS = Math.min(stretch.a.endS - stretch.a.startS, stretch.b.endS - stretch.b.startS);
    if (stretch.lengthM < LEAST_M && lengthS < LEAST_S) continue;
    if (taken.length < MOST_ROADS && taken.every(({ a }) => a.endS <= stretch.a.startS || a.startS >= stretch.a.endS))
      taken.push(stretch);
  }
  const { reading, plan } = before;
  const columns = rideColumns(before.ride, reading);
  return taken.map((stretch): RoadBefore => {
    const map = placeMap(match, stretch);
    const spots = spotsWithin(map, { startS: map.aS[0]!, endS: map.aS.at(-1)! });
    return {
      riderName,
      startUtcMs: before.ride.startUtcMs,
      utcOffsetMin: before.ride.utcOffsetMin,
      meterOffsetW: plan.meterOffsetW,
      ride: { grid: { power: before.ride.grid.power, heartRate: before.ride.grid.heartRate } },
      counted: reading.counted.stretches,
      breaks: reading.pressure.cranksKnown ? reading.breaks : null,
      oddHeart: reading.moments.filter(({ kind }) => kind === "oddHeart"),
      spotM: ROAD_STEP_M,
      beside: { spots, series: pairSeries(columns, spots.secondS[0]!, spots.secondS.at(-1)!) },
    };
  });
}
