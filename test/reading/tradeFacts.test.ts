import { describe, expect, it } from "vitest";
import { read } from "../../main/reading/read.ts";
import { rideColumns } from "../../main/reading/rideColumns.ts";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";
import { targetReading } from "../../main/reading/target.ts";
import { heartRipple, rideOf, set, steadyColumns } from "./testRides.ts";
import { heldText } from "../../overlay/words/reading/driftWords.ts";

const plan = defaultPlan({ targetW: 185, toleranceW: 12, warmUpS: 600, coolDownS: 600 });

// Common practice, no source: the trade's own facts.
describe("trade facts", () => {
  it("the first reading after a 10 min warm-up falls in minute 20 to 25", () => {
    const { drift } = read(rideOf(steadyColumns(5400)), plan, []);
    expect(drift.firstAtS).toBeGreaterThanOrEqual(20 * 60);
    expect(drift.firstAtS).toBeLessThanOrEqual(25 * 60);
  });

  it("a 2 h event asks for 2 h 24 at least and 2 h 30 as aim; an 8 h one is capped at 4 h and 5 h", () => {
    const ride = read(rideOf(steadyColumns(5400)), plan, []);
    expect(targetReading(defaultPlan({ eventS: 7200 }), ride.drift, null, true)).toMatchObject({
      minimumS: 8640,
      aimS: 9000,
    });
    expect(targetReading(defaultPlan({ eventS: 28800 }), ride.drift, null, true)).toMatchObject({
      minimumS: 14400,
      aimS: 18000,
    });
  });

  it("what was held is told as the coach would: of the whole ride, of a part between long stops, and with two readings that differ", () => {
    const { drift } = read(rideOf(steadyColumns(5400)), plan, []);
    const none = { ...drift, verdict: "no drift shown", driftBeats: 1, uncertaintyBeats: 3 } as const;
    const stretch = { startS: 600, endS: 600 + 72 * 60 };
    expect(targetReading(plan, none, stretch, true)).toMatchObject({
      heldLowS: 4320,
      heldHighS: null,
      held: { kind: "to the end", leastS: 4320, whole: true, yetApart: false },
    });
    expect(heldText(targetReading(plan, none, stretch, false).held, "en")).toBe(
      "at least 1 h 12, the part between long stops was no longer",
    );
    expect(heldText(targetReading(plan, { ...none, driftBeats: 5, isShown: true }, stretch, true).held, "en")).toMatch(
      /the two readings differ all the same$/,
    );
    // Readings that differ by chance by 41 beats show nothing held; a coach who was there may say so all the same.
    const blind = { ...none, uncertaintyBeats: 41 };
    expect(targetReading(plan, blind, stretch, true)).toMatchObject({
      heldLowS: null,
      heldHighS: null,
      held: { kind: "unknown", blindBeats: 41 },
    });
    expect(targetReading(plan, blind, stretch, true, true).heldLowS).toBe(4320);
  });

  // Common practice, no source: how long a heart held is judged at a steady power, most of it in the band.
  describe("what was held is told of a steady ride alone", () => {
    const heldOf = (watts: (s: number) => number, beats: (s: number) => number = () => 0) => {
      const columns = steadyColumns(7200);
      set(columns.powerW, 0, 7200, watts);
      set(columns.heartRateBpm, 0, 7200, (s) => Math.round(124 + heartRipple(s) + beats(s)));
      const { target } = read(rideOf(columns), plan, []);
      return { text: heldText(target.held, "en"), lowS: target.heldLowS };
    };
    it.each([
      ["at the planned power", () => 185, () => 0, /^at least 1 h 40, the main part was no longer$/],
      ["60 W above the plan", () => 245, () => 0, /not steady enough to tell: less than half of the main part/],
      [
        "easier at the end",
        (s: number) => (s < 5400 ? 185 : 140),
        (s: number) => (s < 5400 ? 0 : -11),
        /not steady enough to tell: power was 4\d W lower over the last reading/,
      ],
      [
        "with a heart that falls at the same power",
        () => 185,
        (s: number) => (s < 4000 ? 0 : -14),
        /not steady enough to tell: the heart fell by 14 beats/,
      ],
    ] as const)("%s", (_, watts, beats, said) => {
      const { text, lowS } = heldOf(watts, beats);
      expect(text).toMatch(said);
      expect(lowS === null).toBe(text.startsWith("this ride was not steady"));
    });
  });

  it("a short stop is passed over by the unbroken stretch, a long one ends it", () => {
    const stopped = (seconds: number) => {
      const columns = steadyColumns(5400);
      for (const column of [columns.speedMps, columns.powerW, columns.cadenceRpm]) set(column, 2400, 2400 + seconds, 0);
      return read(rideOf(columns), plan, []).pressure.longestUnbrokenS;
    };
    expect([stopped(20), stopped(120)]).toEqual([4200, 4800 - 2520]);
  });

  it("a stretch held without a target has no share of a band", () => {
    const columns = steadyColumns(5400);
    const share = (of: typeof plan) =>
      read(rideOf(columns), of, []).moments.find(({ kind }) => kind === "steadyStretch")?.numbers.inBandPercent;
    expect(share(plan)).toBeGreaterThan(70);
    expect(share(defaultPlan())).toBeNull();
  });

  it("124 to 133 beats is a rise of 9 beats and 7.3 %", () => {
    const columns = steadyColumns(7200);
    set(columns.heartRateBpm, 3000, 7200, (s) => Math.min(133, 124 + (s - 3000) / 300) + heartRipple(s));
    const { drift } = read(rideOf(columns), plan, []);
    expect(drift.firstBpm).toBeCloseTo(124, 9);
    expect(drift.lastBpm).toBeCloseTo(133, 9);
    expect(drift.riseBeats).toBeCloseTo(9, 9);
    expect(drift.risePercent?.toFixed(1)).toBe("7.3");
  });

  it("a trainer that reads 8 W low is put right by the meter offset, and the watts stay as recorded", () => {
    const ride = rideOf(steadyColumns(5400, 168));
    const trainer = { ...plan, setting: "trainer" as const };
    expect(read(ride, trainer, []).pressure.inBandS).toBe(0);
    const reading = read(ride, { ...trainer, meterOffsetW: 8 }, []);
    expect(reading.pressure.inBandS).toBe(4200);
    expect(reading.bandW).toEqual({ low: 165, target: 177, high: 189 });
    expect(rideColumns(ride, reading).power3s?.value[3000]).toBe(168);
  });
});
