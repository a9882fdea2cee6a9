import { makeRide } from "../support/makeRide.ts";
import { seededRandom, wandering } from "../../main/demo/seededRandom.ts";
import type { Ride } from "../../main/contract/ride.ts";

/** A place on a made road, m east and north of its start, by the way along it. */
export type Road = (alongM: number) => { readonly eastM: number; readonly northM: number };

/** A road that bends as roads do: its direction wanders by sums of slow waves, and it never comes back to itself. */
export function windingRoad(seed: number, lengthM: number): Road {
  const { uniform: random } = seededRandom(seed);
  const waves = Array.from({ length: 6 }, (_, k) => ({
    waveM: 180 * 2 ** k * (0.8 + 0.4 * random()),
    turn: 0.16 * (0.6 + random()),
    phase: 2 * Math.PI * random(),
  }));
  const heading = 2 * Math.PI * random();
  return roadFrom(lengthM, (s) =>
    waves.reduce((sum, { waveM, turn, phase }) => sum + turn * Math.sin((2 * Math.PI * s) / waveM + phase), heading),
  );
}

/** A road from the direction of its course at each place, radians from east. */
export function roadFrom(lengthM: number, courseAt: (alongM: number) => number): Road {
  const stepM = 1;
  const east = [0];
  const north = [0];
  for (let s = 0; s < lengthM; s += stepM) {
    east.push(east.at(-1)! + stepM * Math.cos(courseAt(s)));
    north.push(north.at(-1)! + stepM * Math.sin(courseAt(s)));
  }
  return (alongM) => {
    const at = Math.min(Math.max(alongM, 0), lengthM - 1);
    const low = Math.floor(at);
    const share = at - low;
    return {
      eastM: east[low]! + (east[low + 1]! - east[low]!) * share,
      northM: north[low]! + (north[low + 1]! - north[low]!) * share,
    };
  };
}

/** What a made ride is made of. */
interface OnRoad {
  readonly road: Road;
  readonly seed: number;
  /** Way along the road at each second of the ride, m. */
  readonly alongM: readonly number[];
  /** SD of the receiver's error, m, correlated over `memoryS`; and how far it sits beside the road throughout, m. */
  readonly noiseM?: number;
  readonly besideM?: number;
  /** Seconds without a place. */
  readonly missing?: (s: number) => boolean;
  /** Records only every so many seconds. */
  readonly everyS?: number;
  readonly startUtcMs?: number;
  readonly southM?: number;
}

/** A rider's way along a road at 1 s, with a pace that wanders; `stops` are spans of seconds at rest. */
export function pace(
  seed: number,
  lengthM: number,
  meanMps: number,
  stops: readonly (readonly [number, number])[] = [],
): number[] {
  const { normal } = seededRandom(seed);
  const along = [0];
  let lean = 0;
  for (let s = 0; along.at(-1)! < lengthM; s++) {
    lean = 0.98 * lean + 0.2 * normal();
    const halted = stops.some(([from, to]) => s >= from && s < to);
    along.push(along.at(-1)! + (halted ? 0 : Math.max(2, meanMps * (1 + 0.15 * lean))));
  }
  return along;
}

const MEMORY_S = 20;

/** A ride along a made road, as a receiver with errors of its own writes it down. */
export function rideOn({
  road,
  seed,
  alongM,
  noiseM = 0,
  besideM = 0,
  missing,
  everyS = 1,
  startUtcMs,
  southM = 0,
}: OnRoad): Ride {
  const random = seededRandom(seed);
  const errorEast = wandering(random, noiseM, MEMORY_S);
  const errorNorth = wandering(random, noiseM, MEMORY_S);
  const latDeg: number[] = [];
  const lonDeg: number[] = [];
  const timeS: number[] = [];
  const speedMps: number[] = [];
  alongM.forEach((s, k) => {
    const [offEast, offNorth] = [errorEast(), errorNorth()];
    if (k % everyS !== 0) return;
    const here = road(s);
    const ahead = road(s + 1);
    const [dx, dy] = [ahead.eastM - here.eastM, ahead.northM - here.northM];
    const length = Math.hypot(dx, dy) || 1;
    const east = here.eastM + offEast + (besideM * dy) / length;
    const north = here.northM + offNorth - (besideM * dx) / length - southM;
    const lost = missing?.(k) ?? false;
    latDeg.push(lost ? NaN : 44.2 + north / 111_100);
    lonDeg.push(lost ? NaN : -71.4 + east / (111_320 * Math.cos((44.2 * Math.PI) / 180)));
    timeS.push(k);
    speedMps.push(s - (alongM[k - 1] ?? s - 5));
  });
  return makeRide({ latDeg, lonDeg, timeS, speedMps, ...(startUtcMs === undefined ? {} : { startUtcMs }) });
}
