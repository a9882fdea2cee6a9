import { describe, expect, test } from "vitest";
import type { Lap } from "../../main/contract/ride.ts";
import { automaticLaps } from "../../main/ride/automaticLaps.ts";

const laps = (ends: readonly number[], trigger: Lap["trigger"] = "manual"): Lap[] =>
  ends.map((endS, index) => ({ startS: index === 0 ? 0 : ends[index - 1]!, endS, trigger }));
/** Distance at a speed that changes, so that equal ways take unequal times. */
const distanceM = new Float64Array(8000);
for (let s = 1; s < 8000; s++) distanceM[s] = distanceM[s - 1]! + 8 + 2 * Math.sin(s / 300);
const at = (metres: number) => distanceM.findIndex((far) => far >= metres);

describe("laps of one length are the recorder's", () => {
  test("equal time and equal distance, the last one left out", () => {
    expect(automaticLaps(laps([600, 1200, 1800, 2400, 2710]), distanceM)).toBe("time");
    expect(automaticLaps(laps([5000, 10_000, 15_000, 20_000, 22_000].map(at)), distanceM)).toBe("distance");
  });

  test("intervals pressed by hand, few laps, and laps already automatic are left as they are", () => {
    expect(automaticLaps(laps([903, 2100, 2410, 3600, 3905, 5100]), distanceM)).toBeNull();
    expect(automaticLaps(laps([600, 5000, 5400]), distanceM)).toBeNull();
    expect(automaticLaps(laps([600, 1200, 1800, 2400, 2710], "auto"), distanceM)).toBeNull();
    // Eight minutes by hand are never the same to the second.
    expect(automaticLaps(laps([480, 963, 1441, 1925, 2100]), null)).toBeNull();
  });
});
