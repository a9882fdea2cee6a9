import { describe, expect, it } from "vitest";
import { runCase, telemetryCases } from "./lineupCases.ts";

/** A small share of `npm run bench -- lineup`; where a clip belongs nowhere or elsewhere, none may be sure and wrong. */
describe("telemetry held against rides of which the truth is known", () => {
  it.each(Object.keys(telemetryCases))("%s: never sure and wrong", (name) => {
    expect(runCase(name, telemetryCases[name], 300, 5).wrong).toBe(0);
  });

  it("is sure of the rider's own camera, and says how well", () => {
    const { n, sure, beyond } = runCase("own", telemetryCases["own camera, 2.5 m of noise"], 340, 20);
    expect(sure).toBeGreaterThanOrEqual(n - 1);
    expect(beyond).toBeLessThanOrEqual(2);
  });
});
