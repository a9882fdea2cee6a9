import { beforeAll, describe, expect, test } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import type { DemoTruth } from "../../main/demo/demoTruth.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { parseRide } from "../../main/ride/parseRide.ts";

// The demo's road is known at every metre, so what is worked out from its recorded file can be held to the truth.
describe("the demo's known course", () => {
  let truth: DemoTruth;
  let ride: Ride;
  beforeAll(() => {
    truth = demoRide(1);
    ride = parseRide(demoRideFile(truth), "demo.fit");
  });

  test("is read as it was written", () => {
    expect(ride.raw.count).toBe(truth.records.count);
    expect(ride.startUtcMs).toBe(truth.startUtcMs);
    expect(ride.utcOffsetMin).toBe(truth.utcOffsetMin);
    expect(ride.laps.some((lap) => lap.trigger === "manual")).toBe(truth.lapPressesS.length > 0);
  });

  test("gradient within 1 % grade for 95 % of the moving seconds", () => {
    const errors: number[] = [];
    for (let k = 30; k < ride.grid.seconds - 30; k++) {
      const ours = ride.grid.gradientPercent![k]!;
      if (Number.isNaN(ours)) continue;
      errors.push(Math.abs(ours - truth.course.gradientPercentAt(ride.grid.distanceM![k]!)));
    }
    errors.sort((a, b) => a - b);
    expect(errors.length).toBeGreaterThan(0.9 * ride.grid.seconds);
    expect(errors[Math.floor(errors.length * 0.95)]).toBeLessThan(1);
  });

  test("heading within 10 degrees for 95 % of the moving seconds", () => {
    const errors: number[] = [];
    for (let k = 30; k < ride.grid.seconds - 30; k++) {
      const ours = ride.grid.headingDeg![k]!;
      if (Number.isNaN(ours)) continue;
      const off = ours - (truth.course.headingRadAt(ride.grid.distanceM![k]!) * 180) / Math.PI;
      errors.push(Math.abs(off - 360 * Math.round(off / 360)));
    }
    errors.sort((a, b) => a - b);
    expect(errors[Math.floor(errors.length * 0.95)]).toBeLessThan(10);
  });

  test("every sharp bend shows as a small radius", () => {
    const seconds = (m: number) => ride.grid.distanceM!.findIndex((d) => d >= m);
    for (const corner of truth.course.corners) {
      const k = seconds(corner.atM);
      if (k < 5 || k > ride.grid.seconds - 10) continue;
      const around = ride.grid.turnRadiusM!.slice(k - 4, k + 6).filter((r) => !Number.isNaN(r));
      expect(Math.min(...around), `corner at ${corner.atM} m`).toBeLessThan(2.5 * corner.radiusM + 15);
    }
  });
});
