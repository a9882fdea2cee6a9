import { describe, expect, it } from "vitest";
import { cameraMotion } from "../../../main/lineup/signals/cameraMotion.ts";

const RATE_HZ = 200;
const SECONDS = 40;
const mediaS = Float64Array.from({ length: RATE_HZ * SECONDS }, (_, k) => k / RATE_HZ);

/** A rotation about an axis (Rodrigues), as rows. */
function rotation(axis: readonly [number, number, number], deg: number): (v: readonly number[]) => number[] {
  const [s, c] = [Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)];
  const size = Math.hypot(...axis);
  const [x, y, z] = axis.map((a) => a / size) as [number, number, number];
  return ([a = 0, b = 0, d = 0]) => {
    const dot = x * a + y * b + z * d;
    return [
      a * c + (y * d - z * b) * s + x * dot * (1 - c),
      b * c + (z * a - x * d) * s + y * dot * (1 - c),
      d * c + (x * b - y * a) * s + z * dot * (1 - c),
    ];
  };
}

/** What sensors feel of a bike that turns by 12 degrees a second from 20 s on and rides on a road of some roughness till 30 s. */
function sensors(mounted: (v: readonly number[]) => number[]) {
  const turnRad = (t: number) => (t >= 20 ? (12 * Math.PI) / 180 : 0);
  const bumps = (t: number) => (t < 30 ? 2 * Math.sin(2 * Math.PI * 23 * t) : 0);
  const columns = (of: (t: number) => number[]) => {
    const rows = Array.from(mediaS, (t) => mounted(of(t)));
    const axis = (k: number) => Float64Array.from(rows, (row) => row[k]!);
    return { mediaS, axes: [axis(0), axis(1), axis(2)] as const };
  };
  return {
    gyro: columns((t) => [0, 0.3 * Math.sin(2 * Math.PI * t), turnRad(t)]),
    acceleration: columns((t) => [0, 0, 9.81 + bumps(t)]),
  };
}

describe("what a camera's own sensors tell", () => {
  it.each([
    ["upright", rotation([0, 0, 1], 0)],
    ["on its head", rotation([1, 0, 0], 180)],
    ["on its side and tilted", rotation([1, 0.4, 0.2], 73)],
  ])("is the turning about the upright, mounted %s", (_, mounted) => {
    const { swing, shake } = cameraMotion(sensors(mounted), SECONDS * 4);
    expect(swing![40]).toBeCloseTo(0, 1);
    expect(swing![100]).toBeCloseTo(12, 1);
    // A sine of 2 m/s2 deviates by 2 / sqrt(2).
    expect(shake![40]).toBeCloseTo(Math.log(Math.SQRT2), 1);
    expect(shake![140]).toBeLessThan(-3);
  });

  it("is nothing without an accelerometer, and no turning without weight", () => {
    const { gyro, acceleration } = sensors(rotation([0, 0, 1], 0));
    expect(cameraMotion({ gyro, acceleration: null }, 160)).toEqual({ swing: null, shake: null });
    const zero = acceleration.axes[0].map(() => 0);
    expect(cameraMotion({ gyro, acceleration: { mediaS, axes: [zero, zero, zero] } }, 160).swing).toBeNull();
  });

  it("leaves open what the sensors left out", () => {
    const { gyro, acceleration } = sensors(rotation([0, 0, 1], 0));
    const cut = (sensor: typeof gyro) => ({
      mediaS: sensor.mediaS.map((t) => (t > 10 && t < 12 ? NaN : t)),
      axes: sensor.axes,
    });
    const { swing, shake } = cameraMotion({ gyro: cut(gyro), acceleration: cut(acceleration) }, 160);
    expect(swing![44]).toBeNaN();
    expect(shake![44]).toBeNaN();
    expect(swing![60]).toBeCloseTo(0, 1);
  });
});
