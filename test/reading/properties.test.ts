import { rideSummary } from "../../main/ride/rideSummary.ts";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { read } from "../../main/reading/read.ts";
import { readingJson } from "../../main/reading/readingJson.ts";
import { rideColumns } from "../../main/reading/rideColumns.ts";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import { makeRide } from "../support/makeRide.ts";
import { rideOf, set, steadyColumns } from "./testRides.ts";

/** Every number anywhere in a value. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  if (Array.isArray(value)) return value.flatMap(numbersIn);
  if (value !== null && typeof value === "object" && !ArrayBuffer.isView(value))
    return Object.values(value).flatMap(numbersIn);
  return [];
}

const nonsense = (low: number, high: number) =>
  fc.option(
    fc.record({
      base: fc.double({ min: low, max: high, noNaN: true }),
      jump: fc.double({ min: 0, max: high - low, noNaN: true }),
      every: fc.integer({ min: 1, max: 400 }),
      holes: fc.integer({ min: 0, max: 9 }),
    }),
  );

const rides = fc
  .record({
    seconds: fc.integer({ min: 1, max: 4000 }),
    powerW: nonsense(0, 3000),
    heartRateBpm: nonsense(0, 300),
    cadenceRpm: nonsense(0, 250),
    speedMps: nonsense(0, 40),
    altitudeM: nonsense(-500, 9000),
    latDeg: nonsense(-90, 90),
    lonDeg: nonsense(-180, 180),
    gapAt: fc.integer({ min: 0, max: 4000 }),
    gapS: fc.integer({ min: 0, max: 2000 }),
    pause: fc.boolean(),
  })
  .map(({ seconds, gapAt, gapS, pause, ...channels }) => {
    const timeS = Array.from({ length: seconds }, (_, i) => i + (i > gapAt ? gapS : 0));
    const columns = Object.fromEntries(
      Object.entries(channels).map(([name, channel]) => [
        name,
        channel === null
          ? undefined
          : timeS.map((t, i) =>
              channel.holes > 0 && i % 10 < channel.holes
                ? NaN
                : channel.base + (Math.floor(t / channel.every) % 2) * channel.jump,
            ),
      ]),
    );
    const span = { startS: gapAt, endS: gapAt + gapS };
    return makeRide({ ...columns, timeS, pauses: pause && gapS > 0 && gapAt < seconds - 1 ? [span] : [] });
  });

const plans = fc.constantFrom(
  defaultPlan(),
  defaultPlan({ targetW: 185, eventS: 7200 }),
  defaultPlan({ targetW: 185, setting: "trainer", meterOffsetW: -8 }),
  defaultPlan({ setting: "group", heartLowBpm: 110, heartHighBpm: 130, warmUpS: 60, coolDownS: 0 }),
);

describe("any ride of gaps and nonsense", () => {
  it("gives finite numbers or null, in the reading, its JSON and its words", () => {
    fc.assert(
      fc.property(rides, plans, (ride, plan) => {
        const reading = read(ride, plan, []);
        for (const number of numbersIn({ ...reading, columns: null })) expect(Number.isFinite(number)).toBe(true);
        for (const number of numbersIn(readingJson({}, reading, "en"))) expect(Number.isFinite(number)).toBe(true);
        const text = readingText(reading, rideSummary(ride, plan.setting)).join("\n");
        expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
        const { pressure, counted } = reading;
        const judgedS = counted.stretches.reduce((sum, stretch) => sum + stretch.endS - stretch.startS, 0);
        expect(pressure.inBandS + pressure.belowS + pressure.aboveS + pressure.offS + pressure.unknownS).toBe(judgedS);
        expect(rideColumns(ride, reading).pressureState).toHaveLength(ride.grid.seconds);
        expect(reading.moments.map((moment) => moment.rank)).toEqual(reading.moments.map((_, index) => index + 1));
      }),
      { numRuns: 60 },
    );
  });
});

describe("what changes nothing", () => {
  const columns = steadyColumns(3600);
  for (let s = 0; s < 3600; s++) columns.powerW[s] = Math.round(185 + 30 * Math.sin(s / 50));
  set(columns.powerW, 1500, 1520, 0);
  set(columns.powerW, 2000, 2010, 320);
  const plan = defaultPlan({ targetW: 185 });
  const told = (ride: ReturnType<typeof makeRide>) => JSON.stringify(readingJson({}, read(ride, plan, []), "en"));

  it("is the day and hour of the ride", () => {
    const at = (startUtcMs: number) => told(rideOf(columns, { startUtcMs }));
    expect(at(Date.UTC(2031, 9, 26, 0, 30))).toBe(at(Date.UTC(2026, 4, 17, 8)));
  });

  it("is a record written twice", () => {
    const twice = (values: number[]) => values.flatMap((value) => [value, value]);
    const timeS = columns.powerW.flatMap((_, s) => [s, s]);
    const { powerW, heartRateBpm, cadenceRpm, speedMps, altitudeM } = columns;
    const bare = { powerW, heartRateBpm, cadenceRpm, speedMps, altitudeM };
    const doubled = Object.fromEntries(Object.entries(bare).map(([name, values]) => [name, twice(values)]));
    expect(told(makeRide({ ...doubled, timeS, mode: "every second" }))).toBe(
      told(makeRide({ ...bare, mode: "every second" })),
    );
  });
});
