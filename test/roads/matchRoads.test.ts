import { Geodesic } from "geographiclib-geodesic";
import { describe, expect, it } from "vitest";
import type { PlaceMap, RoadMatch } from "../../main/contract/roads.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { matchRoads } from "../../main/roads/matchRoads.ts";
import { placeMap } from "../../main/roads/placeMap.ts";
import { makeRide } from "../support/makeRide.ts";
import { pace, rideOn, roadFrom, windingRoad, type Road } from "./makeRoad.ts";
import { seenAgain } from "./seenAgain.ts";

const at = (column: readonly number[], timeS: number): number => {
  const low = Math.min(column.length - 2, Math.floor(timeS));
  return column[low]! + (column[low + 1]! - column[low]!) * (timeS - low);
};

/** How far along the road the two rides are apart where the map says they are at one place, m, sorted. */
function errorsM(map: PlaceMap, alongA: readonly number[], alongB: readonly number[]): number[] {
  return Array.from(map.aS, (aS, k) => Math.abs(at(alongA, aS) - at(alongB, map.bS[k]!))).sort((x, y) => x - y);
}

const quantile = (sorted: readonly number[], share: number): number => sorted[Math.floor((sorted.length - 1) * share)]!;
const coveredM = ({ stretches }: RoadMatch): number => stretches.reduce((sum, { lengthM }) => sum + lengthM, 0);

/** Two riders on one road, 19 km, each with a pace and stops of their own. */
function twoOn(road: Road, seed: number, a: object = {}, b: object = {}) {
  const alongA = pace(seed * 7 + 1, 19_000, 8, [[300, 420]]);
  const alongB = pace(seed * 7 + 2, 19_000, 6.5, [[900, 1000]]);
  const rideA = rideOn({ road, seed: seed * 3, alongM: alongA, noiseM: 3, ...a });
  const rideB = rideOn({ road, seed: seed * 3 + 1, alongM: alongB, noiseM: 3, ...b });
  const match = matchRoads(rideA, rideB);
  return { alongA, alongB, rideA, rideB, match };
}

describe("two rides on one road, whose truth is known (simulated)", () => {
  it.each([
    ["every second, 3 m of noise in each receiver", {}, {}, 5],
    ["receivers 12 m apart throughout", { besideM: 6 }, { besideM: -6 }, 5],
    ["one recorder writes every fourth second", {}, { everyS: 4 }, 5],
  ])("%s: one stretch, within 5 m along the road in the median", (_, a, b, mostM) => {
    const all: number[] = [];
    for (let seed = 1; seed <= 6; seed++) {
      const { alongA, alongB, match } = twoOn(windingRoad(seed, 20_000), seed, a, b);
      expect(match.stretches).toHaveLength(1);
      expect(match.stretches[0]!.lengthM).toBeGreaterThan(18_400);
      all.push(...errorsM(placeMap(match, match.stretches[0]!), alongA, alongB));
    }
    all.sort((x, y) => x - y);
    expect(quantile(all, 0.5)).toBeLessThan(mostM);
    expect(quantile(all, 0.99)).toBeLessThan(30);
  });

  it("both times rise, and where one stood the other steps over the halt", () => {
    const { match } = twoOn(windingRoad(3, 20_000), 3);
    const { aS, bS } = placeMap(match, match.stretches[0]!);
    let longestB = 0;
    for (let k = 1; k < aS.length; k++) {
      expect(aS[k]).toBeGreaterThanOrEqual(aS[k - 1]!);
      expect(bS[k]).toBeGreaterThanOrEqual(bS[k - 1]!);
      longestB = Math.max(longestB, bS[k]! - bS[k - 1]!);
    }
    expect(longestB).toBeGreaterThan(50);
  });

  it("hairpins 25 m apart: no place is laid on the leg beside it", () => {
    // Eight legs of 400 m, joined by half circles of 12.5 m radius.
    const legM = 400 + Math.PI * 12.5;
    const road = roadFrom(8 * legM, (s) => {
      const leg = Math.floor(s / legM);
      const inTurnM = Math.max(0, (s % legM) - 400);
      const turned = leg % 2 === 0 ? inTurnM / 12.5 : Math.PI - inTurnM / 12.5;
      return turned;
    });
    const alongA = pace(5, 8 * legM - 50, 4);
    const alongB = pace(6, 8 * legM - 50, 5);
    const match = matchRoads(
      rideOn({ road, seed: 1, alongM: alongA, noiseM: 3 }),
      rideOn({ road, seed: 2, alongM: alongB, noiseM: 3 }),
    );
    // Legs of one direction are 50 m apart: each is matched with itself, in one unbroken stretch.
    const errors = errorsM(placeMap(match, match.stretches[0]!), alongA, alongB);
    expect(match.stretches[0]!.lengthM).toBeGreaterThan(3_300);
    expect(quantile(errors, 0.5)).toBeLessThan(5);
    expect(quantile(errors, 0.99)).toBeLessThan(40);
  });

  it("a detour splits the road in two, and the detour is in neither", () => {
    const road = windingRoad(8, 20_000);
    const alongM = pace(11, 19_000, 7);
    const detour = (s: number) => s > 8_000 && s < 10_000;
    const rideA = rideOn({ road, seed: 1, alongM, noiseM: 3 });
    const beside: Road = (s) => {
      const here = road(s);
      return detour(s)
        ? { eastM: here.eastM + 400 * Math.sin(((s - 8_000) / 2_000) * Math.PI), northM: here.northM }
        : here;
    };
    const match = matchRoads(rideA, rideOn({ road: beside, seed: 2, alongM, noiseM: 3 }));
    const inside = match.stretches.filter(({ a }) => at(alongM, a.startS) < 9_700 && at(alongM, a.endS) > 8_300);
    expect(inside).toHaveLength(0);
    expect(coveredM(match)).toBeGreaterThan(15_500);
  });

  it("a hole in one ride's places: what is beside it is matched, the hole is not", () => {
    const road = windingRoad(9, 20_000);
    const alongM = pace(12, 19_000, 7);
    const missing = (s: number) => s >= 1000 && s < 1200;
    const match = matchRoads(
      rideOn({ road, seed: 1, alongM, noiseM: 3 }),
      rideOn({ road, seed: 2, alongM, noiseM: 3, missing }),
    );
    expect(match.stretches.length).toBe(2);
    for (const { b } of match.stretches) expect(b.endS <= 1010 || b.startS >= 1190).toBe(true);
  });

  it("a lap ridden nine times against one ridden once: nine passes, each said", () => {
    // A round of 1,500 m; laps follow each other without a break.
    const road = roadFrom(9 * 1_500 + 100, (s) => (2 * Math.PI * s) / 1_500);
    const nine = pace(3, 9 * 1_500, 8);
    const once = pace(4, 1_400, 7);
    const match = matchRoads(
      rideOn({ road, seed: 1, alongM: once, noiseM: 2 }),
      rideOn({ road, seed: 2, alongM: nine, noiseM: 2 }),
    );
    expect(match.stretches.length).toBe(9);
    for (const stretch of match.stretches) {
      const { aS, bS } = placeMap(match, stretch);
      const apart = Array.from(aS, (s, k) => (at(nine, bS[k]!) - at(once, s)) / 1_500);
      const lap = Math.round(apart[apart.length >> 1]!);
      for (const one of apart) expect(Math.abs(one - lap) * 1_500).toBeLessThan(30);
    }
  });

  it("a road 40 m beside is another road; the other way round is said; so is another continent, and no places", () => {
    const straight = roadFrom(8_000, () => 0.4);
    const alongM = pace(21, 7_500, 8);
    const ride = rideOn({ road: straight, seed: 1, alongM, noiseM: 3 });
    const beside = rideOn({ road: straight, seed: 2, alongM, noiseM: 3, besideM: 40 });
    expect(matchRoads(ride, beside)).toMatchObject({ stretches: [], why: "other roads" });
    const back = rideOn({ road: (s) => straight(7_600 - s), seed: 3, alongM, noiseM: 3 });
    expect(matchRoads(ride, back)).toMatchObject({ stretches: [], why: "opposite direction" });
    const away = rideOn({ road: straight, seed: 4, alongM, southM: 6_000_000 });
    expect(matchRoads(ride, away)).toMatchObject({ stretches: [], why: "far apart" });
    const indoors = makeRide({ powerW: alongM.map(() => 150) });
    expect(matchRoads(indoors, ride).why).toBe("no places in A");
    expect(matchRoads(ride, indoors).why).toBe("no places in B");
    const short = rideOn({ road: straight, seed: 5, alongM: alongM.slice(0, 15) });
    expect(matchRoads(ride, short)).toMatchObject({ stretches: [], why: "too short" });
  });
});

