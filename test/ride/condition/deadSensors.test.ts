import { describe, expect, test } from "vitest";
import { defaultPlan } from "../../../main/reading/plan/defaultPlan.ts";
import { read } from "../../../main/reading/read.ts";
import { ascentM } from "../../../main/maths/ascent.ts";
import { rideSummary } from "../../../main/ride/rideSummary.ts";
import { makeRide } from "../../support/makeRide.ts";
import { said } from "../../support/said.ts";
import { range } from "../../support/trackText.ts";
import { seeded } from "../mutate.ts";

const N = 5400;
const random = seeded(11);
/** A ride with the small unrest that real sensors have. */
const sound = {
  powerW: range(N).map(() => Math.round(170 + 30 * (random() - 0.5))),
  heartRateBpm: range(N).map((k) => Math.round(138 + 3 * Math.sin(k / 90))),
  cadenceRpm: range(N).map((k) => Math.round(88 + 5 * Math.sin(k / 37) + 3 * (random() - 0.5))),
  speedMps: range(N).map((k) => 8.5 + Math.sin(k / 50)),
};
const over = (column: readonly number[], from: number, to: number, value: (k: number) => number) =>
  column.map((one, k) => (k >= from && k < to ? value(k) : one));
const target = defaultPlan({ targetW: 170, setting: "trainer" });

describe("a dead or lying sensor is no data, said once with its times", () => {
  test("a sound ride has nothing to say", () => {
    expect(said(makeRide(sound).warnings)).toEqual([]);
  });

  test("power that stays 0 with the cranks turning", () => {
    const ride = makeRide({ ...sound, powerW: over(sound.powerW, 1800, N, () => 0) });
    expect(said(ride.warnings)).toEqual([
      "Power stayed at 0 with the pedals turning from 0:30:00 to 1:30:00: the meter gave no data there.",
    ]);
    const reading = read(ride, target, []);
    expect(reading.breaks).toEqual([]);
    expect(reading.drift.driftBeats).toBeNull();
    expect(reading.drift.powerToHeartHalvesPercent).toBeNull();
    expect(rideSummary(ride, "trainer").power.meanW).toBeCloseTo(170, 0);
    // Fifty seconds may be soft pedalling down a hill.
    expect(said(makeRide({ ...sound, powerW: over(sound.powerW, 1800, 1850, () => 0) }).warnings)).toEqual([]);
  });

  test("power that ends before the ride: no drift, no lapse, and held only as far as it is known", () => {
    const ride = makeRide({ ...sound, powerW: over(sound.powerW, 4000, N, () => NaN) });
    expect(said(ride.warnings)).toEqual(["Power is missing from 1:06:40 to 1:30:00."]);
    const { drift, target: held, breaks } = read(ride, target, []);
    expect(breaks).toEqual([]);
    expect(drift.driftBeats).toBeNull();
    expect(drift.lastPowerW).toBeNull();
    expect(held.heldLowS ?? 0).toBeLessThanOrEqual(4000);
    expect(held.held.kind).not.toBe("to the end");
  });

  test("power frozen on one value while speed and cadence move", () => {
    const ride = makeRide({ ...sound, powerW: over(sound.powerW, 2000, 2600, () => 183) });
    expect(said(ride.warnings)).toEqual([
      "Power stood still at one value from 0:33:20 to 0:43:20 while cadence and speed changed: it is left out there.",
    ]);
    expect(ride.grid.power!.value[2300]).toBeNaN();
  });

  test.each([255, 0, 1])("a heart rate of %d held", (bpm) => {
    const ride = makeRide({ ...sound, heartRateBpm: over(sound.heartRateBpm, 2000, 4000, () => bpm) });
    expect(said(ride.warnings)).toEqual([
      "The heart rate sensor had no pulse from 0:33:20 to 1:06:40: what it gave there is left out.",
    ]);
    const reading = read(ride, target, []);
    expect(reading.drift.firstBpm).toBeNull();
    expect(reading.drift.driftBeats).toBeNull();
    expect(reading.target.heldLowS).toBeNull();
    expect(reading.moments.filter(({ kind }) => kind === "oddHeart")).toEqual([]);
  });

  test.each([
    [0, 0],
    [3, 1],
    [6, 1],
  ])("heart rate locked onto the cadence of %d s ago with %d beat of jitter", (lag, jitter) => {
    const heartRateBpm = over(
      sound.heartRateBpm,
      1000,
      4000,
      (k) => sound.cadenceRpm[k - lag]! + Math.round((random() - 0.5) * 2.99 * jitter),
    );
    const ride = makeRide({ ...sound, heartRateBpm });
    const lost = range(N).filter((k) => k >= 1000 && k < 4000 && Number.isFinite(ride.grid.heartRate!.value[k]));
    expect(lost.length).toBeLessThan(100);
    expect(said(ride.warnings).some((line) => line.startsWith("Heart rate followed the cadence from 0:16:"))).toBe(
      true,
    );
    expect(read(ride, target, []).drift.driftBeats).toBeNull();
  });

  test("a heart that only happens to be as fast as the cranks is kept", () => {
    const cadenceRpm = sound.cadenceRpm.map((rpm) => rpm + 48);
    const ride = makeRide({ ...sound, cadenceRpm });
    expect(said(ride.warnings).filter((line) => line.includes("followed"))).toEqual([]);
  });

  test("heart rate frozen without any power beside it", () => {
    const heartRateBpm = over(sound.heartRateBpm, 1000, 2000, () => 141);
    expect(said(makeRide({ heartRateBpm, speedMps: sound.speedMps }).warnings)).toEqual([
      "Heart rate stood still from 0:16:40 to 0:33:20 and is left out there.",
    ]);
  });

  test("an altitude that begins with an impossible value does not climb", () => {
    const altitudeM = range(N).map((k) => (k < 40 ? -500 : k < 60 ? 12 : 640 + 2 * Math.sin(k / 400)));
    const ride = makeRide({ ...sound, altitudeM });
    expect(ascentM(ride.grid.altitude!.value)).toBeLessThan(60);
    expect(said(ride.warnings)).toEqual([
      "Altitude begins with values that no road has; before 0:01:00 it is left out.",
    ]);
  });

  test("a power that the heart no longer answers to corrects nothing", () => {
    // Ten minutes without power before the last reading: what was ridden before them says nothing about it.
    const ride = makeRide({ ...sound, powerW: over(sound.powerW, 4400, N, () => NaN) });
    const { drift } = read(ride, defaultPlan({ targetW: 170, setting: "trainer", coolDownS: 300 }), []);
    expect(drift.lastPowerW).toBeNull();
    expect(drift.riseBeats).not.toBeNull();
  });
});
