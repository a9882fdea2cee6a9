// A column of the ride as the strip draws it.
import { describe, expect, it } from "vitest";
import { perPixel } from "../../renderer/strip/perPixel.ts";

describe("a column reduced to pixels", () => {
  it("keeps every least and most, whatever the width, and a gap stays a gap", () => {
    const column = Float64Array.from({ length: 1000 }, (_, k) => (k >= 300 && k < 400 ? Number.NaN : Math.sin(k) * k));
    for (const widthPx of [1, 7, 100, 999]) {
      const { least, most } = perPixel(column, 0, 1, 0, 1000, widthPx);
      const known = column.filter((value) => !Number.isNaN(value));
      expect(Math.min(...least.filter((value) => !Number.isNaN(value)))).toBe(Math.min(...known));
      expect(Math.max(...most.filter((value) => !Number.isNaN(value)))).toBe(Math.max(...known));
    }
    const { least } = perPixel(column, 0, 1, 0, 1000, 100);
    expect(Number.isNaN(least[35])).toBe(true);
    expect(Number.isNaN(least[29])).toBe(false);
  });
  it("is wider than the data without inventing any", () => {
    const { least, most } = perPixel(Float64Array.of(5, 6), 10, 1, 8, 14, 12);
    expect([...least].map((value) => (Number.isNaN(value) ? "-" : value)).join("")).toBe("----5566----");
    expect([...most]).toEqual([...least]);
  });
});
