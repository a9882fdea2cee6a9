import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { clipTelemetry } from "../../../main/footage/telemetry/clipTelemetry.ts";
import { fitUtc, gps9UtcMs, gpsuUtcMs } from "../../../main/footage/telemetry/gpsTime.ts";
import { klvItems, klvRows } from "../../../main/footage/telemetry/klv.ts";
import { parseGpmf } from "../../../main/footage/telemetry/parseGpmf.ts";
import { sampleTimes } from "../../../main/footage/telemetry/sampleTimes.ts";
import { rawPayloads } from "./wrapTelemetry.ts";

const raw = (name: string) => new Uint8Array(readFileSync(join(import.meta.dirname, "../../fixtures/telemetry", name)));
const payloads = (...names: string[]) =>
  names
    .flatMap((name) => rawPayloads(raw(name)))
    .map((bytes, k) => ({ startS: k * 1.001, endS: (k + 1) * 1.001, bytes }));
const view = (...bytes: number[]) => new DataView(Uint8Array.from(bytes).buffer);
const word = (text: string) => [...text].map((c) => c.charCodeAt(0));
const streamsOf = (name: string, key: string) =>
  payloads(name).map((payload) => ({
    payloadStartS: payload.startS,
    payloadEndS: payload.endS,
    stream: parseGpmf(payload.bytes)
      .flatMap((d) => d.streams)
      .find((s) => s.key === key)!,
  }));

describe("items as the public GPMF specification writes them", () => {
  it("pads one byte by three and fifteen by one", () => {
    // DEMO 'b' 1 1 <value> 0 0 0, then DEMO 'b' 1 15 <values> 0: the specification's own examples of alignment
    const items = klvItems(
      view(
        ...word("DEMO"),
        0x62,
        1,
        0,
        1,
        0xfe,
        0,
        0,
        0,
        ...word("DEM2"),
        0x62,
        1,
        0,
        15,
        ...Array(15).fill(1),
        0,
        ...word("DMO3"),
        0x4c,
        4,
        0,
        1,
        0,
        1,
        0,
        0,
      ),
    );
    expect(items.map((item) => item.key)).toEqual(["DEMO", "DEM2", "DMO3"]);
    expect(klvRows(items[0]!, "")![0]![0]).toBe(-2);
    expect(items[1]!.repeat).toBe(15);
    expect(klvRows(items[2]!, "")![0]![0]).toBe(65536);
  });

  it("reads the specification's nest: DEVC with DVID 0x1001 and DVNM Camera", () => {
    const bytes = [
      ...word("DEVC"),
      0,
      4,
      0,
      7,
      ...word("DVID"),
      0x4c,
      4,
      0,
      1,
      0,
      0,
      0x10,
      1,
      ...word("DVNM"),
      0x63,
      1,
      0,
      6,
      ...word("Camera"),
      0,
      0,
    ];
    expect(parseGpmf(Uint8Array.from(bytes))).toEqual([{ id: 0x1001, name: "Camera", streams: [] }]);
  });

  it("reads structures, fixed point and three axes", () => {
    const sf = [...word("FACE"), 0x3f, 6, 0, 1, 0, 7, 0x3f, 0x80, 0, 0, 0, 0];
    expect([...klvRows(klvItems(view(...sf))[0]!, "Sf")![0]!]).toEqual([7, 1]);
    expect(klvRows(klvItems(view(...word("QNUM"), 0x71, 4, 0, 1, 0xff, 0xff, 0x80, 0))[0]!, "")![0]![0]).toBe(-0.5);
    expect(
      klvRows(klvItems(view(...word("GYRO"), 0x73, 6, 0, 2, 0, 1, 0, 2, 0, 3, 0, 4, 0, 5, 0, 6))[0]!, "")!.map(
        (row) => [...row],
      ),
    ).toEqual([
      [1, 2, 3],
      [4, 5, 6],
    ]);
    expect(klvRows(klvItems(view(...word("LONG"), 0x3f, 12, 0, 1, ...Array(12).fill(0)))[0]!, "f[8]L")).toBeNull();
  });

  it("survives truncation at every byte and lying lengths", () => {
    const bytes = raw("one-payload.gpmf");
    for (let cut = 0; cut < bytes.length; cut += 7) expect(Array.isArray(parseGpmf(bytes.subarray(0, cut)))).toBe(true);
    let seed = 3;
    for (let round = 0; round < 300; round++) {
      const broken = bytes.slice();
      for (let k = 0; k < 5; k++) {
        seed = (seed * 1_103_515_245 + 12_345) % 2 ** 31;
        broken[seed % 400] = seed >> 8;
      }
      expect(() => clipTelemetry("x", [{ startS: 0, endS: 1, bytes: broken }], 0)).not.toThrow();
    }
  });
});

