// Rides that stories are told of.
import { join } from "node:path";
import type { Ride } from "../../main/contract/ride.ts";
import { type NamedRide, ridesWithSensors } from "../support/rideWords.ts";
import { madeRide } from "./madeReading.ts";
import { makeRide } from "../support/makeRide.ts";

const folders = process.env.FOLLOWCAR_DATA
  ? ["fit", "gpx", "tcx"].map((kind) => join(process.env.FOLLOWCAR_DATA!, kind))
  : ["test/fixtures/rides"];

/** A ride at the plan for so long, with a heart that moves by as much as hearts do; it rolls for 12 s at each pause. */
export function evenRide(seconds: number, powerW = 200, pauses: readonly number[] = []): Ride {
  /** Seconds since a pause began, or null outside it and the way back to speed. */
  const since = (t: number): number | null => {
    const start = pauses.find((one) => t >= one && t < one + 36);
    return start === undefined ? null : t - start;
  };
  const rolling = (t: number): boolean => (since(t) ?? 99) < 12;
  const at = (f: (t: number) => number): number[] => Array.from({ length: seconds }, (_, t) => f(t));
  const noise = (t: number): number => Math.sin(t * 12.9898) * 0.5;
  return makeRide({
    powerW: at((t) => (rolling(t) ? 0 : powerW + Math.round(6 * Math.sin(t / 7)))),
    heartRateBpm: at((t) => 138 + Math.round(Math.sin(t / 47) + noise(t))),
    cadenceRpm: at((t) => (rolling(t) ? 0 : 88 + Math.round(2 * Math.sin(t / 11)))),
    // Rolling free on the level costs about 0.2 m/s each second at this speed.
    speedMps: at((t) => 8 - 0.2 * Math.min(since(t) ?? 0, 12) + Math.max(0, (since(t) ?? 0) - 12) * 0.1),
    altitudeM: at(() => 100),
    latDeg: at((t) => 47.1 + t * 7e-5),
    lonDeg: at(() => 11.6),
  });
}

/** Two hours at 200 W, a third of them at 235. */
export function hardThirdRide(): Ride {
  const ride = evenRide(7200, 200, [4000, 4600, 5200]);
  const { power, power3sW, power30sW } = ride.grid;
  for (let t = 1000; t < 3400; t++) for (const column of [power!.value, power3sW!, power30sW!]) column[t] = 235;
  return ride;
}

/** Rides from files, a made one and an even one; recorded ones too where they are at hand. */
export async function storyRides(): Promise<NamedRide[]> {
  return [
    ...(await ridesWithSensors(folders)),
    { name: "made", ride: madeRide() },
    { name: "even", ride: evenRide(7200) },
  ];
}

/** What stands in a row of a page's table under what was ridden. */
export const cell = (page: string, label: string): string | null =>
  new RegExp(`^${label} \\|[^|]*\\| ([^|]*?) \\|`, "m").exec(page)?.[1] ?? null;
