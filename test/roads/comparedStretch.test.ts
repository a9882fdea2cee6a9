import { describe, expect, it } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { comparedStretch } from "../../main/roads/comparedStretch.ts";
import { matchRoads } from "../../main/roads/matchRoads.ts";
import { placeMap } from "../../main/roads/placeMap.ts";
import { passesAlong, sharedSpans } from "../../main/roads/stretchAt.ts";
import { makeRide } from "../support/makeRide.ts";
import { rideOn, roadFrom, windingRoad } from "./makeRoad.ts";

/** A ride at one speed, with a power and a heart rate of its own. */
function steady(speedMps: number, powerW: number, bpm: number, lengthM: number, lapM?: number): Ride {
  const alongM = Array.from({ length: Math.floor(lengthM / speedMps) }, (_, k) => k * speedMps);
  const road = lapM === undefined ? windingRoad(4, 9_000) : roadFrom(lengthM, (s) => (2 * Math.PI * s) / lapM);
  const { raw } = rideOn({ road, seed: Math.round(speedMps * 10), alongM });
  return makeRide({ ...raw, powerW: alongM.map(() => powerW), heartRateBpm: alongM.map((_, k) => bpm + (k % 3) - 1) });
}

describe("two rides over one stretch", () => {
  const first = { ride: steady(10, 250, 150, 8_000), breaks: [{ startS: 310, endS: 315 }] };
  const second = { ride: steady(8, 200, 140, 8_000), breaks: [] };
  const match = matchRoads(first.ride, second.ride);

  it("seconds, watts and beats of every part are the rides' own", () => {
    const [pass] = passesAlong(match, { startS: 200, endS: 500 });
    const { whole, parts } = comparedStretch(first, second, placeMap(match, pass!.stretch), pass!.span);
    // 3,000 m: 300 s at 10 m/s, 375 s at 8 m/s.
    expect(whole.toM - whole.fromM).toBeCloseTo(3000, -2);
    expect(whole.gainedS).toBeCloseTo(75, 0);
    expect(whole.first).toMatchObject({ powerW: 250, breaks: 1 });
    expect(whole.second).toMatchObject({ powerW: 200, breaks: 0 });
    expect(whole.first.heartRateBpm).toBeCloseTo(150, 1);
    expect(whole.second.heartRateBpm).toBeCloseTo(140, 1);
    expect(parts.length).toBeGreaterThanOrEqual(5);
    expect(parts.length).toBeLessThanOrEqual(10);
    expect(parts.reduce((sum, { gainedS }) => sum + gainedS, 0)).toBeCloseTo(whole.gainedS, 6);
    expect(parts[0]!.fromM).toBe(0);
    for (const [k, part] of parts.entries()) if (k > 0) expect(part.fromM).toBeCloseTo(parts[k - 1]!.toM, 6);
    expect(parts.at(-1)!.toM).toBeCloseTo(whole.toM, 6);
  });

  it("what the other did not ride in one go has no pass, and what both rode is known", () => {
    expect(passesAlong(match, { startS: 200, endS: 5000 })).toEqual([]);
    const [shared] = sharedSpans(match);
    expect(shared!.startS).toBeLessThan(10);
    expect(shared!.endS).toBeGreaterThan(750);
  });

  it("where the other begins and ends on the way, nobody seems to stand", () => {
    const road = windingRoad(4, 9_000);
    const made = (fromM: number, toM: number, seed: number): Ride => {
      const alongM = Array.from({ length: Math.floor((toM - fromM) / 8) }, (_, k) => fromM + 8 * k);
      return rideOn({ road, seed, alongM });
    };
    const long = { ride: made(0, 8_500, 1), breaks: null };
    const short = { ride: made(1_003, 7_001, 2), breaks: null };
    for (const [one, other] of [
      [long, short],
      [short, long],
    ] as const) {
      const found = matchRoads(one.ride, other.ride);
      const { a } = found.stretches[0]!;
      const { whole, parts } = comparedStretch(one, other, placeMap(found, found.stretches[0]!), a);
      expect(whole.toM - whole.fromM).toBeGreaterThan(5_900);
      for (const part of [whole, ...parts]) expect(Math.abs(part.gainedS)).toBeLessThan(0.5);
    }
  });

  it("nine laps give nine passes, by the other's time", () => {
    const once = steady(10, 200, 140, 1_400, 1_500);
    const nine = steady(8, 200, 140, 9 * 1_500, 1_500);
    const passes = passesAlong(matchRoads(once, nine), { startS: 20, endS: 120 });
    expect(passes).toHaveLength(9);
    for (let k = 1; k < 9; k++)
      expect(passes[k]!.stretch.b.startS - passes[k - 1]!.stretch.b.startS).toBeCloseTo(1_500 / 8, -1);
  });
});
