import { describe, expect, it } from "vitest";
import { fitAutoregression, innovationsOf } from "../../main/maths/autoregressiveFilter.ts";
import { seeded } from "../lineup/simulateSignals.ts";

/** x_t = 0.9 x_(t-1) - 0.2 x_(t-2) + even noise of this variance about 5. */
const NOISE_VARIANCE = 1 / 12;
function made(count: number): Float64Array {
  const next = seeded(7);
  const out = new Float64Array(count);
  for (let t = 2; t < count; t++) out[t] = 0.9 * out[t - 1]! - 0.2 * out[t - 2]! + next() - 0.5;
  return out.map((v) => v + 5);
}

const variance = (values: Float64Array) => {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length;
};

describe("autoregression of a series with holes", () => {
  it("finds the coefficients that made it, and leaves the noise", () => {
    const series = made(20_000);
    const fitted = fitAutoregression(series, 2, 1);
    expect(fitted[0]).toBeCloseTo(0.9, 1);
    expect(fitted[1]).toBeCloseTo(-0.2, 1);
    expect(variance(innovationsOf(series, fitted, 1).subarray(2)) / NOISE_VARIANCE).toBeCloseTo(1, 1);
  });

  it("regresses on values a stride apart", () => {
    const series = made(20_000);
    const apart = Float64Array.from({ length: 80_000 }, (_, t) => series[t >> 2]!);
    const fitted = fitAutoregression(apart, 2, 4);
    expect(fitted[0]).toBeCloseTo(0.9, 1);
    expect(fitted[1]).toBeCloseTo(-0.2, 1);
  });

  it("leaves holes, and what needs a value in one, out", () => {
    const series = made(5000);
    series[1000] = NaN;
    const fitted = fitAutoregression(series, 2, 1);
    expect(fitted[0]).toBeCloseTo(0.9, 1);
    const left = innovationsOf(series, fitted, 1);
    expect([998, 999, 1000, 1001, 1002, 1003].map((k) => Number.isFinite(left[k]))).toEqual([
      true,
      true,
      false,
      false,
      false,
      true,
    ]);
  });

  it("gives 0 where nothing varies or hardly anything is there", () => {
    expect([...fitAutoregression(new Float64Array(100).fill(3), 2, 1)]).toEqual([0, 0]);
    expect([...fitAutoregression(made(10), 4, 1)]).toEqual([0, 0, 0, 0]);
  });
});
