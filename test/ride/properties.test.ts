import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { FitBytes, plainFit, RECORD_FIELDS, recordValues, START } from "../support/fitBytes.ts";
import { bytesOf, gpxText, isoAt, range, tcxText, trackpoint } from "../support/trackText.ts";

/** A ride's records as the tests vary them: whole numbers that every format carries exactly. */
const rideArb = fc.array(
  fc.record({
    step: fc.integer({ min: 1, max: 4 }),
    w: fc.integer({ min: 1, max: 900 }),
    bpm: fc.integer({ min: 90, max: 180 }),
  }),
  { minLength: 2, maxLength: 120 },
);
type Rows = readonly { readonly step: number; readonly w: number; readonly bpm: number }[];

const times = (rows: Rows) =>
  rows.reduce<number[]>((list, row) => [...list, (list[list.length - 1] ?? -row.step) + row.step], []);

function fitOf(rows: Rows, start = START, order?: readonly number[], double = false): Ride {
  const at = times(rows);
  const fit = new FitBytes().define(1, 20, RECORD_FIELDS);
  for (const i of order ?? range(rows.length)) {
    const values = recordValues(at[i]!, start);
    values[8] = rows[i]!.w;
    values[4] = rows[i]!.bpm;
    fit.data(1, values);
    if (double) fit.data(1, values);
  }
  return parseRide(fit.finish(), "a.fit");
}

const gridOf = (ride: Ride) => ({
  grid: ride.grid,
  gaps: ride.gaps,
  laps: ride.laps,
  mode: ride.mode,
  elapsedS: ride.elapsedS,
});

describe("what must not change a ride does not", () => {
  test("the start time shifts the start and nothing else", () => {
    fc.assert(
      fc.property(rideArb, fc.integer({ min: -200_000_000, max: 200_000_000 }), (rows, shift) => {
        const a = fitOf(rows);
        const b = fitOf(rows, START + shift);
        expect(gridOf(b)).toEqual(gridOf(a));
        expect(b.raw).toEqual(a.raw);
        expect(b.startUtcMs! - a.startUtcMs!).toBe(shift * 1000);
      }),
      { seed: 1, numRuns: 40 },
    );
  });

  test("the order of records in the file", () => {
    fc.assert(
      fc.property(
        rideArb.chain((rows) =>
          fc.tuple(fc.constant(rows), fc.shuffledSubarray(range(rows.length), { minLength: rows.length })),
        ),
        ([rows, order]) => {
          const shuffled = fitOf(rows, START, order);
          expect(shuffled.raw).toEqual(fitOf(rows).raw);
        },
      ),
      { seed: 2, numRuns: 40 },
    );
  });

  test("writing every record twice shifts no mean, no maximum and no grid", () => {
    fc.assert(
      fc.property(rideArb, (rows) => {
        const once = fitOf(rows);
        const twice = fitOf(rows, START, undefined, true);
        expect(gridOf(twice)).toEqual(gridOf(once));
        const { records: n1, power: p1, ...s1 } = rideSummary(once, "road");
        const { records: n2, power: p2, ...s2 } = rideSummary(twice, "road");
        expect(n2).toBe(2 * n1);
        expect(p2).toEqual({ ...p1, samples: 2 * p1.samples });
        expect(s2).toEqual(s1);
      }),
      { seed: 3, numRuns: 40 },
    );
  });

  test("splitting a file in two chained ones", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99 }), (cut) => {
        const whole = parseRide(plainFit(100), "a.fit");
        const first = plainFit(cut);
        const rest = new FitBytes().define(1, 20, RECORD_FIELDS);
        for (let i = cut; i < 100; i++) rest.data(1, recordValues(i));
        const chained = parseRide(Uint8Array.from([...first, ...rest.finish()]), "a.fit");
        expect(chained.raw).toEqual(whole.raw);
        expect(gridOf(chained)).toEqual(gridOf(whole));
      }),
      { seed: 4, numRuns: 20 },
    );
  });

  test("the format: power, heart rate and time are the same from FIT, GPX, TCX and CSV", () => {
    fc.assert(
      fc.property(rideArb, (rows) => {
        const at = times(rows);
        const gpx = gpxText(
          rows.map(
            (r, i) =>
              `<trkpt lat="47" lon="11"><time>${isoAt(at[i]!)}</time><extensions><power>${r.w}</power><hr>${r.bpm}</hr></extensions></trkpt>`,
          ),
        );
        const tcxPoints = rows.map((r, i) => {
          const heart = `<HeartRateBpm><Value>${r.bpm}</Value></HeartRateBpm>`;
          return trackpoint(at[i]!, `${heart}<Extensions><TPX><Watts>${r.w}</Watts></TPX></Extensions>`);
        });
        const tcx = tcxText([`<Lap StartTime="${isoAt(0)}"><Track>${tcxPoints.join("")}</Track></Lap>`]);
        const csv = "time,power,hr\n" + rows.map((r, i) => `${isoAt(at[i]!)},${r.w},${r.bpm}`).join("\n");
        const fit = fitOf(rows);
        for (const text of [gpx, tcx, csv]) {
          const ride = parseRide(bytesOf(text), "a.txt");
          expect(ride.startUtcMs).toBe(fit.startUtcMs);
          expect(ride.mode).toBe(fit.mode);
          for (const name of ["timeS", "powerW", "heartRateBpm"] as const)
            expect(ride.raw[name]).toEqual(fit.raw[name]);
          expect(ride.grid.power).toEqual(fit.grid.power);
          expect(ride.grid.heartRate).toEqual(fit.grid.heartRate);
        }
      }),
      { seed: 5, numRuns: 25 },
    );
  });
});
