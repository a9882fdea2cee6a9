import { describe, expect, it } from "vitest";
import {
  accelerationAtMps2,
  freeRollDecelerationMps2,
  middlingRider,
  roadPowerW,
  steadySpeedMps,
} from "../../main/maths/roadPower.ts";

// Martin, Milliken, Cobb, McFadden & Coggan, J Appl Biomech 1998;14:276-291, worked example: 213 W. The inputs are those
// that open physics code re-creates the example with; the parts below were computed apart from this program.
describe("the road power model on the paper's worked example", () => {
  const rider = { massKg: 90, dragAreaM2: 0.2565, rollingCoefficient: 0.0032, airDensityKgPerM3: 1.2234 };
  const speedMps = 471.8 / 56.42;
  // 2.94 m/s out of 310 degrees, on a way towards 340.
  const wind = 2.94 * Math.cos(((310 - 340) * Math.PI) / 180);
  const parts = roadPowerW(rider, {
    speedMps,
    grade: 0.003,
    headwindMps: wind,
    // The paper takes the kinetic term from the speeds at both ends: (v1^2 - v0^2) / (2 t), over the mean speed.
    accelerationMps2: (8.45 ** 2 - 8.28 ** 2) / 2 / 56.42 / speedMps,
  });

  it("comes to 213.159 W, the paper's 213 W", () => {
    expect(Math.abs(parts.totalW - 213.159)).toBeLessThan(0.001);
    expect(Math.round(parts.totalW)).toBe(213);
  });

  it("splits it as the example does", () => {
    expect(speedMps + wind).toBeCloseTo(10.908398, 5);
    expect(parts.airW).toBeCloseTo(158.803, 2);
    expect(parts.rollingW).toBeCloseTo(23.626, 2);
    expect(parts.bearingsW).toBeCloseTo(1.369, 2);
    expect(parts.climbW).toBeCloseTo(22.149, 2);
    expect(parts.accelerationW).toBeCloseTo(2.305, 2);
  });
});

describe("the middling rider", () => {
  it.each([
    [-0.02, 12.6587],
    [0, 10.0942],
    [0.02, 7.6214],
    [0.04, 5.6271],
    [0.06, 4.2593],
  ])("rides 240 W on grade %f at %f m/s (computed apart from this program)", (grade, speedMps) => {
    expect(steadySpeedMps(middlingRider, 240, grade)).toBeCloseTo(speedMps, 3);
  });

  it("slows by 0.27 m/s2 at 36 km/h and 0.49 at 50 km/h when nobody pedals", () => {
    expect(freeRollDecelerationMps2(middlingRider, 10, 0)).toBeCloseTo(0.27, 2);
    expect(freeRollDecelerationMps2(middlingRider, 50 / 3.6, 0)).toBeCloseTo(0.49, 2);
  });

  it("rolls a -4 % road at 44 km/h and a -6 % one at 55 km/h at most", () => {
    expect(Math.abs(steadySpeedMps(middlingRider, 0, -0.04) * 3.6 - 44)).toBeLessThan(1);
    expect(Math.abs(steadySpeedMps(middlingRider, 0, -0.06) * 3.6 - 55)).toBeLessThan(1);
  });

  it("neither gains nor loses speed where the power is just enough", () => {
    const stretch = {
      speedMps: steadySpeedMps(middlingRider, 200, 0.01),
      grade: 0.01,
      headwindMps: 0,
      accelerationMps2: 0,
    };
    expect(accelerationAtMps2(middlingRider, 200, stretch)).toBeCloseTo(0, 6);
  });
});
