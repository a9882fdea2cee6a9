import { describe, expect, it } from "vitest";
import { bicycle } from "../../main/demo/bicycle.ts";
import { course } from "../../main/demo/course.ts";
import { motionAt } from "../../main/demo/demoTruth.ts";
import { demoRide } from "../../main/demo/rideModel.ts";

const truth = demoRide(20260516);
const { motion, records } = truth;
const mainToS = truth.durationS - truth.coolDownS;

describe("the demo's bicycle", () => {
  // Speeds of the published road-cycling model (Martin and others, J Appl Biomech 1998;14:276-291) for 82 kg,
  // CdA 0.32 m2, Crr 0.004, air 1.2 kg/m3 at a steady 240 W, computed apart from this code.
  it.each([
    [-2, 12.6587],
    [0, 10.0942],
    [2, 7.6214],
    [4, 5.6271],
    [6, 4.2593],
  ])("settles at the model's speed on %d %%", (percent, speedMps) => {
    const slope = { ...course(), corners: [], stops: [], gradientPercentAt: () => percent };
    const bike = bicycle(slope);
    let moved = bike.step(240, 0.1, 0);
    for (let i = 1; i < 12_000; i++) moved = bike.step(240, 0.1, i / 10);
    expect(moved.speedMps).toBeCloseTo(speedMps, 3);
  });
});

describe("the demo ride", () => {
  it("lasts 2 h 24 min, a record a second", () => {
    expect(records.count).toBe(8641);
    expect(motion.distanceM.at(-1)).toBeGreaterThan(55_000);
    expect(motion.distanceM.at(-1)).toBeLessThan(truth.course.lengthM - 400);
  });

  it("is the same for the same seed and another for another", () => {
    expect(demoRide(20260516).records).toEqual(records);
    expect(demoRide(7).records.heartRateBpm).not.toEqual(records.heartRateBpm);
  });

  it("stands still where and as long as the truth says", () => {
    for (const place of truth.course.stops) {
      const stop = truth.events.find(
        (e) => e.kind === place.kind && Math.abs(motionAt(motion, motion.distanceM, e.startS) - place.atM) < 0.7,
      );
      expect(stop, `stop at ${place.atM} m`).toBeDefined();
      expect(stop!.endS - stop!.startS).toBeCloseTo(place.standS, 6);
      for (let t = stop!.startS; t <= stop!.endS; t += 0.1)
        expect(motionAt(motion, motion.speedMps, t)).toBeLessThan(0.01);
      expect(motionAt(motion, motion.speedMps, stop!.startS - 2)).toBeGreaterThan(1);
      expect(motionAt(motion, motion.speedMps, stop!.endS + 4)).toBeGreaterThan(1);
    }
  });

  it("moves as far as its speed says", () => {
    let sumM = 0;
    for (let i = 1; i < motion.speedMps.length; i++)
      sumM += ((motion.speedMps[i - 1]! + motion.speedMps[i]!) / 2) * motion.stepS;
    // Wheels that come to rest do so from a creep within one step.
    expect(Math.abs(sumM - motion.distanceM.at(-1)!)).toBeLessThan(0.2);
  });

  it("corners no faster than the rider dares and rests the cranks there", () => {
    for (const e of truth.events.filter((one) => one.kind === "corner")) {
      const v = motionAt(motion, motion.speedMps, e.startS);
      expect(v).toBeLessThan(6.2);
      expect(records.powerW[Math.ceil(e.startS) + 1]).toBe(0);
    }
  });

  it("has one lapse of 40 s without power or cadence, while moving", () => {
    const lapses = truth.events.filter((e) => e.kind === "lapse");
    expect(lapses).toHaveLength(1);
    const { startS, endS } = lapses[0]!;
    expect(endS - startS).toBe(40);
    for (let k = startS + 1; k <= endS; k++) {
      expect(records.powerW[k]).toBe(0);
      expect(records.cadenceRpm[k]).toBe(0);
      expect(records.speedMps[k]).toBeGreaterThan(5);
    }
  });

  it("keeps the main part near the target", () => {
    const main = Array.from(records.powerW.subarray(truth.warmUpS, mainToS))
      .filter((p) => p > 20)
      .sort((a, b) => a - b);
    expect(Math.abs(main[Math.floor(main.length / 2)]! - truth.targetW)).toBeLessThan(4);
  });

  it("has a heart of whole beats that drifts only from the onset on, with honest noise", () => {
    let lagged = 0;
    const left = Array.from(records.powerW, (powerW, k) => {
      lagged += (1 - Math.exp(-1 / 40)) * (powerW - lagged);
      expect(Number.isInteger(records.heartRateBpm[k])).toBe(true);
      return records.heartRateBpm[k]! - 0.33 * lagged;
    });
    const mean = (fromS: number, toS: number): number =>
      left.slice(fromS, toS).reduce((a, b) => a + b, 0) / (toS - fromS);
    const before = mean(900, truth.onsetS);
    const sd = Math.sqrt(
      left.slice(900, truth.onsetS).reduce((a, b) => a + (b - before) ** 2, 0) / (truth.onsetS - 900),
    );
    // 1.5 beats of wander and 0.29 of rounding.
    expect(sd).toBeGreaterThan(1.2);
    expect(sd).toBeLessThan(1.9);
    // Means of wandering noise: about three standard errors (SD 1.5, memory 55 s).
    expect(Math.abs(mean(900, 3000) - mean(3000, truth.onsetS))).toBeLessThan(1.6);
    const lateMin = (mainToS - 300 - truth.onsetS) / 60;
    expect(Math.abs(mean(mainToS - 600, mainToS) - before - truth.driftPerMin * lateMin)).toBeLessThan(2);
  });
});
