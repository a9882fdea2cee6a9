import { describe, expect, it } from "vitest";
import { PressureState } from "../../main/contract/reading.ts";
import { read } from "../../main/reading/read.ts";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";
import { rideOf, rollFree, set, steadyColumns } from "./testRides.ts";

const plan = defaultPlan({ targetW: 185, toleranceW: 12, warmUpS: 600, coolDownS: 600 });

describe("sums", () => {
  it("of in, below, above, off and unknown are the counted time", () => {
    const columns = steadyColumns(5400);
    for (let s = 0; s < 5400; s++) columns.powerW[s] = 185 + 60 * Math.sin(s / 40) + (s % 97 < 9 ? -400 : 0);
    for (let s = 0; s < 5400; s++) columns.powerW[s] = Math.max(0, columns.powerW[s]!);
    const ride = rideOf(columns, { pauses: [{ startS: 2500, endS: 2600 }], dropPaused: true });
    const { pressure, counted } = read(ride, plan, []);
    const counts = counted.stretches.reduce((sum, stretch) => sum + stretch.endS - stretch.startS, 0);
    expect(pressure.inBandS + pressure.belowS + pressure.aboveS + pressure.offS + pressure.unknownS).toBe(counts);
    expect(pressure.unknownS).toBeGreaterThan(90);
    expect(pressure.longestUnbrokenS).toBeGreaterThanOrEqual(pressure.longestUnbrokenStrictS);
  });

  it("the state column tells the same as the sums", () => {
    const columns = steadyColumns(3600);
    set(columns.powerW, 1500, 1530, 0);
    rollFree(columns, 1500, 1530);
    const reading = read(rideOf(columns), plan, []);
    let off = 0;
    for (let s = 600; s < 3000; s++) if ([1, 2, 3].includes(reading.columns.pressureState[s]!)) off++;
    expect(off).toBe(reading.pressure.offS);
    expect(reading.columns.pressureState[1510]).toBe(PressureState.off);
  });
});
