import { describe, expect, it } from "vitest";
import { clockCases, runCase, telemetryCases } from "./lineupCases.ts";

/** A small share of `npm run bench -- lineup`; where a clip belongs nowhere or elsewhere, none may be sure and wrong. */
describe("telemetry held against rides of which the truth is known", () => {
  it.each(Object.keys(telemetryCases))("%s: never sure and wrong", (name) => {
    expect(runCase(name, telemetryCases[name], 300, 5).wrong).toBe(0);
  });

  it("is exact where the carrier's own file is there", () => {
    const { n, sure, wrong, medianErrorS } = runCase(
      "carrier",
      telemetryCases["other rider, whose own file is there"],
      500,
      15,
    );
    expect(wrong).toBe(0);
    expect(sure).toBeGreaterThanOrEqual(n - 4);
    expect(medianErrorS).toBeLessThan(0.5);
  });

  it("is sure of the rider's own camera, and says how well", () => {
    const { n, sure, beyond } = runCase("own", telemetryCases["own camera, 2.5 m of noise"], 340, 20);
    expect(sure).toBeGreaterThanOrEqual(n - 1);
    expect(beyond).toBeLessThanOrEqual(2);
  });
});

describe("clips by their camera's clock, and marks by hand, of which the truth is known", () => {
  it.each(Object.keys(clockCases))("%s: never sure and wrong", (name) => {
    const { n, sure, wrong, beyond } = runCase(name, clockCases[name], 300, 60);
    expect(wrong).toBe(0);
    expect(beyond).toBeLessThanOrEqual(0.05 * n);
    if (/other camera|reset|wrongly/.test(name)) expect(sure).toBe(0);
    else expect(sure).toBeGreaterThan(0.7 * n);
  });
});
