// What a surge is, and that seconds and watts told of it are of the very span that is shown.
import { describe, expect, it } from "vitest";
import { pressureLines } from "../../overlay/words/reading/pressureLines.ts";
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

describe("what counts as a surge", () => {
  const at200 = defaultPlan({ targetW: 200, toleranceW: 12, warmUpS: 600, coolDownS: 600 });
  const pushed = (watts: number, seconds: number, apartS = 0) => {
    const columns = steadyColumns(3600, 200);
    set(columns.powerW, 2000, 2000 + seconds, watts);
    if (apartS > 0) set(columns.powerW, 2000 + seconds + apartS, 2000 + 2 * seconds + apartS, watts);
    return read(rideOf(columns), at200, []);
  };
  // The 3 s mean of a push to 320 W from 200 W is over 250 W where two of the three seconds are in it: as long as the push.
  it("is 5 s long or longer", () => {
    expect(pushed(320, 4).surges).toHaveLength(0);
    expect(pushed(320, 5).surges).toHaveLength(1);
  });

  it("is more than a quarter over the target", () => {
    expect(pushed(248, 20).surges).toHaveLength(0);
    expect(pushed(252, 20).surges).toHaveLength(1);
  });

  it("is one with the next no more than 3 s on", () => {
    expect(pushed(320, 10, 3).surges).toHaveLength(1);
    expect(pushed(320, 10, 4).surges).toHaveLength(2);
  });

  it("is none in the 15 s after a stop", () => {
    const after = (waitS: number) => {
      const columns = steadyColumns(3600, 200);
      set(columns.powerW, 1500, 1530, 0);
      set(columns.cadenceRpm, 1500, 1530, 0);
      set(columns.speedMps, 1500, 1530, 0);
      set(columns.powerW, 1530 + waitS, 1535 + waitS, 320);
      return read(rideOf(columns), at200, []).surges;
    };
    expect(after(8)).toHaveLength(0);
    expect(after(16)).toHaveLength(1);
  });

  it("is said with the numbers it was judged by, those of a recorder that chooses its own steps too", () => {
    const said = (reading: ReturnType<typeof read>, language: "en" | "de") =>
      pressureLines(reading, language).find((line) => /surge|Antritt/.test(line));
    const every = pushed(320, 20);
    expect(said(every, "en")).toBe("1 surge of 5 s or more, more than 25 % over the target.");
    expect(said(every, "de")).toBe("1 Antritt von 5 s oder mehr, mehr als 25 % über der Zielleistung.");
    const columns = steadyColumns(3600, 200);
    set(columns.powerW, 2000, 2009, 320);
    const variable = read(rideOf(columns, { mode: "variable" }), at200, []);
    expect(said(variable, "en")).toBe("No surge of 10 s or more, more than 25 % over the target.");
    // Were they others, the sentence would say those.
    const other = { ...every, pressure: { ...every.pressure, surgeFrom: { lengthS: 8, overTarget: 0.4 } } };
    expect(said(other, "en")).toBe("1 surge of 8 s or more, more than 40 % over the target.");
    expect(said(other, "de")).toBe("1 Antritt von 8 s oder mehr, mehr als 40 % über der Zielleistung.");
  });
});
