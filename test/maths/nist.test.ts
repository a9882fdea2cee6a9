import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { leastSquares } from "../../main/maths/leastSquares.ts";
import { meanOf, standardDeviationOf } from "../../main/maths/statistics.ts";

// NIST Statistical Reference Datasets (StRD), public domain; certified values as published there. Digits are scored as
// LRE = -log10(|computed - certified| / |certified|).
const lre = (computed: number | undefined, certified: number) =>
  computed === certified ? 15 : -Math.log10(Math.abs((computed as number) - certified) / Math.abs(certified));

const columnsOf = (name: string) => {
  const rows = readFileSync(new URL(`../fixtures/segmented/${name}`, import.meta.url), "utf8")
    .trim()
    .split("\n")
    .slice(1)
    .map((line) => line.split(",").map(Number));
  return rows[0]!.map((_, column) => Float64Array.from(rows, (row) => row[column]!));
};

describe("linear regression", () => {
  it("holds 9 digits on Norris", () => {
    const [y, x] = columnsOf("nist_norris.csv") as [Float64Array, Float64Array];
    const fit = leastSquares([new Float64Array(36).fill(1), x], y);
    expect(lre(fit?.coefficients[0], -0.262323073774029)).toBeGreaterThan(9);
    expect(lre(fit?.coefficients[1], 1.00211681802045)).toBeGreaterThan(9);
    expect(lre(fit?.standardErrors[0], 0.232818234301152)).toBeGreaterThan(9);
    expect(lre(fit?.standardErrors[1], 0.429796848199937e-3)).toBeGreaterThan(9);
    expect(lre(fit?.residualDeviation, 0.884796396144373)).toBeGreaterThan(9);
    expect(lre(fit?.residualSumSquares, 26.6173985294224)).toBeGreaterThan(9);
  });

  it("holds 7 digits on Longley", () => {
    const [y, ...x] = columnsOf("nist_longley.csv") as [Float64Array, ...Float64Array[]];
    const fit = leastSquares([new Float64Array(16).fill(1), ...x], y);
    const certified = [
      -3482258.63459582, 15.0618722713733, -0.035819179292591, -2.02022980381683, -1.03322686717359,
      -0.0511041056535807, 1829.15146461355,
    ];
    certified.forEach((value, index) => expect(lre(fit?.coefficients[index], value)).toBeGreaterThan(7));
    expect(lre(fit?.residualDeviation, 304.854073561965)).toBeGreaterThan(7);
  });

  it.each([
    ["Wampler1", [1, 1, 1, 1, 1, 1], 6],
    ["Wampler2", [1, 0.1, 0.01, 0.001, 0.0001, 0.00001], 6],
  ])("holds 6 digits on %s", (_, certified, digits) => {
    const x = Array.from({ length: 21 }, (_unused, i) => i);
    const powers = certified.map((_unused, power) => Float64Array.from(x, (value) => value ** power));
    const y = Float64Array.from(x, (value) => certified.reduce((sum, b, power) => sum + b * value ** power, 0));
    const fit = leastSquares(powers, y);
    certified.forEach((value, index) => expect(lre(fit?.coefficients[index], value)).toBeGreaterThan(digits));
  });

  it("refuses columns that say the same", () => {
    const x = Float64Array.from([1, 2, 3, 4, 5]);
    expect(leastSquares([x, x.map((value) => 2 * value)], [1, 2, 3, 4, 6])).toBeNull();
  });
});

describe("mean and deviation", () => {
  it("hold 9 digits on Michelso", () => {
    const [speed] = columnsOf("nist_michelso.csv") as [Float64Array];
    expect(lre(meanOf(speed), 299.8524)).toBeGreaterThan(9);
    expect(lre(standardDeviationOf(speed), 0.0790105478190518)).toBeGreaterThan(9);
  });

  // NumAcc3, values from memory: it catches a variance made in one pass.
  it("hold on NumAcc3", () => {
    const values = Float64Array.from({ length: 1001 }, (_, i) =>
      i === 0 ? 1000000.2 : i % 2 === 1 ? 1000000.1 : 1000000.3,
    );
    expect(lre(meanOf(values), 1000000.2)).toBeGreaterThan(14);
    expect(lre(standardDeviationOf(values), 0.1)).toBeGreaterThan(8);
  });
});
