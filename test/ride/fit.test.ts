import { describe, expect, test } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { fitCrc } from "../../main/ride/fit/fitCrc.ts";
import {
  ENUM,
  FitBytes,
  plainFit,
  plainFitWriter,
  RECORD_FIELDS,
  recordValues,
  START,
  STRING,
  U16,
  U32,
  U8,
} from "../support/fitBytes.ts";
import { said, refused } from "../support/said.ts";

const join = (...parts: Uint8Array[]) => Uint8Array.from(parts.flatMap((p) => [...p]));
const mean = (a: Float64Array) => a.reduce((s, v) => s + v, 0) / a.length;

describe("FIT", () => {
  test("CRC of the standard check text (public FIT protocol table; CRC-16/ARC catalogue value BB3D)", () => {
    expect(fitCrc(new TextEncoder().encode("123456789"), 0, 9)).toBe(0xbb3d);
  });

  test("a sound file gives its records in our units", () => {
    const ride = parseRide(plainFit(100), "ride.fit");
    expect(ride.raw.count).toBe(100);
    expect(ride.startUtcMs).toBe(Date.UTC(2026, 4, 17, 8));
    expect(ride.raw.powerW[7]).toBe(207);
    expect(ride.raw.heartRateBpm[0]).toBe(140);
    expect(ride.raw.altitudeM[0]).toBe(400);
    expect(ride.raw.speedMps[0]).toBe(8);
    expect(ride.raw.distanceM[99]).toBe(792);
    expect(ride.raw.latDeg[0]).toBeCloseTo(47, 6);
    expect(said(ride.warnings)).toEqual([]);
  });

  test("a session of a sport that is not ridden is said (public FIT profile: session 18, sport field 5)", () => {
    const warned = (sport: number) => {
      const fit = plainFitWriter(60).define(2, 18, [
        [253, 4, U32],
        [5, 1, ENUM],
      ]);
      return parseRide(fit.data(2, [START + 59, sport]).finish(), "ride.fit").warnings.map(({ code }) => code);
    };
    const [generic, running, cycling, skiing, eBiking] = [0, 1, 2, 12, 21].map(warned);
    expect([running, skiing]).toEqual([["ride-other-sport"], ["ride-other-sport"]]);
    expect([generic, cycling, eBiking]).toEqual([[], [], []]);
  });

  test("of several sports in one file only what was ridden is read (public FIT profile: swimming is 5)", () => {
    const sessions = (sports: readonly number[], write: (end: number, start: number, sport: number) => number[]) => {
      const fit = plainFitWriter(300).define(2, 18, [
        [253, 4, U32],
        ...(write(0, 0, 0).length === 3 ? ([[2, 4, U32]] as const) : []),
        [5, 1, ENUM],
      ]);
      sports.forEach((sport, k) => fit.data(2, write(START + 100 * k + 99, START + 100 * k, sport)));
      return parseRide(fit.finish(), "ride.fit");
    };
    const codes = (ride: Ride) => ride.warnings.map(({ code }) => code);
    const full = (end: number, start: number, sport: number) => [end, start, sport];
    const swimRideRun = sessions([5, 2, 1], full);
    expect(codes(swimRideRun)).toEqual(["ride-only-ridden"]);
    expect([swimRideRun.raw.count, swimRideRun.startUtcMs]).toEqual([100, Date.UTC(2026, 4, 17, 8, 1, 40)]);
    expect(swimRideRun.raw.distanceM[0]).toBe(0);
    // A session without a start begins where the one before it ended.
    expect(sessions([5, 2, 1], (end, _, sport) => [end, sport]).raw.count).toBe(101);
    const rideRunRide = sessions([2, 1, 2], full);
    expect(rideRunRide.raw.count).toBe(200);
    expect(rideRunRide.gaps).toEqual([{ startS: 99, endS: 200, kind: "pause" }]);
    expect(codes(sessions([2, 2, 2], full))).toEqual(["ride-several-sessions"]);
    expect(codes(sessions([5, 1, 1], full))).toEqual(["ride-several-sessions", "ride-other-sport"]);
  });

  test("big-endian files read the same as little-endian ones", () => {
    const little = parseRide(plainFit(50), "a.fit");
    const big = parseRide(plainFit(50, START, true), "a.fit");
    expect(big.raw).toEqual(little.raw);
  });

  test("a chain of two recordings is one ride, and says so", () => {
    const ride = parseRide(join(plainFit(50), plainFit(50, START + 60)), "chain.fit");
    expect(ride.raw.count).toBe(100);
    expect(said(ride.warnings)).toContain("The file chains 2 recordings; they are read as one ride.");
  });

  test("a copy of the first recording behind it is left out and said", () => {
    const ride = parseRide(join(plainFit(50), plainFit(50)), "copy.fit");
    expect(ride.raw.count).toBe(50);
    expect(said(ride.warnings)).toEqual(["The file holds the same ride twice; the copy is left out."]);
  });

  test("a chain of thousands of parts ends", () => {
    const one = plainFit(1);
    const ride = parseRide(join(...Array.from({ length: 2000 }, () => one)), "endless.fit");
    expect(ride.raw.count).toBe(1);
    expect(said(ride.warnings).some((w) => w.includes("more than 100 parts"))).toBe(true);
  });

  test.each([
    ["0 with a CRC of 0, as after a crash", 0, 0],
    ["too large", 1_000_000, undefined],
    ["too small", 40, undefined],
    ["the largest number", 0xffffffff, undefined],
  ])("a data size that is %s costs no record", (_, dataSize, crc) => {
    const ride = parseRide(plainFitWriter(60).finish({ dataSize, ...(crc === undefined ? {} : { crc }) }), "size.fit");
    expect(ride.raw.count).toBe(60);
    expect(ride.warnings.length).toBe(1);
  });

  test("a wrong checksum is a warning, not a refusal", () => {
    const ride = parseRide(plainFitWriter(60).finish({ crc: 1 }), "crc.fit");
    expect(ride.raw.count).toBe(60);
    expect(said(ride.warnings)).toEqual([
      "The file's checksum does not match: it was damaged or changed, and some values may be wrong.",
    ]);
  });

  test("cut anywhere, a file gives exactly the records that are whole, or a refusal", () => {
    const bytes = plainFit(20);
    const recordBytes = 1 + RECORD_FIELDS.reduce((s, f) => s + f[1], 0);
    const first = bytes.length - 2 - 20 * recordBytes;
    for (let cut = 1; cut < bytes.length; cut++) {
      const whole = Math.min(20, Math.max(0, Math.floor((cut - first) / recordBytes)));
      if (whole === 0)
        expect(
          refused(() => parseRide(bytes.subarray(0, cut), "cut.fit")),
          `cut ${cut}`,
        ).toMatch(/cut\.fit/);
      else expect(parseRide(bytes.subarray(0, cut), "cut.fit").raw.count, `cut ${cut}`).toBe(whole);
    }
  });

  test("garbage in the middle costs the records it hit, no more", () => {
    const writer = plainFitWriter(30);
    writer.raw(0x0f, 0xff, 0x35, 0x0e, 0x0e);
    for (let i = 30; i < 60; i++) writer.data(1, recordValues(i));
    const ride = parseRide(writer.finish(), "hole.fit");
    expect(ride.raw.count).toBe(60);
    expect(said(ride.warnings)).toEqual(["5 bytes of the file are damaged; the whole records around them are read."]);
  });

  test("compressed time stamps roll over every 32 s", () => {
    const fit = new FitBytes().define(0, 0, [[0, 1, ENUM]]).data(0, [4]);
    fit
      .define(1, 20, [
        [253, 4, U32],
        [7, 2, U16],
      ])
      .data(1, [START, 100]);
    for (let i = 1; i < 100; i++) fit.data(1, [0, 100 + i], (START + i) & 31);
    const ride = parseRide(fit.finish(), "compressed.fit");
    expect(ride.raw.count).toBe(100);
    expect(ride.elapsedS).toBe(99);
    expect(ride.raw.powerW[99]).toBe(199);
  });

  test("compressed records whose definition has no time stamp work as well", () => {
    const fit = new FitBytes().define(0, 0, [[0, 1, ENUM]]).data(0, [4]);
    fit
      .define(1, 20, [
        [253, 4, U32],
        [7, 2, U16],
      ])
      .data(1, [START, 100])
      .define(2, 20, [
        [7, 2, U16],
        [3, 1, U8],
      ]);
    for (let i = 1; i < 70; i++) fit.data(2, [100 + i, 120], (START + i) & 31);
    const ride = parseRide(fit.finish(), "compressed.fit");
    expect(ride.elapsedS).toBe(69);
    expect(ride.raw.heartRateBpm[69]).toBe(120);
  });

  test("a clock that counts from power-on gives no date", () => {
    const ride = parseRide(plainFit(30, 86_400), "relative.fit");
    expect(ride.startUtcMs).toBeNull();
    expect(ride.elapsedS).toBe(29);
    expect(said(ride.warnings).some((w) => w.includes("no calendar date"))).toBe(true);
  });

  test("a developer field described after its first use, with a native number, is read for a sensor the file lacks", () => {
    const fit = new FitBytes().define(0, 0, [[0, 1, ENUM]]).data(0, [4]);
    fit.define(
      1,
      20,
      [
        [253, 4, U32],
        [3, 1, U8],
      ],
      { developer: [[5, 2, 0]] },
    );
    for (let i = 0; i < 40; i++) fit.data(1, [START + i, 140, 250 + i]);
    fit
      .define(2, 206, [
        [0, 1, U8],
        [1, 1, U8],
        [2, 1, U8],
        [3, 8, STRING],
        [14, 2, U16],
        [15, 1, U8],
      ])
      .data(2, [0, 5, U16, "watt", 20, 7]);
    const ride = parseRide(fit.finish(), "late.fit");
    expect(mean(ride.raw.powerW)).toBe(269.5);
    expect(said(ride.warnings)).toEqual(["Power comes from a field that an add-on has described in the file."]);
  });

  test("a developer field never takes the place of a native sensor, whatever its name", () => {
    const fit = new FitBytes().define(0, 0, [[0, 1, ENUM]]).data(0, [4]);
    fit
      .define(2, 206, [
        [0, 1, U8],
        [1, 1, U8],
        [2, 1, U8],
        [3, 8, STRING],
        [14, 2, U16],
        [15, 1, U8],
      ])
      .data(2, [0, 5, U16, "power", 20, 7]);
    fit.define(
      1,
      20,
      [
        [253, 4, U32],
        [7, 2, U16],
      ],
      { developer: [[5, 2, 0]] },
    );
    for (let i = 0; i < 40; i++) fit.data(1, [START + i, 200, 999]);
    expect(mean(parseRide(fit.finish(), "both.fit").raw.powerW)).toBe(200);
  });

  test("a field of unusual width is read by its own width", () => {
    const fit = new FitBytes()
      .define(0, 0, [[0, 1, ENUM]])
      .data(0, [4])
      .define(1, 20, [
        [253, 4, U32],
        [7, 4, U32],
        [3, 2, U16],
      ]);
    for (let i = 0; i < 40; i++) fit.data(1, [START + i, 300, 150]);
    const ride = parseRide(fit.finish(), "wide.fit");
    expect(mean(ride.raw.powerW)).toBe(300);
    expect(mean(ride.raw.heartRateBpm)).toBe(150);
  });

  test("invalid values are missing, never 65535 W or 255 bpm", () => {
    const fit = plainFitWriter(10).data(1, [
      START + 10,
      0x7fffffff,
      0x7fffffff,
      0xffff,
      0xff,
      0xff,
      0xffffffff,
      0xffff,
      0xffff,
    ]);
    const { raw } = parseRide(fit.finish(), "invalid.fit");
    for (const name of [
      "powerW",
      "heartRateBpm",
      "cadenceRpm",
      "speedMps",
      "distanceM",
      "altitudeM",
      "latDeg",
    ] as const) {
      expect(raw[name][10], name).toBeNaN();
    }
  });

  test("timer stops are pauses, whether or not records go on, and the last stop is none", () => {
    const fit = new FitBytes()
      .define(0, 0, [[0, 1, ENUM]])
      .data(0, [4])
      .define(1, 20, RECORD_FIELDS)
      .define(2, 21, [
        [253, 4, U32],
        [0, 1, ENUM],
        [1, 1, ENUM],
      ]);
    fit.data(2, [START, 0, 0]);
    for (let i = 0; i <= 60; i++) fit.data(1, recordValues(i));
    fit.data(2, [START + 60, 0, 4]).data(2, [START + 360, 0, 0]);
    for (let i = 360; i <= 400; i++) fit.data(1, recordValues(i));
    fit.data(2, [START + 400, 0, 4]);
    const ride = parseRide(fit.finish(), "pause.fit");
    expect(ride.gaps).toEqual([{ startS: 60, endS: 360, kind: "pause" }]);
    expect(ride.mode).toBe("every second");
    expect(ride.grid.timerS[400]).toBe(100);
    expect(ride.grid.power?.value[200]).toBeNaN();
    expect(ride.grid.power?.state[200]).toBe(4);
  });

  test("laps carry who pressed: manual, auto or unknown", () => {
    const fit = plainFitWriter(100).define(3, 19, [
      [253, 4, U32],
      [2, 4, U32],
      [7, 4, U32],
      [24, 1, ENUM],
    ]);
    fit
      .data(3, [START + 40, START, 40_000, 0])
      .data(3, [START + 80, START + 40, 40_000, 2])
      .data(3, [START + 99, START + 80, 19_000, 0xff]);
    expect(parseRide(fit.finish(), "laps.fit").laps).toEqual([
      { startS: 0, endS: 40, trigger: "manual" },
      { startS: 40, endS: 80, trigger: "auto" },
      { startS: 80, endS: 99, trigger: "unknown" },
    ]);
  });

  test.each([
    [7200, 120],
    [-12_600, -210],
    // What is no offset gives way to the zone of the place, China's.
    [0, 480],
    [-983_793_600, 480],
    [1234, 480],
  ])("a local time %i s from UTC gives an offset of %s min", (seconds, minutes) => {
    const fit = new FitBytes()
      .define(0, 0, [[0, 1, ENUM]])
      .data(0, [4])
      .define(1, 20, RECORD_FIELDS);
    for (let i = 0; i < 20; i++) {
      const values = recordValues(i);
      values[2] = Math.round((120 * 2 ** 31) / 180);
      fit.data(1, values);
    }
    fit
      .define(3, 34, [
        [253, 4, U32],
        [5, 4, U32],
      ])
      .data(3, [START, START + seconds]);
    expect(parseRide(fit.finish(), "zone.fit").utcOffsetMin).toBe(minutes);
  });

  test("left share comes from the balance field when it names the side", () => {
    const fit = new FitBytes()
      .define(0, 0, [[0, 1, ENUM]])
      .data(0, [4])
      .define(1, 20, [
        [253, 4, U32],
        [7, 2, U16],
        [30, 1, U8],
      ]);
    fit
      .data(1, [START, 200, 0x80 | 48])
      .data(1, [START + 1, 200, 48])
      .data(1, [START + 2, 200, 0xff]);
    const { leftPercent } = parseRide(fit.finish(), "balance.fit").raw;
    expect(leftPercent[0]).toBe(52);
    expect(leftPercent[1]).toBeNaN();
    expect(leftPercent[2]).toBeNaN();
  });

  test("file without records is refused with its name and a remedy", () => {
    const fit = new FitBytes()
      .define(0, 0, [[0, 1, ENUM]])
      .data(0, [5])
      .finish();
    expect(refused(() => parseRide(fit, "workout.fit"))).toMatch(/workout\.fit holds no record of a ride\. Choose/);
  });
});
