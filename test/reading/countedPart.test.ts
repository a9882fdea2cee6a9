import { describe, expect, it } from "vitest";
import { read } from "../../main/reading/read.ts";
import { defaultPlan, parsePlan } from "../../main/reading/plan/parsePlan.ts";
import { rideOf, set, steadyColumns } from "./testRides.ts";

const plan = defaultPlan({ targetW: 185, toleranceW: 12, warmUpS: 600, coolDownS: 600 });

describe("the counted part", () => {
  const columns = steadyColumns(5400);
  it("is what the plan gives", () => {
    expect(read(rideOf(columns), plan, []).counted).toMatchObject({ source: "plan", startS: 600, endS: 4800 });
  });

  it("is the lap between two presses by hand, never automatic ones", () => {
    const laps = (trigger: "manual" | "auto") => [
      { startS: 0, endS: 900, trigger },
      { startS: 900, endS: 4700, trigger },
      { startS: 4700, endS: 5400, trigger },
    ];
    const bare = defaultPlan();
    expect(read(rideOf(columns, { laps: laps("manual") }), bare, []).counted).toMatchObject({
      source: "laps",
      startS: 900,
      endS: 4700,
    });
    expect(read(rideOf(columns, { laps: laps("auto") }), bare, []).counted.source).toBe("default minutes");
  });

  it("is where power settles into the band", () => {
    const ramp = steadyColumns(5400);
    set(ramp.powerW, 0, 800, 110);
    set(ramp.powerW, 4900, 5400, 100);
    const { counted } = read(rideOf(ramp), defaultPlan({ targetW: 185 }), []);
    expect(counted.source).toBe("settled power");
    expect(Math.abs(counted.startS - 800)).toBeLessThanOrEqual(30);
    expect(Math.abs(counted.endS - 4900)).toBeLessThanOrEqual(30);
  });

  it("is 10 min off either end else", () => {
    expect(read(rideOf(columns), defaultPlan(), []).counted).toMatchObject({
      source: "default minutes",
      startS: 600,
      endS: 4800,
    });
  });

  it("is parted by a stop of more than 5 min and by a planned rest, not by a shorter stop", () => {
    const stop = (lengthS: number) => {
      const stopped = steadyColumns(5400);
      set(stopped.speedMps, 2000, 2000 + lengthS, 0);
      set(stopped.powerW, 2000, 2000 + lengthS, 0);
      return read(rideOf(stopped), plan, []).counted.stretches.length;
    };
    expect(stop(320)).toBe(2);
    expect(stop(280)).toBe(1);
    const rest = parsePlan(
      {
        target: 185,
        blocks: [
          { from: 10, to: 40 },
          { from: 40, to: 45, kind: "rest" },
          { from: 45, to: 80 },
        ],
      },
      "p",
    );
    expect(read(rideOf(columns), rest, []).counted.stretches).toEqual([
      { startS: 600, endS: 2400 },
      { startS: 2700, endS: 4800 },
    ]);
  });
});
