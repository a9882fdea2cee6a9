import type { RidePlacement } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import { matchTracks } from "./matchTracks.ts";
import { rideTrack, type OtherRide } from "./placeByTelemetry.ts";

/** Riders in a bunch pass a place within this of each other, s (common practice, no source): by the tracks alone no better can be said. */
const TOGETHER_S = 8;
/** Two recorders that take their time from satellites agree to about this, s (whole seconds on both sides). */
const SATELLITE_S = 1;

/**
 * Every ride on the shown one's time: `shown time = offsetS + own time`. Where riders rode together, their recorders'
 * satellite time counts if the tracks bear it out (the tracks alone cannot tell a rider who follows some seconds behind);
 * else the tracks' own match, to within the gap between riders. `uncertaintyS` is null where nothing bears the place out.
 */
export function placeRides(shown: Ride, others: readonly Ride[]): RidePlacement[] {
  const placed: RidePlacement[] = [{ file: shown.fileName, shown: true, offsetS: 0, uncertaintyS: 0 }];
  for (const other of others) {
    const byClockS =
      other.startUtcMs === null || shown.startUtcMs === null ? null : (other.startUtcMs - shown.startUtcMs) / 1000;
    const { best } = matchTracks(rideTrack(other), rideTrack(shown));
    const together = best !== null && best.rmsM <= 30 && best.movedM >= 200;
    if (together && byClockS !== null && Math.abs(best.offsetS - byClockS) <= TOGETHER_S) {
      placed.push({ file: other.fileName, shown: false, offsetS: byClockS, uncertaintyS: SATELLITE_S });
    } else if (together) {
      placed.push({ file: other.fileName, shown: false, offsetS: best.offsetS, uncertaintyS: TOGETHER_S });
    } else {
      placed.push({ file: other.fileName, shown: false, offsetS: byClockS ?? 0, uncertaintyS: null });
    }
  }
  return placed;
}

/**
 * The other rides that may have carried a camera, on the shown one's time, from `placeRides`: those that nothing but
 * their clock places are as good as two satellite clocks.
 */
export function othersForTelemetry(others: readonly Ride[], placed: readonly RidePlacement[]): OtherRide[] {
  return others.flatMap((ride, k) => {
    const { offsetS, uncertaintyS } = placed[k + 1]!;
    return uncertaintyS === null && ride.startUtcMs === null
      ? []
      : [{ ride, offsetS, uncertaintyS: uncertaintyS ?? SATELLITE_S }];
  });
}
