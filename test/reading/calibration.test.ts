import { describe, expect, it } from "vitest";
import { calibrate } from "../bench/calibration.ts";
import { cells } from "../bench/calibrationRides.ts";

// Forty rides of one cell of each kind; `npm run bench` runs 400 of every cell and prints the table.
const cellNamed = (name: string) => {
  const cell = cells.find((one) => one.name === name);
  if (!cell) throw new Error(`no cell ${name}`);
  return cell;
};

describe("the onset's honesty", () => {
  it("claims onsets where they are plain, close to the truth, and its intervals hold it", () => {
    const { claimed, held, errorsMin } = calibrate(cellNamed("onset 120 quick"), 40);
    expect(claimed).toBeGreaterThanOrEqual(8);
    expect(held / claimed).toBeGreaterThanOrEqual(0.9);
    expect(errorsMin[Math.floor(errorsMin.length / 2)]).toBeLessThanOrEqual(5);
  });

  it("claims none without a drift, and calls none drift", () => {
    const { claimed, none } = calibrate(cellNamed("none 75"), 40);
    expect(claimed).toBe(0);
    expect(none).toBeGreaterThanOrEqual(38);
  });
});
