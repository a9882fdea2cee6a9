import { describe, expect, it } from "vitest";
import { PressureState } from "../../main/contract/reading.ts";
import { exposureOf } from "../../main/reading/baseFigures.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import { noticeText } from "../../overlay/words/notices/noticeText.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { makeRide } from "../support/makeRide.ts";
import { rideOf, set, steadyColumns } from "./testRides.ts";

// Mathiassen and Winkel, Ergonomics 1991;34:1455: exposure level by the time of each unbroken period at that level; the
// share of time, not the number of periods, is what each cell holds. Worked by hand from that definition, from memory.
describe("exposure variation analysis", () => {
  it("puts every second into the class of its unbroken period", () => {
    const { in: inside, below, off, unknown } = PressureState;
    const of = (state: number, seconds: number) => new Array<number>(seconds).fill(state);
    const states = Uint8Array.from([
      ...of(inside, 9),
      ...of(below, 12),
      ...of(inside, 45),
      ...of(off, 3),
      ...of(inside, 600),
      ...of(unknown, 5),
      ...of(inside, 59),
    ]);
    const exposure = exposureOf(states, [{ startS: 0, endS: states.length }]);
    expect(exposure.fromS).toEqual([0, 10, 30, 60, 180, 600]);
    expect(exposure.inBandS).toEqual([9, 0, 45 + 59, 0, 0, 600]);
    expect(exposure.belowS).toEqual([0, 12, 0, 0, 0, 0]);
    expect(exposure.offS).toEqual([3, 0, 0, 0, 0, 0]);
  });
});

describe("the figures a coach of base rides asks for next", () => {
  it("are those of an independent sum over a real ride's records", async () => {
    const ride = await readRide("test/fixtures/rides/long-power-heart.fit.gz");
    const reading = read(ride, defaultPlan({ targetW: 180 }), []);
    let joules = 0;
    let beats = 0;
    let beatsCount = 0;
    for (let i = 0; i < ride.raw.count; i++) {
      const at = Math.floor(ride.raw.timeS[i]!);
      if (!reading.counted.stretches.some(({ startS, endS }) => at >= startS && at < endS)) continue;
      if (Number.isFinite(ride.raw.powerW[i])) joules += ride.raw.powerW[i]!;
      if (Number.isFinite(ride.raw.heartRateBpm[i])) {
        beats += ride.raw.heartRateBpm[i]!;
        beatsCount++;
      }
    }
    // Held samples and lost spikes part the two by less than a half per cent.
    expect(reading.base.workKj! / (joules / 1000)).toBeGreaterThan(0.995);
    expect(reading.base.workKj! / (joules / 1000)).toBeLessThan(1.005);
    expect(Math.abs(reading.base.meanBpm! - beats / beatsCount)).toBeLessThan(0.5);
    const lines = readingText(reading, rideSummary(ride, "road")).join("\n");
    expect(lines).toContain("By the hour:");
    expect(lines).toMatch(
      /In the main part: mean power \d+ W, mean heart rate \d+, mean cadence \d+ while pedalling, work \d+ kJ\./,
    );
  });

  it("an hour's row and a fade from the first to the last hour", () => {
    const columns = steadyColumns(4 * 3600);
    set(columns.powerW, 2.5 * 3600, 4 * 3600, 160);
    const reading = read(rideOf(columns), defaultPlan({ targetW: 185, warmUpS: 0, coolDownS: 0 }), []);
    expect(reading.base.hours).toHaveLength(4);
    expect(reading.base.hours[0]).toMatchObject({ startS: 0, endS: 3600, meanW: 185, meanRpm: 88, meanMps: 9 });
    expect(reading.base.hours[0]!.wattsPerBeat).toBeCloseTo(185 / 124, 6);
    expect(reading.base.fadePercent).toBeCloseTo((100 * 25) / 185, 6);
    expect(reading.base.workKj).toBeCloseTo((2.5 * 185 + 1.5 * 160) * 3.6, 6);
    expect(readingText(reading, rideSummary(rideOf(columns), "road")).join("\n")).toContain(
      "Power faded by 14 % from the first to the last whole hour.",
    );
  });

  it("riding on easier for half an hour is a fade, and no cool-down", () => {
    const columns = steadyColumns(7200);
    set(columns.powerW, 0, 400, 110);
    set(columns.powerW, 5400, 7200, 150);
    const { counted } = read(rideOf(columns), defaultPlan({ targetW: 185 }), []);
    expect(counted).toMatchObject({ source: "settled power", endS: 6600 });
    set(columns.powerW, 5400, 7200, 80);
    expect(Math.abs(read(rideOf(columns), defaultPlan({ targetW: 185 }), []).counted.endS - 5400)).toBeLessThan(60);
  });

  it("each part between long stops has its reading, and the one told says why", () => {
    const columns = steadyColumns(3 * 3600);
    for (const column of [columns.speedMps, columns.powerW, columns.cadenceRpm]) set(column, 4000, 4700, 0);
    const ride = rideOf(columns);
    const reading = read(ride, defaultPlan({ targetW: 185, warmUpS: 600, coolDownS: 600 }), []);
    expect(reading.parts.map(({ startS, endS, told }) => [startS, endS, told])).toEqual([
      [600, 4000, false],
      [4700, 10_200, true],
    ]);
    expect(reading.parts[0]!.drift.firstBpm).toBeCloseTo(124, 6);
    expect(readingText(reading, rideSummary(ride, "road")).join("\n")).toContain("the longest part shows most");
  });

  it("without a target the steadiest hour is offered as a start for one, and nothing is judged by it", () => {
    const reading = read(rideOf(steadyColumns(5400, 178)), defaultPlan(), []);
    expect(reading.bandW).toBeNull();
    expect(reading.warnings.map((one) => noticeText(one, "en", "command")).join("\n")).toMatch(
      /The steadiest hour \(0:10:00 to 1:10:00\) had a mean of 178 W: a place to start from for a target, not a target\./,
    );
    const short = read(rideOf(steadyColumns(3000, 178)), defaultPlan(), []);
    expect(short.warnings.map(({ code }) => code)).not.toContain("reading-target-offer");
  });

  it("a ride that its file calls indoors is asked about, not judged by the road", () => {
    const columns = steadyColumns(3600);
    set(columns.powerW, 1500, 1530, 0);
    const ride = { ...rideOf(columns), indoors: true };
    const reading = read(ride, defaultPlan(), []);
    expect(reading.breaks[0]).toMatchObject({ reason: "cannot tell", lapse: false });
    expect(reading.warnings.map(({ code }) => code)).toContain("reading-indoors");
    const trainer = read(ride, defaultPlan({ setting: "trainer" }), []);
    expect(trainer.warnings.map(({ code }) => code)).not.toContain("reading-indoors");
  });

  it("left and right over time where the file has them", async () => {
    const ride = await readRide("test/fixtures/rides/left-right-indoor.fit");
    const { base } = read(ride, defaultPlan({ setting: "trainer" }), []);
    expect(base.hours[0]?.leftPercent).toBeGreaterThan(40);
    expect(base.hours[0]?.leftPercent).toBeLessThan(60);
  });

  it("nothing is made of nothing", () => {
    const { base } = read(makeRide({ speedMps: [1, 2, 3] }), defaultPlan(), []);
    expect(base).toMatchObject({ meanW: null, meanBpm: null, workKj: null, hours: [], fadePercent: null });
  });
});