describe("real streams", () => {
  // Figures: two other decoders' agreement on these files (listed in test/fixtures/README.md).
  it("has first and last position, counts and top speed of a clean lock", () => {
    const rows = streamsOf("clean-lock.gpmf", "GPS5").flatMap(({ stream }) => stream.rows);
    expect(rows).toHaveLength(308);
    expect([...rows[0]!]).toEqual([42.3425835, -8.7526142, 58.512, 0.173, 0.12]);
    expect([...rows[307]!]).toEqual([42.3423429, -8.752681, 56.686, 0.618, 0.69]);
    expect(Math.max(...rows.map((row) => row[3]!))).toBe(7.333);
    expect(streamsOf("clean-lock.gpmf", "ACCL").flatMap(({ stream }) => stream.rows)).toHaveLength(3369);
  });

  it("finds satellite time on an even grid of samples, to the millisecond", () => {
    const streams = streamsOf("clean-lock.gpmf", "GPS5");
    const points = streams.map(({ stream }) => ({
      n: stream.totalSamples! - stream.rows.length,
      ms: gpsuUtcMs(stream.utcText!)!,
    }));
    // 55 ms a sample: 18.1818 Hz
    for (const point of points) expect(Math.abs(point.ms - points[0]!.ms - 55 * point.n)).toBeLessThanOrEqual(1);
  });

  it("tells UTC from a clean lock", () => {
    const { utc, positions, lacks } = clipTelemetry("x", payloads("clean-lock.gpmf"), 0);
    expect(lacks).toEqual([]);
    expect(positions!.latDeg).toHaveLength(308);
    expect(Math.abs(utc!.startUtcMs - Date.UTC(2019, 0, 3, 16, 33, 34, 94))).toBeLessThan(60);
    expect(utc!.sigmaS).toBeGreaterThanOrEqual(1);
  });

  it("claims neither time nor place without lock, though positions move", () => {
    const { utc, positions, lacks } = clipTelemetry("x", payloads("no-lock.gpmf"), 0);
    expect(utc).toBeNull();
    expect(positions).toBeNull();
    expect(lacks).toEqual([{ kind: "no fix" }]);
  });

  it("does not trust a fix that comes with a precision of 9999, nor the first seconds after lock", () => {
    const { positions } = clipTelemetry("x", payloads("lock-lost.gpmf"), 0);
    // good in payload 0, lost until 14; only 9 payloads follow, under 10 s
    expect(positions).toBeNull();
  });

  it("does not take the sample counter of two chapters for one", () => {
    const chapters = payloads("chapter-a.gpmf", "chapter-b.gpmf");
    const streams = chapters.map((payload) => ({
      payloadStartS: payload.startS,
      payloadEndS: payload.endS,
      stream: parseGpmf(payload.bytes)[0]!.streams.find((s) => s.key === "GPS5")!,
    }));
    const times = sampleTimes(streams);
    expect(times).toHaveLength(41 + 59);
    for (let k = 1; k < times.length; k++) expect(times[k]! - times[k - 1]!).toBeGreaterThan(0);
    expect(times[41]).toBeCloseTo(chapters[2]!.startS, 1);
  });

  it("keeps devices apart, and third-party keys", () => {
    const devices = parseGpmf(raw("two-devices.gpmf"));
    expect(devices.map((device) => device.streams.some((s) => s.key === "GPS5"))).toEqual([true, false]);
    expect(devices[1]!.streams.find((s) => s.key === "acc1")!.rows).toHaveLength(82);
  });
});

describe("satellite time", () => {
  it("reads dates and refuses garbage", () => {
    expect(gpsuUtcMs("190103163334.094")).toBe(Date.UTC(2019, 0, 3, 16, 33, 34, 94));
    for (const text of ["5509100082240400", "", "191303163334.094", "190103253334.094", "1901031633"])
      expect(gpsuUtcMs(text)).toBeNull();
  });

  // No real file seen: from the specification's bytes only (days since 2000-01-01, seconds of the day).
  it("reads GPS9 with a time and fix for each sample", () => {
    expect(gps9UtcMs(8767, 36_000.5)).toBe(Date.UTC(2024, 0, 2, 10, 0, 0, 500));
    const l = (value: number) => [(value >>> 24) & 255, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];
    const row = (k: number) => [
      ...l(470_000_000 + k),
      ...l(80_000_000),
      ...l(400_000),
      ...l(8000),
      ...l(800),
      ...l(8767),
      ...l(36_000_000 + 100 * k),
      0,
      150,
      0,
      3,
    ];
    const scales = [1e7, 1e7, 1000, 1000, 100, 1, 1000, 100, 1].flatMap(l);
    const payload = (p: number) => {
      const rows = Array.from({ length: 10 }, (_, k) => row(10 * p + k)).flat();
      const body = [
        ...word("TYPE"),
        0x63,
        1,
        0,
        9,
        ...word("lllllllSS"),
        0,
        0,
        0,
        ...word("SCAL"),
        0x6c,
        4,
        0,
        9,
        ...scales,
        ...word("GPS9"),
        0x3f,
        32,
        0,
        10,
        ...rows,
      ];
      const stream = [...word("STRM"), 0, 1, body.length >> 8, body.length & 255, ...body];
      return {
        startS: p,
        endS: p + 1,
        bytes: Uint8Array.from([...word("DEVC"), 0, 1, stream.length >> 8, stream.length & 255, ...stream]),
      };
    };
    const { positions, utc } = clipTelemetry(
      "x",
      Array.from({ length: 15 }, (_, p) => payload(p)),
      0,
    );
    expect(positions!.mediaS).toHaveLength(150);
    expect(positions!.speedMps[0]).toBe(8);
    expect(positions!.mediaS[25]).toBeCloseTo(2.5, 6);
    expect(utc).toMatchObject({ source: "GPS9", startUtcMs: Date.UTC(2024, 0, 2, 10, 0, 0) });
  });

  it("leaves outliers out and wants ten readings", () => {
    const points = Array.from({ length: 20 }, (_, k) => ({
      mediaS: k,
      utcMs: 1.7e12 + 1000 * k + (k === 5 ? 18_000 : 0),
    }));
    expect(fitUtc(points, "GPSU")!.startUtcMs).toBe(1.7e12);
    expect(fitUtc(points.slice(0, 9), "GPSU")).toBeNull();
  });
});
