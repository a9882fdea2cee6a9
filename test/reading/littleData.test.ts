// Rides that hold too little to judge: said once, and nothing made of it.
import { expect, it } from "vitest";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";
import { read } from "../../main/reading/read.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { makeRide } from "../support/makeRide.ts";
import { rideOf, set, steadyColumns } from "./testRides.ts";

const plan = defaultPlan({});
const codes = (reading: ReturnType<typeof read>) => reading.warnings.map(({ code }) => code);

it("a main part too short for either heart reading is said in one line", () => {
  const found = codes(read(rideOf(steadyColumns(300)), plan, []));
  expect(found.filter((code) => /^(heart|onset)/.test(code))).toEqual(["heart-part-too-short"]);
  // With one of the two, each is told of.
  const longer = codes(read(rideOf(steadyColumns(1500)), plan, []));
  expect(longer).toContain("heart-reading-absent");
  expect(longer).not.toContain("heart-part-too-short");
});

it("a main part of which two seconds are recorded is none: no share of it is printed", () => {
  const at = [...Array(40).keys()].map((k) => (k < 20 ? k : 1400 + k));
  const ride = makeRide({ timeS: at, powerW: at.map((s) => 150 + (s % 7)), mode: "variable" });
  const reading = read(ride, plan, []);
  expect(reading.counted.stretches).toEqual([]);
  expect(codes(reading)).toContain("reading-nothing-counts");
  expect(readingText(reading, rideSummary(ride, "road")).join("\n")).not.toMatch(/% of the main part|Main part:/);
});

it("cadence over a trace of the main part tells no breaks, and its absence is said as it is", () => {
  const columns = steadyColumns(3600);
  columns.powerW.fill(NaN);
  set(columns.cadenceRpm, 30, 3570, NaN);
  const ride = rideOf(columns);
  const reading = read(ride, plan, []);
  expect(reading.pressure.cranksKnown).toBe(false);
  expect(codes(reading)).toContain("reading-pressure-unknown");
  expect(codes(reading)).not.toContain("reading-without-power");
  expect(readingText(reading, rideSummary(ride, "road")).join("\n")).not.toMatch(/break in pressure of|not known/);
});

it("what a recorder's own steps keep from being told names only what could be told at all", () => {
  const columns = steadyColumns(3600);
  const own = (change: Partial<Record<"powerW" | "cadenceRpm" | "heartRateBpm", number[]>>) => {
    const { warnings } = read(rideOf({ ...columns, ...change }, { mode: "variable" }), plan, []);
    return warnings.find(({ code }) => code === "reading-own-steps")?.facts;
  };
  const none = columns.powerW.map(() => NaN);
  expect(own({})).toEqual({ breaks: true, drift: true });
  expect(own({ heartRateBpm: none })).toEqual({ breaks: true, drift: false });
  expect(own({ powerW: none, cadenceRpm: none })).toEqual({ breaks: false, drift: true });
  expect(own({ powerW: none, cadenceRpm: none, heartRateBpm: none })).toBeUndefined();
});

it("a ride by heart whose cadence sensor wrote a trace is held against its heart band", () => {
  const columns = steadyColumns(3600);
  columns.powerW.fill(NaN);
  set(columns.cadenceRpm, 700, 3570, NaN);
  const { pressure } = read(rideOf(columns), defaultPlan({ heartLowBpm: 118, heartHighBpm: 130 }), []);
  expect([pressure.judgedBy, pressure.cranksKnown]).toEqual(["heart", false]);
  expect(pressure.inBandS).toBeGreaterThan(2300);
  expect(pressure.unknownS).toBe(0);
});
