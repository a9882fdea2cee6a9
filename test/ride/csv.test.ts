import { describe, expect, test } from "vitest";
import { parseRide } from "../../main/ride/parseRide.ts";
import { csvColumn } from "../../main/ride/csvColumns.ts";
import { bytesOf, isoAt, range } from "../support/trackText.ts";
import { said, refused } from "../support/said.ts";

const read = (text: string) => parseRide(bytesOf(text), "ride.csv");
const rows = (n: number, row: (i: number) => string, line = "\n") => range(n).map(row).join(line);

describe("CSV", () => {
  test.each([
    ["Power (W)", "powerW", 1],
    ["power_w", "powerW", 1],
    ["Watts", "powerW", 1],
    ["power [kW]", "powerW", 1000],
    ["heart_rate", "heartRateBpm", 1],
    ["Heart Rate (bpm)", "heartRateBpm", 1],
    ["HR", "heartRateBpm", 1],
    ["heartRateBpm", "heartRateBpm", 1],
    ["cad", "cadenceRpm", 1],
    ["Cadence (rpm)", "cadenceRpm", 1],
    ["Speed (km/h)", "speedMps", 1 / 3.6],
    ["speed_mps", "speedMps", 1],
    ["Speed mph", "speedMps", 0.44704],
    ["kph", "speedMps", 1 / 3.6],
    ["Speed", "speedMps", null],
    ["Distance (mi)", "distanceM", 1609.344],
    ["distance_m", "distanceM", 1],
    ["Altitude (ft)", "altitudeM", 0.3048],
    ["ele", "altitudeM", 1],
    ["Latitude", "latDeg", 1],
    ["lng", "lonDeg", 1],
    ["Temperature (F)", "temperatureC", 5 / 9],
    ["secs", "time", 1],
    ["time (ms)", "time", 0.001],
    ["Elapsed Time (min)", "time", 60],
    ["moving power average", undefined, undefined],
    ["power zone", undefined, undefined],
    ["", undefined, undefined],
  ])("the header %s", (header, column, scale) => {
    const found = csvColumn(header);
    expect(found?.column).toBe(column);
    expect(found?.scale).toBe(scale);
  });

  test("dates, units in brackets, quotes, a BOM and CRLF", () => {
    const ride = read(
      `\uFEFF"Time","Power (W)","Heart Rate","Speed (km/h)","Altitude (ft)"\r\n` +
        rows(60, (i) => `"${isoAt(i)}",${200 + i},140,36,1000`, "\r\n"),
    );
    expect(ride.startUtcMs).toBe(Date.UTC(2026, 4, 17, 8));
    expect(ride.raw.powerW[59]).toBe(259);
    expect(ride.raw.speedMps[0]).toBeCloseTo(10, 9);
    expect(ride.raw.altitudeM[0]).toBeCloseTo(304.8, 9);
    expect(said(ride.warnings)).toEqual([]);
  });

  test("quoted cells hold separators and doubled marks, are empty, or stand beside spaces", () => {
    const ride = read(`time,title,power,hr\n` + rows(60, (i) => `"${i}", "Hill, ""long"", ${i}" ,"${200 + i}",""`));
    expect([...ride.raw.powerW.subarray(0, 2)]).toEqual([200, 201]);
    expect(ride.raw.count).toBe(60);
    expect(ride.raw.heartRateBpm[0]).toBeNaN();
  });

  test("semicolons with decimal commas, titles before the header, blank lines", () => {
    const ride = read(
      "Export of a ride\nRider;Nobody\n\nSekunden?;x\nsecs;power;speed (km/h)\n\n" + rows(60, (i) => `${i};201,5;36,0`),
    );
    expect(ride.raw.count).toBe(60);
    expect(ride.raw.powerW[0]).toBe(201.5);
    expect(ride.raw.speedMps[0]).toBeCloseTo(10, 9);
    expect(ride.startUtcMs).toBeNull();
    expect(said(ride.warnings)).toEqual([
      "The file has no calendar date. It cannot be lined up with clips by the clock.",
    ]);
  });

  test.each([
    ["seconds since 1970", (i: number) => String(1_779_004_800 + i)],
    ["milliseconds since 1970", (i: number) => String(1_779_004_800_000 + i * 1000)],
    ["a date and a blank", (i: number) => isoAt(i).replace("T", " ")],
    ["the day first, with dots", (i: number) => `17.5.2026 8:00:${String(i).padStart(2, "0")}`],
    ["the month first, with AM", (i: number) => `"5/17/2026, 8:00:${String(i).padStart(2, "0")} AM"`],
  ])("times as %s", (_, time) => {
    const ride = read("timestamp,watts\n" + rows(30, (i) => `${time(i)},200`));
    expect(ride.startUtcMs).toBe(Date.UTC(2026, 4, 17, 8));
    expect(ride.elapsedS).toBe(29);
  });

  test("a spreadsheet in another language, one byte a letter", () => {
    const text =
      "Zeit;Leistung [W];Herzfrequenz;Trittfrequenz;Geschwindigkeit (km/h);H\u00f6he (m)\r\n" +
      rows(60, (i) => `17.05.2026 08:00:${String(i).padStart(2, "0")};${200 + (i % 3)};140;88;28,8;300,5`);
    const ride = parseRide(
      Uint8Array.from(text, (letter) => letter.charCodeAt(0)),
      "zeit.csv",
    );
    expect(ride.raw.speedMps[5]).toBeCloseTo(8, 9);
    expect(ride.raw.altitudeM[5]).toBe(300.5);
    expect(ride.raw.powerW[4]).toBe(201);
    expect(ride.startUtcMs).toBe(Date.UTC(2026, 4, 17, 8));
  });

  test("clock times count from the start; date and clock in two columns are one time", () => {
    const clock = (i: number) => `0:0${Math.floor(i / 60)}:${String(i % 60).padStart(2, "0")}`;
    expect(read("time,watts\n" + rows(90, (i) => `${clock(i)},200`)).elapsedS).toBe(89);
    const ride = read("date,time,watts\n" + rows(90, (i) => `2026-05-17,${clock(i)},200`));
    expect(ride.startUtcMs).toBe(Date.UTC(2026, 4, 17));
    expect(ride.elapsedS).toBe(89);
  });

  test("speed and distance without a unit are taken by their size, and said", () => {
    const fast = read("secs,speed,distance\n" + rows(100, (i) => `${i},34.2,${(i * 0.0095).toFixed(4)}`));
    expect(fast.raw.speedMps[0]).toBeCloseTo(9.5, 6);
    expect(fast.raw.distanceM[99]).toBeCloseTo(940.5, 1);
    expect(said(fast.warnings)).toEqual(
      expect.arrayContaining([
        "The speed column names no unit; it is taken as km/h.",
        "The distance column names no unit; it is taken as km.",
      ]),
    );
    const slow = read("secs,speed,distance\n" + rows(100, (i) => `${i},9.5,${i * 9.5}`));
    expect(slow.raw.speedMps[0]).toBe(9.5);
    expect(slow.raw.distanceM[99]).toBe(940.5);
  });

  test("lines that are damaged or have no time are counted; empty cells are missing", () => {
    const ride = read("secs,watts,hr\n0,200,140\n1,,140\nx,y\n2,n/a,141\n\n3,220,142\n4,Infinity,0x10\n");
    expect(ride.raw.count).toBe(5);
    expect([...ride.raw.powerW]).toEqual([200, NaN, NaN, 220, NaN]);
    expect(ride.raw.heartRateBpm[4]).toBeNaN();
    expect(said(ride.warnings)).toContain("Left out: 1 of 6 lines, without a time or damaged.");
  });

  test("a quotation mark left open costs no other line", () => {
    const ride = read("secs,watts\n" + rows(60, (i) => (i === 20 ? `${i},"200` : `${i},200`)));
    expect(ride.raw.count).toBe(60);
    expect(ride.raw.powerW.every((w) => w === 200)).toBe(true);
  });

  test("no header, no time, or no readable time is refused with what to do", () => {
    expect(refused(() => read("1,2,3\n4,5,6\n"))).toMatch(
      /without a header that names a time and a value\. Give the columns a header/,
    );
    expect(refused(() => read("power,hr\n200,140\n"))).toMatch(/without a header/);
    expect(refused(() => read("time,power\nsoon,200\nlater,210\n"))).toMatch(
      /No line of ride\.csv has a time that can be read\./,
    );
  });
});
