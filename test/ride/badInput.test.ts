import { chmodSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { RecordTable } from "../../main/ride/rideRecords.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { unpackGzip } from "../../main/ride/unpackGzip.ts";
import {
  FitBytes,
  fitTime,
  plainFit,
  plainFitWriter,
  RECORD_FIELDS,
  recordValues,
  START,
} from "../support/fitBytes.ts";
import { bytesOf, gpxText, isoAt, range, trkpt } from "../support/trackText.ts";
import { withoutRootsRights } from "../support/withoutRootsRights.ts";
import { seeded } from "./mutate.ts";
import { failureSaid, said } from "../support/said.ts";

const DAMAGE: ReadonlySet<string> = new Set([
  "fit-wrong-checksum",
  "fit-bytes-damaged",
  "fit-cut-short",
  "fit-wrong-size",
  "fit-foreign-end",
]);

function refusal(run: () => unknown): Failure {
  try {
    run();
  } catch (error) {
    expect(error).toBeInstanceOf(Failure);
    return error as Failure;
  }
  throw new Error("nothing was refused");
}

/** A refusal names the file, is a sentence, has a remedy, and shows nothing of the code. */
function expectPlain(failure: Failure, name: string): void {
  expect(failureSaid(failure).sentence).toContain(name);
  expect(failureSaid(failure).sentence).toMatch(/^[^\n]{10,200}\.$/);
  expect(failureSaid(failure).remedy).toMatch(/^[A-Z][^\n]{10,200}\.$/);
  expect(failureSaid(failure).sentence + failureSaid(failure).remedy).not.toMatch(/Error|undefined|NaN|\bat .*\.ts/);
}

describe("what is no ride is refused in one sentence", () => {
  test.each([
    ["empty", new Uint8Array(0), /is empty/],
    [
      "a picture",
      Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, ...range(3000).map((i) => (i * 7919) & 0xff)]),
      /not a ride file/,
    ],
    ["a web page", bytesOf("<!DOCTYPE html><html><body>Sign in</body></html>"), /not a ride file/],
    ["prose", bytesOf("Dear coach, here is my ride."), /not a ride file/],
    ["other tables", bytesOf("name,age\nEda,31\n"), /without a header/],
    ["a zip archive", Uint8Array.from([0x50, 0x4b, 3, 4, ...range(100)]), /zip archive/],
    [
      "waypoints only",
      bytesOf('<?xml version="1.0"?><gpx><wpt lat="1" lon="2"><time>2026-05-17T08:00:00Z</time></wpt></gpx>'),
      /holds no track point/,
    ],
    ["zero bytes", new Uint8Array(5000), /not a ride file/],
    ["a header alone", plainFit(0).subarray(0, 14), /holds no record/],
    ["cut before the first record", plainFit(5).subarray(0, 40), /holds no record/],
    [
      "times without values",
      bytesOf(gpxText([`<trkpt lat="undefined" lon="undefined"><time>${isoAt(0)}</time></trkpt>`])),
      /no place and no sensor/,
    ],
    ["a gzip of nothing", Uint8Array.from(gzipSync(new Uint8Array(0))), /damaged|not a ride|no ride/],
    ["a gzip header alone", Uint8Array.from([0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 3]), /nothing can be unpacked/],
    ["gzip in gzip", Uint8Array.from(gzipSync(gzipSync(plainFit(5)))), /more than once/],
  ])("%s", (_, bytes, sentence) => {
    const failure = refusal(() => parseRide(bytes, "Ride of Sunday.fit"));
    expect(failure.code).toBe("ride-not-usable");
    expect(failureSaid(failure).sentence).toMatch(sentence);
    expectPlain(failure, "Ride of Sunday.fit");
  });

  test("a gzip bomb is stopped at the bound", () => {
    const bomb = gzipSync(new Uint8Array(8 * 1024 * 1024));
    const failure = refusal(() => unpackGzip(bomb, "bomb.fit.gz", 1024 * 1024));
    expect(failureSaid(failure).sentence).toBe("bomb.fit.gz unpacks to more than 1 MB, which is no ride.");
  });

  test("a flood of records without size or time is no ride and takes no memory of it", () => {
    const fit = new FitBytes().define(0, 20, []);
    for (let i = 0; i < 100_000; i++) fit.raw(0);
    expect(failureSaid(refusal(() => parseRide(fit.finish(), "hollow.fit"))).sentence).toBe(
      "hollow.fit holds no record of a ride.",
    );
  });

  test("more records than any ride has are refused", () => {
    const table = new RecordTable("flood.fit", 3);
    for (let i = 0; i < 3; i++) table.add(i, { powerW: 200 });
    expect(failureSaid(refusal(() => table.add(3, { powerW: 200 }))).sentence).toBe(
      "flood.fit holds more than 2 million records, which is no ride.",
    );
  });

  test("a track of weeks is no single ride", () => {
    const week = range(30).map((i) => trkpt(i * 8 * 3600));
    expect(failureSaid(refusal(() => parseRide(bytesOf(gpxText(week)), "tour.gpx"))).sentence).toContain(
      "more than 7 days",
    );
  });
});

