import { describe, expect, it } from "vitest";
import { matchRoads } from "../../main/roads/matchRoads.ts";
import { pairPace, spotsWithin } from "../../main/roads/pairPace.ts";
import { placeMap } from "../../main/roads/placeMap.ts";
import { passesAlong } from "../../main/roads/stretchAt.ts";
import { paceAt } from "../../overlay/pair/pairAt.ts";
import { pace, rideOn, windingRoad } from "./makeRoad.ts";

const at = (column: readonly number[], timeS: number): number => {
  const low = Math.min(column.length - 2, Math.floor(timeS));
  return column[low]! + (column[low + 1]! - column[low]!) * (timeS - low);
};

/** Two riders on a road; `stops` of each in s of its ride. */
function two(
  seed: number,
  stopsA: readonly [number, number][] = [],
  stopsB: readonly [number, number][] = [],
  fastMps = 8,
  slowMps = 6.5,
) {
  const road = windingRoad(seed, 12_000);
  const alongA = pace(seed * 7 + 1, 11_000, fastMps, stopsA);
  const alongB = pace(seed * 7 + 2, 11_000, slowMps, stopsB);
  const match = matchRoads(
    rideOn({ road, seed: seed * 3, alongM: alongA, noiseM: 3 }),
    rideOn({ road, seed: seed * 3 + 1, alongM: alongB, noiseM: 3 }),
  );
  const [pass] = passesAlong(match, { startS: 200, endS: 500 });
  return { alongA, alongB, map: placeMap(match, pass!.stretch), span: pass!.span };
}

describe("two rides by place (simulated, their truth known)", () => {
  it("both are at one spot at every instant, the second's speed changes smoothly and stays within 0.5 to 2", () => {
    const apart: number[] = [];
    for (let seed = 1; seed <= 6; seed++) {
      const { alongA, alongB, map, span } = two(seed, [], [], 8, 7.4);
      const knots = pairPace(map, span, "place");
      expect(knots.filmS.at(-1)).toBeCloseTo(300, 6);
      let before = NaN;
      for (let s = 0; s < 299; s += 0.5) {
        const [here, next] = [paceAt(knots, s), paceAt(knots, s + 0.5)];
        apart.push(Math.abs(at(alongA, here.firstS) - at(alongB, here.secondS)));
        expect(next.firstS - here.firstS).toBeCloseTo(0.5, 6);
        const speed = (next.secondS - here.secondS) / 0.5;
        expect(speed).toBeGreaterThanOrEqual(0.5);
        expect(speed).toBeLessThanOrEqual(2);
        if (!Number.isNaN(before)) expect(Math.abs(speed - before)).toBeLessThan(0.25);
        before = speed;
      }
    }
    apart.sort((x, y) => x - y);
    expect(apart[apart.length >> 1]).toBeLessThan(5);
    expect(apart.at(-1)).toBeLessThan(40);
  });

  it("a rider of a third of the pace: the first gives way, and neither runs faster than twice as filmed", () => {
    const { map, span, alongA, alongB } = two(3, [], [], 9, 3);
    const knots = pairPace(map, span, "place");
    expect(knots.filmS.at(-1)).toBeGreaterThan(330);
    for (let s = 0; s + 0.5 < knots.filmS.at(-1)!; s += 0.5) {
      const [here, next] = [paceAt(knots, s), paceAt(knots, s + 0.5)];
      expect((next.secondS - here.secondS) / 0.5).toBeLessThanOrEqual(2 + 1e-9);
      expect((next.firstS - here.firstS) / 0.5).toBeLessThanOrEqual(2 + 1e-9);
      expect((next.firstS - here.firstS) / 0.5).toBeGreaterThanOrEqual(0.45);
      expect(Math.abs(at(alongA, here.firstS) - at(alongB, here.secondS))).toBeLessThan(40);
    }
  });

  it.each([
    ["the first", [[300, 360]], [], "firstS", "secondS"],
    ["the second", [], [[380, 440]], "secondS", "firstS"],
  ] as const)("where %s stood the other holds, for 2 s", (_, stopsA, stopsB, stood, waited) => {
    const { map, span } = two(
      2,
      stopsA.map(([from, to]) => [from, to]),
      stopsB.map(([from, to]) => [from, to]),
    );
    const knots = pairPace(map, span, "place");
    const halt = knots.filmS.findIndex((s, k) => k > 0 && s === knots.filmS[k - 1]);
    expect(halt).toBeGreaterThan(0);
    expect(knots.filmS.filter((s, k) => k > 0 && s === knots.filmS[k - 1])).toHaveLength(1);
    expect(knots.filmS[halt - 1]! - knots.filmS[halt - 2]!).toBeCloseTo(2, 6);
    expect(knots[waited][halt]).toBe(knots[waited][halt - 2]);
    expect(knots[stood][halt]! - knots[stood][halt - 1]!).toBeGreaterThan(50);
    for (let k = 1; k < knots.filmS.length; k++) {
      expect(knots.filmS[k]).toBeGreaterThanOrEqual(knots.filmS[k - 1]!);
      expect(knots.firstS[k]).toBeGreaterThanOrEqual(knots.firstS[k - 1]!);
      expect(knots.secondS[k]).toBeGreaterThanOrEqual(knots.secondS[k - 1]!);
    }
  });

  it("by time both run as filmed from one spot on", () => {
    const { map, span, alongA, alongB } = two(4);
    const knots = pairPace(map, span, "time");
    const [from, to] = [paceAt(knots, 0), paceAt(knots, 100)];
    expect(Math.abs(at(alongA, from.firstS) - at(alongB, from.secondS))).toBeLessThan(15);
    expect(to.firstS - from.firstS).toBeCloseTo(100, 9);
    expect(to.secondS - from.secondS).toBeCloseTo(100, 9);
    const spots = spotsWithin(map, span);
    expect(spots.firstS[0]).toBe(span.startS);
    expect(spots.firstS.at(-1)).toBe(span.endS);
  });
});
