import type { Ride } from "../contract/ride.ts";
import { zoneAtPlace } from "./zoneAtPlace.ts";

/**
 * The rider's local time minus UTC, minutes: as the file says, else by the zone of the first position.
 * Null when neither is known.
 */
export function rideUtcOffset(ride: Ride): number | null {
  if (ride.utcOffsetMin !== null) return ride.utcOffsetMin;
  if (ride.startUtcMs === null) return null;
  const { latDeg, lonDeg } = ride.raw;
  for (let k = 0; k < ride.raw.count; k++) {
    if (Number.isFinite(latDeg[k]) && Number.isFinite(lonDeg[k]))
      return zoneAtPlace(latDeg[k], lonDeg[k], ride.startUtcMs);
  }
  return null;
}
