import { describe, expect, it } from "vitest";
import { calibrate } from "../bench/calibration.ts";
import { realNoise, realNoiseCells, realNoiseRide } from "../bench/realNoise.ts";
import { cells, rangeCells, type Cell } from "../bench/calibrationRides.ts";
import { driftRanges } from "../bench/driftRange.ts";

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

  // A real ride's own noise (41 minutes indoors, run forth and back), a strong drift laid on it at a known time.
  it("claims onsets in the noise of a real heart, and none there without a drift", async () => {
    const noise = await realNoise("test/fixtures/rides/left-right-indoor.fit");
    if (noise === null) throw new Error("the fixture has power and heart rate");
    const [none, , strong] = realNoiseCells(noise);
    const made = (cell: Cell, index: number, series: number) => realNoiseRide(noise, cell, index, series);
    const found = calibrate(strong!, 24, 0, made);
    expect(found.claimed).toBeGreaterThanOrEqual(6);
    expect(found.held / found.claimed).toBeGreaterThanOrEqual(0.9);
    expect(found.errorsMin[Math.floor(found.claimed / 2)]).toBeLessThanOrEqual(5);
    expect(calibrate(none!, 24, 0, made).claimed).toBe(0);
  });

  it("claims none without a drift, and calls none drift", () => {
    const { claimed, none } = calibrate(cellNamed("none 75"), 40);
    expect(claimed).toBe(0);
    expect(none).toBeGreaterThanOrEqual(38);
  });
});

describe("the range printed beside a drift", () => {
  // Forty rides a cell; nine in ten promised, what forty rides can miss by chance allowed for (binomial, 2 SD).
  it.each(rangeCells.filter(({ minutes }) => minutes <= 75).map((cell) => [cell.name, cell] as const))(
    "holds the true drift in nine of ten rides: %s",
    (_, cell) => {
      const { printed, held } = driftRanges(cell, 40);
      expect(printed).toBeGreaterThanOrEqual(35);
      expect(held / printed).toBeGreaterThanOrEqual(0.9 - 0.095);
    },
  );
});
