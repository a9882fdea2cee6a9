import { expect, test } from "vitest";
import { panelValuesAt } from "../../../overlay/instant/panelValuesAt.ts";
import { stateKey } from "../../../overlay/instant/stateKey.ts";
import { sampleRide } from "../support/sampleRide.ts";

// The rules are the project's own; recorded values are set here one by one.
const MISSING = 0;
const REJECTED = 2;
const HELD = 3;
const PAUSED = 4;

test("a value changes with its second, not before, and an instant that rounding leaves short of it counts as it", () => {
  const ride = sampleRide();
  ride.heartRate?.value.set([140, 141], 100);
  expect(panelValuesAt(ride, 100.999).heartRateBpm).toBe(140);
  expect(panelValuesAt(ride, 101).heartRateBpm).toBe(141);
  expect(panelValuesAt(ride, 0.1 + 0.2 + 100.7 - 1e-12).heartRateBpm).toBe(141);
  expect(panelValuesAt(ride, 101.4).rideS).toBe(101);
});

test("heart, cadence and speed stand for 3 s past their sample, power for none", () => {
  const ride = sampleRide();
  for (const sensor of [ride.heartRate, ride.cadence, ride.speed, ride.power3s]) sensor?.state.fill(MISSING, 201, 300);
  for (const k of [201, 203]) {
    const values = panelValuesAt(ride, k + 0.5);
    expect([values.heartRateBpm, values.cadenceRpm, values.speedMps].every((value) => value !== null)).toBe(true);
    expect(values.powerW).toBeNull();
  }
  const late = panelValuesAt(ride, 204);
  expect([late.heartRateBpm, late.cadenceRpm, late.speedMps]).toEqual([null, null, null]);
});

test("in a ride of variable steps a held value stands for 10 s, power too", () => {
  const ride = sampleRide({ mode: "variable" });
  for (const sensor of [ride.heartRate, ride.power3s]) {
    sensor?.state.fill(HELD, 201, 211);
    sensor?.state.fill(MISSING, 211, 300);
  }
  expect(panelValuesAt(ride, 210.9).powerW).not.toBeNull();
  expect(panelValuesAt(ride, 210.9).heartRateBpm).not.toBeNull();
  expect(panelValuesAt(ride, 211).powerW).toBeNull();
  expect(panelValuesAt(ride, 211).heartRateBpm).toBeNull();
});

test("a spike or a pause is a dash at once, whatever came before", () => {
  for (const state of [REJECTED, PAUSED]) {
    const ride = sampleRide();
    ride.heartRate?.state.fill(state, 300, 301);
    ride.heartRate?.state.fill(MISSING, 301, 302);
    expect(panelValuesAt(ride, 299.5).heartRateBpm).not.toBeNull();
    expect(panelValuesAt(ride, 300.5).heartRateBpm).toBeNull();
    expect(panelValuesAt(ride, 301.5).heartRateBpm).toBeNull();
    expect(panelValuesAt(ride, 302.5).heartRateBpm).not.toBeNull();
  }
});

test("outside the ride all is null, and NaN never comes out", () => {
  const ride = sampleRide();
  ride.heartRate?.value.fill(Number.NaN);
  for (const rideS of [-1, -0.001, ride.seconds, ride.seconds + 100]) {
    const values = panelValuesAt(ride, rideS);
    expect(Object.values(values).every((value) => value === null)).toBe(true);
  }
  const values = panelValuesAt(ride, 50);
  expect(values.heartRateBpm).toBeNull();
  expect(Object.values(values).some((value) => typeof value === "number" && Number.isNaN(value))).toBe(false);
});

test("the counted part names its before and after, and counts whole seconds", () => {
  const ride = sampleRide();
  expect(panelValuesAt(ride, 599.9)).toMatchObject({ phase: "warm-up", countedS: null });
  expect(panelValuesAt(ride, 600)).toMatchObject({ phase: "main part", countedS: 0 });
  expect(panelValuesAt(ride, 7200)).toMatchObject({ phase: "cool-down", countedS: null });
});

test("gradient comes to half a percent", () => {
  const ride = sampleRide();
  ride.gradientPercent?.set([2.24, 2.26, -0.2], 10);
  expect([10, 11, 12].map((k) => panelValuesAt(ride, k).gradientPercent)).toEqual([2, 2.5, -0]);
});

test("equal pictures have equal keys, others have others", () => {
  const ride = sampleRide();
  const key = stateKey(panelValuesAt(ride, 100.2), 3);
  expect(stateKey(panelValuesAt(ride, 100.9), 3)).toBe(key);
  expect(stateKey(panelValuesAt(ride, 100.2), 4)).not.toBe(key);
  expect(stateKey(panelValuesAt(ride, 101), 3)).not.toBe(key);
});