describe("real rides", () => {
  it("the same ride twice: every place is the same second", async () => {
    const ride = await readRide("test/fixtures/rides/power-heart-1s.fit");
    const match = matchRoads(ride, ride);
    const { aS, bS } = placeMap(match, match.stretches[0]!);
    expect(aS.length).toBeGreaterThan(100);
    for (const [k, s] of aS.entries()) expect(bS[k]).toBeCloseTo(s, 6);
  });

  it.each(["power-heart-1s.fit", "power-no-heart.fit", "variable-hills.fit", "variable-trail.fit"])(
    "%s against itself, an hour later and with 3 m of fresh noise: the same second again",
    async (name) => {
      const ride = await readRide(`test/fixtures/rides/${name}`);
      const again = seenAgain(ride, 5, 3);
      const match = matchRoads(ride, again);
      const map = placeMap(match, match.stretches[0]!);
      const speed = ride.grid.speed!.value;
      const offM = Array.from(map.aS, (s, k) => Math.abs(s - map.bS[k]!) * (speed[Math.floor(s)] || 0))
        .filter(Number.isFinite)
        .sort((x, y) => x - y);
      expect(quantile(offM, 0.5)).toBeLessThan(5);
      expect(match.stretches[0]!.lengthM).toBeGreaterThan(0.9 * match.a.timeS.length * 5 - 500);
    },
    60_000,
  );

  it("way along a stretch is the geodesic's (GeographicLib, Karney 2013) to 0.5 %", async () => {
    const ride = await readRide("test/fixtures/rides/power-heart-1s.fit");
    const match = matchRoads(ride, ride);
    const { aS, atM } = placeMap(match, match.stretches[0]!);
    const { latDeg, lonDeg } = ride.grid.position!;
    let wayM = 0;
    const [from, to] = [Math.ceil(aS[0]!), Math.floor(aS.at(-1)!)];
    for (let s = from + 1; s <= to; s++)
      wayM += Geodesic.WGS84.Inverse(latDeg[s - 1]!, lonDeg[s - 1]!, latDeg[s]!, lonDeg[s]!).s12 ?? 0;
    expect(Math.abs(atM.at(-1)! / wayM - 1)).toBeLessThan(0.005);
  });
});
