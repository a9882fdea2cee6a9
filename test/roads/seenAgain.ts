import { seededRandom, wandering } from "../../main/demo/seededRandom.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { makeRide } from "../support/makeRide.ts";

/** How long a receiver's error lasts, s. */
const MEMORY_S = 20;

/** A real ride as another receiver would have written it, its clock an hour off: fresh noise of an SD on every place. */
export function seenAgain(ride: Ride, seed: number, noiseM: number): Ride {
  const random = seededRandom(seed);
  const [east, north] = [wandering(random, noiseM, MEMORY_S), wandering(random, noiseM, MEMORY_S)];
  const { raw } = ride;
  const perLon = 111_320 * Math.cos(((raw.latDeg.find(Number.isFinite) ?? 0) * Math.PI) / 180);
  return makeRide({
    ...raw,
    latDeg: raw.latDeg.map((lat) => lat + north() / 111_132),
    lonDeg: raw.lonDeg.map((lon) => lon + east() / perLon),
    startUtcMs: (ride.startUtcMs ?? 0) + 3_600_000,
    pauses: ride.gaps.filter(({ kind }) => kind === "pause"),
  });
}
