import { describe, expect, test } from "vitest";
import { makeRide } from "../../support/makeRide.ts";
import { range } from "../../support/trackText.ts";
import { seeded } from "../mutate.ts";
import { said } from "../../support/said.ts";

/** Whole beats that wander slowly, as a sound sensor gives. */
const sound = (n: number) => range(n).map((k) => Math.round(140 + 10 * Math.sin(k / 60)));

describe("heart rate", () => {
  test("a sound recording is left alone, a hard start too", () => {
    expect(makeRide({ heartRateBpm: sound(600) }).warnings).toEqual([]);
    const start = range(300).map((k) => Math.round(100 + 60 * (1 - Math.exp(-Math.max(0, k - 100) / 30))));
    expect(said(makeRide({ heartRateBpm: start }).warnings)).toEqual([]);
  });

  test("spikes, steps and values no heart has are rejected and shown as a dash", () => {
    const heartRateBpm = sound(600);
    heartRateBpm[100] = 190;
    heartRateBpm[200] = 0;
    heartRateBpm[300] = 235;
    for (let k = 400; k < 405; k++) heartRateBpm[k] = 185;
    const { heartRate } = makeRide({ heartRateBpm }).grid;
    for (const k of [100, 200, 300, 400, 402, 404]) expect(heartRate!.state[k], `${k}`).toBe(2);
    const kept = heartRate!.state.reduce((n, s) => n + (s === 1 ? 1 : 0), 0);
    expect(kept).toBeGreaterThan(585);
  });

  test("one spike takes one second, upwards and downwards", () => {
    for (const bpm of [190, 60]) {
      const heartRateBpm = sound(120);
      heartRateBpm[60] = bpm;
      expect([...makeRide({ heartRateBpm }).grid.heartRate!.state.subarray(58, 63)]).toEqual([1, 1, 2, 1, 1]);
    }
  });

  test("a sensor that follows the cadence for a minute is dropped there", () => {
    const random = seeded(3);
    let rpm = 90;
    const cadenceRpm = range(600).map(() => Math.round((rpm += (random() - 0.5) * 3 + (90 - rpm) * 0.02)));
    const heartRateBpm = sound(600).map((bpm, k) => (k >= 200 && k < 400 ? cadenceRpm[k]! + 1 : bpm));
    const ride = makeRide({ heartRateBpm, cadenceRpm });
    expect(ride.grid.heartRate!.state[300]).toBe(2);
    expect(ride.grid.heartRate!.state[500]).toBe(1);
    expect(said(ride.warnings).some((w) => w.includes("followed the cadence"))).toBe(true);
  });

  test("a heart that merely beats as often as the cranks turn is kept", () => {
    const random = seeded(4);
    const cadenceRpm = range(600).map(() => Math.round(140 + random() * 3));
    const heartRateBpm = range(600).map(() => Math.round(140 + random() * 3));
    expect(said(makeRide({ heartRateBpm, cadenceRpm }).warnings).some((w) => w.includes("cadence for"))).toBe(false);
  });

  test("a stuck sensor is dropped while power moves, kept while it does not", () => {
    const powerW = range(600).map((k) => (k % 120 < 60 ? 150 : 250));
    const heartRateBpm = sound(600).map((bpm, k) => (k >= 200 && k < 400 ? 141 : bpm));
    const moving = makeRide({ heartRateBpm, powerW });
    expect(moving.grid.heartRate!.state[300]).toBe(2);
    expect(said(moving.warnings).some((w) => w.includes("stood still"))).toBe(true);
    const even = makeRide({ heartRateBpm, powerW: range(600).map(() => 200) });
    expect(even.grid.heartRate!.state[300]).toBe(1);
  });

  test("holes of up to 5 s are held, longer ones stay empty", () => {
    const heartRateBpm = sound(100);
    for (const k of [20, 21, 22, 23, 24, 50, 51, 52, 53, 54, 55]) heartRateBpm[k] = NaN;
    const { heartRate } = makeRide({ heartRateBpm }).grid;
    expect(heartRate!.state[24]).toBe(3);
    expect(heartRate!.state[50]).toBe(0);
  });
});
