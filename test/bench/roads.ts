import { readdirSync } from "node:fs";
import { join } from "node:path";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { matchRoads } from "../../main/roads/matchRoads.ts";
import { placeMap } from "../../main/roads/placeMap.ts";
import { pace, rideOn, windingRoad } from "../roads/makeRoad.ts";
import { seenAgain } from "../roads/seenAgain.ts";

const NOISE_M = 3;

/** Prints how long it takes to match two rides of so many hours on one road, and to make the longest stretch a function. */
function fiveHours(hours: number): void {
  const lengthM = hours * 3600 * 8;
  const road = windingRoad(77, lengthM + 2000);
  const [a, b] = [1, 2].map((seed) => rideOn({ road, seed, alongM: pace(seed + 40, lengthM, 8), noiseM: NOISE_M }));
  const startedMs = performance.now();
  const match = matchRoads(a!, b!);
  const matchedMs = performance.now();
  placeMap(match, match.stretches[0]!);
  const doneMs = performance.now();
  console.log(
    `two rides of ${hours} h: matched in ${((matchedMs - startedMs) / 1000).toFixed(2)} s, ` +
      `the longest stretch (${(match.stretches[0]!.lengthM / 1000).toFixed(1)} km) as a function in ` +
      `${((doneMs - matchedMs) / 1000).toFixed(2)} s`,
  );
}

/** Prints for every ride file with places how far off it is laid on itself as another receiver would have written it. */
export async function benchRoads(folders: readonly string[]): Promise<void> {
  fiveHours(5);
  const line = (name: string, cells: readonly string[]): string =>
    `${name.padEnd(40)}${cells.map((cell) => cell.padStart(11)).join("")}`;
  console.log(line("ride, against itself with fresh noise", ["km", "km matched", "median m", "99 % m", "s"]));
  for (const folder of folders) {
    for (const name of readdirSync(folder).sort()) {
      const ride = await readRide(join(folder, name)).catch(() => null);
      if (ride === null || ride.grid.position === null) continue;
      const startedMs = performance.now();
      const match = matchRoads(ride, seenAgain(ride, 5, NOISE_M));
      const tookS = (performance.now() - startedMs) / 1000;
      const speed = ride.grid.speed?.value;
      // The pass itself: of rides that go round several times every lap is matched with every other.
      const own = match.stretches.filter(
        ({ a, b }) => Math.abs(a.startS - b.startS) < 30 || Math.abs(a.endS - b.endS) < 30,
      );
      const offM = own
        .flatMap((stretch) => {
          const { aS, bS } = placeMap(match, stretch);
          return Array.from(aS, (s, k) => Math.abs(s - bS[k]!) * (speed?.[Math.floor(s)] ?? NaN));
        })
        .filter(Number.isFinite)
        .sort((x, y) => x - y);
      const at = (share: number): string => offM[Math.floor((offM.length - 1) * share)]?.toFixed(1) ?? "-";
      const lengthKm = (match.a.timeS.length * 5) / 1000;
      const matchedKm = own.reduce((sum, { lengthM }) => sum + lengthM, 0) / 1000;
      const cells = [lengthKm.toFixed(1), matchedKm.toFixed(1), at(0.5), at(0.99), tookS.toFixed(2)];
      console.log(`${line(name, cells)}  ${match.why ?? ""}`);
    }
  }
}
