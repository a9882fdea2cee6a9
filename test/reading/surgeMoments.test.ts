// A surge that is told with seconds and watts: both are of the very span that is shown.
import { describe, expect, it } from "vitest";
import { read } from "../../main/reading/read.ts";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";
import { rideOf, set, steadyColumns } from "./testRides.ts";

const plan = defaultPlan({ targetW: 185, toleranceW: 12, warmUpS: 600, coolDownS: 600 });

describe("surges close together", () => {
  // Found on a real ride: 46 s at 523 W stood in the list, 58 s at 417 W in the film, of one moment.
  it("are one moment, with length and mean of the whole of it", () => {
    const columns = steadyColumns(5400);
    set(columns.powerW, 2000, 2020, 500);
    set(columns.powerW, 2020, 2032, 120);
    set(columns.powerW, 2032, 2060, 300);
    const ride = rideOf(columns);
    const reading = read(ride, plan, []);
    const surges = reading.moments.filter(({ kind }) => kind === "surge");
    expect(surges).toHaveLength(1);
    const [{ startS, endS, numbers }] = surges as [(typeof surges)[number]];
    expect(endS - startS).toBeGreaterThan(50);
    // Summed here by itself, second by second.
    let sum = 0;
    for (let s = startS; s < endS; s += 1) sum += columns.powerW[s]!;
    expect(numbers.durationS).toBe(endS - startS);
    expect(numbers.meanW).toBeCloseTo(sum / (endS - startS), 6);
    expect(numbers.overTargetW).toBeCloseTo(sum / (endS - startS) - 185, 6);
    expect(numbers.peakW).toBeGreaterThan(450);
  });
});