describe("what is whole is read, and what is odd is said once", () => {
  test("gzip of each format", () => {
    expect(parseRide(gzipSync(plainFit(30)), "a.fit.gz").format).toBe("fit");
    expect(parseRide(gzipSync(gpxText(range(30).map((i) => trkpt(i)))), "a.gpx.gz").format).toBe("gpx");
    expect(
      parseRide(
        gzipSync(
          "secs,watts\n" +
            range(30)
              .map((i) => `${i},200`)
              .join("\n"),
        ),
        "a.csv.gz",
      ).format,
    ).toBe("csv");
  });

  test("a gzip cut short gives its beginning", () => {
    const packed = gzipSync(plainFit(500));
    const ride = parseRide(packed.subarray(0, packed.length - 100), "cut.fit.gz");
    expect(ride.raw.count).toBeGreaterThan(100);
    expect(said(ride.warnings)[0]).toBe("The compressed file is damaged or cut short; what could be unpacked is read.");
  });

  // FIT's checksum (a CRC of 16 bits over the whole file) finds every single flipped bit.
  test("a FIT with one flipped bit, wherever it lies, is said to be damaged or refused", () => {
    const whole = plainFit(120);
    const random = seeded(71);
    expect(parseRide(whole, "whole.fit").warnings.map(({ code }) => code)).not.toContain("fit-wrong-checksum");
    const silent: string[] = [];
    for (let k = 0; k < 600; k++) {
      const bytes = Uint8Array.from(whole);
      const [at, bit] = [Math.floor(random() * bytes.length), Math.floor(random() * 8)];
      bytes[at]! ^= 1 << bit;
      try {
        const codes = parseRide(bytes, "flipped.fit").warnings.map(({ code }) => code);
        if (!codes.some((code) => DAMAGE.has(code))) silent.push(`bit ${bit} of byte ${at}: ${codes.join(" ")}`);
      } catch (error) {
        expect(error).toBeInstanceOf(Failure);
      }
    }
    expect(silent).toEqual([]);
  });

  test("one record is a ride of one record", () => {
    const ride = parseRide(plainFit(1), "one.fit");
    expect(ride.raw.count).toBe(1);
    expect(ride.grid.seconds).toBe(1);
    expect(said(ride.warnings)).toContain("The ride is only 0 s long (1 record).");
    expect(rideSummary(ride, "road").power.meanW).toBe(200);
  });

  test.each([1901, 2080])("a date of %i is not believed", (year) => {
    const text = gpxText(range(30).map((i) => trkpt(i).replaceAll("2026-", `${year}-`)));
    const ride = parseRide(bytesOf(text), "date.gpx");
    expect(ride.startUtcMs).toBeNull();
    expect(ride.elapsedS).toBe(29);
    expect(said(ride.warnings)[0]).toBe(
      `The date in the file (${year}) cannot be right; the ride is read without one and cannot be lined up with clips by the clock.`,
    );
  });

  test("a single record with a date of 1901 is left out, the others keep their times", () => {
    const points = range(60).map((i) => (i === 20 ? trkpt(i).replace("2026-", "1901-") : trkpt(i)));
    const ride = parseRide(bytesOf(gpxText(points)), "jump.gpx");
    expect(ride.raw.count).toBe(59);
    expect(ride.startUtcMs).toBe(Date.UTC(2026, 4, 17, 8));
    expect(said(ride.warnings)).toContain(
      "The times in the file jump: the longest piece is read; left out: 1 record from 17 May 1901, 08:00:20 UTC.",
    );
  });

  test("a clock set back by an hour is split, not believed: the longer piece stays", () => {
    const fit = new FitBytes().define(1, 20, RECORD_FIELDS);
    for (let i = 0; i < 300; i++) fit.data(1, recordValues(i));
    for (let i = 300; i < 400; i++) fit.data(1, recordValues(i, START - 250));
    const ride = parseRide(fit.finish(), "back.fit");
    expect(ride.raw.count).toBe(300);
    expect(said(ride.warnings)).toEqual([
      "The times in the file jump: the longest piece is read; left out: 100 records from 17 May 2026, 08:00:50 UTC.",
    ]);
  });

  test("two rides of different days in one file: the longer is read, the other named", () => {
    const fit = new FitBytes().define(1, 20, RECORD_FIELDS);
    for (let i = 0; i < 100; i++) fit.data(1, recordValues(i, START - 86_400));
    for (let i = 0; i < 300; i++) fit.data(1, recordValues(i));
    const ride = parseRide(fit.finish(), "two.fit");
    expect(ride.startUtcMs).toBe(Date.UTC(2026, 4, 17, 8));
    expect(said(ride.warnings)).toEqual([
      "The times in the file jump: the longest piece is read; left out: 100 records from 16 May 2026, 08:00:00 UTC.",
    ]);
  });

  test("records out of order are sorted and said; a block in the wrong place too", () => {
    const order = [...range(30, 30), ...range(10), 20, 10, ...range(9, 11), ...range(9, 21)];
    const fit = new FitBytes().define(1, 20, RECORD_FIELDS);
    for (const i of order) fit.data(1, recordValues(i));
    const ride = parseRide(fit.finish(), "mixed.fit");
    expect(ride.raw.count).toBe(60);
    expect([...ride.raw.timeS]).toEqual(range(60));
    expect(said(ride.warnings)).toEqual(["Some records are not in order of time; they are sorted."]);
  });

  test("sensors that are 0 throughout are absent: null in the summary, never 0", () => {
    const fit = new FitBytes().define(1, 20, RECORD_FIELDS);
    for (let i = 0; i < 60; i++) fit.data(1, [START + i, 0, 0, 2500, 0, 0, 0, 0, 0]);
    const failure = refusal(() => parseRide(fit.finish(), "dead.fit"));
    expect(failureSaid(failure).sentence).toContain("no place and no sensor value");
    const alive = new FitBytes().define(1, 20, RECORD_FIELDS);
    for (let i = 0; i < 60; i++) alive.data(1, [START + i, 0, 0, 2500, 140, 0, 0, 0, 0]);
    const ride = parseRide(alive.finish(), "heart.fit");
    const summary = rideSummary(ride, "trainer");
    expect(summary.power).toEqual({ meanW: null, maxW: null, samples: 0 });
    expect(summary.cadence.meanRpm).toBeNull();
    expect(summary.speed.meanMps).toBeNull();
    expect(summary.distanceM).toBeNull();
    expect(summary.movingS).toBeNull();
    expect(summary.firstPosition).toBeNull();
    expect(said(ride.warnings)).toEqual([
      "60 positions lie at exactly 0,0, where nobody rides: left out.",
      "Power is 0 throughout: the sensor is taken as absent.",
      "Cadence is 0 throughout: the sensor is taken as absent.",
      "Speed is 0 throughout: the sensor is taken as absent.",
      "Distance is 0 throughout: the sensor is taken as absent.",
      "Altitude is 0 throughout: the sensor is taken as absent.",
    ]);
  });

  test("every warning is one sentence, given once", () => {
    const fit = plainFitWriter(200, fitTime(Date.UTC(2026, 4, 17, 8)));
    for (let i = 0; i < 40; i++)
      fit.data(1, [START + 200 + i, 0, 0, 4500, i % 4 ? 140 : 250, 90, 160_000, 8000, i % 5 ? 200 : 3000]);
    const ride = parseRide(fit.finish({ crc: 7 }), "odd.fit");
    expect(ride.warnings.length).toBeGreaterThan(2);
    expect(new Set(ride.warnings).size).toBe(ride.warnings.length);
    for (const w of said(ride.warnings)) expect(w).toMatch(/^[A-Z0-9][^\n]*\.$/);
  });
});

describe("readRide", () => {
  test("what cannot be read is said with the path's name", async () => {
    const folder = mkdtempSync(join(tmpdir(), "ride-"));
    try {
      await expect(readRide(join(folder, "none.fit"))).rejects.toMatchObject({
        code: "file-unreadable",
        notice: { code: "ride-file-missing" },
      });
      await expect(readRide(folder)).rejects.toMatchObject({
        code: "file-unreadable",
        notice: { code: "ride-is-folder" },
      });
      const odd = join(folder, "-100% 'Größe' \"x\".fit");
      writeFileSync(odd, plainFit(30));
      expect((await readRide(odd)).fileName).toBe("-100% 'Größe' \"x\".fit");
      chmodSync(folder, 0o755);
      await withoutRootsRights(async () => expect((await readRide(odd)).fileName).toBe("-100% 'Größe' \"x\".fit"));
      chmodSync(odd, 0);
      await withoutRootsRights(async () => {
        await expect(readRide(odd)).rejects.toMatchObject({ code: "file-unreadable" });
      });
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
