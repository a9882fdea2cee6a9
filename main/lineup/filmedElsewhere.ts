import type { Clip, Place } from "../contract/footage.ts";
import type { ClipPlacement } from "../contract/lineup.ts";
import { placedBecause } from "../contract/notices/placement.ts";
import type { Ride } from "../contract/ride.ts";
import { distanceM } from "../maths/geodesy.ts";
import type { OtherRide } from "./placeByTelemetry.ts";

/**
 * A phone's point may be of where it last knew that it was, or of a mast; further than this from every place of a ride it
 * was not filmed on that ride, m (our own, no source). Nearer tells no more than that it may have been.
 */
const FAR_M = 5000;

/** From a place to the nearest of a ride's, m; null where the ride has none. */
function awayM({ latDeg, lonDeg }: Place, { raw }: Ride): number | null {
  let nearest = Infinity;
  for (let k = 0; k < raw.count; k++) {
    const [lat, lon] = [raw.latDeg[k]!, raw.lonDeg[k]!];
    if (Number.isFinite(lat) && Number.isFinite(lon)) nearest = Math.min(nearest, distanceM(latDeg, lonDeg, lat, lon));
  }
  return Number.isFinite(nearest) ? nearest : null;
}

/**
 * A clip whose file names a point far from the whole ride: what its clock or its signals say of it is a `conflict`, and
 * another rider's ride that passes there is named. Its own positions and anchors are trusted more, and nothing is placed by the point.
 */
export function doubtFarPlace(
  clip: Clip,
  placed: ClipPlacement,
  ride: Ride,
  others: readonly OtherRide[],
): ClipPlacement {
  const inDoubt = placed.method === "signals" || placed.method === "clock" || placed.inheritedFrom !== null;
  if (!clip.filmedAt || !inDoubt || placed.verdict === "no match") return placed;
  const farM = awayM(clip.filmedAt, ride);
  if (farM === null || farM <= FAR_M) return placed;
  const there = others.find((other) => (awayM(clip.filmedAt!, other.ride) ?? Infinity) <= FAR_M);
  return {
    ...placed,
    verdict: "conflict",
    sure: false,
    confidence: Math.min(placed.confidence, 0.2),
    candidates:
      placed.candidates.length > 0 || placed.found === null
        ? placed.candidates
        : [{ rideStartS: placed.found.offsetS, score: placed.confidence }],
    reason: placedBecause("filmed-elsewhere", {
      own: placed.reason,
      farM,
      rideName: there?.ride.fileName ?? null,
    }),
  };
}
