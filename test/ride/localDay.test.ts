import { describe, expect, test } from "vitest";
import { rideDateText } from "../../overlay/words/dateText.ts";
import { localStartMs } from "../../main/reading/plan/targetFor.ts";
import { makeRide } from "../support/makeRide.ts";

/** A ride of some hours at one place; the file may say an offset, as FIT does for its end. */
function rideAt(latDeg: number, lonDeg: number, start: string, hours: number, utcOffsetMin: number | null = null) {
  const n = hours * 60;
  const fill = (value: number) => new Array<number>(n).fill(value);
  return makeRide({
    timeS: Array.from({ length: n }, (_, i) => i * 60),
    latDeg: fill(latDeg),
    lonDeg: fill(lonDeg),
    speedMps: fill(8),
    startUtcMs: Date.parse(start),
    utcOffsetMin,
  });
}
const local = (ride: ReturnType<typeof rideAt>) => new Date(localStartMs(ride)!).toISOString().slice(0, 16);

// Zone rules: IANA time zone database, as in Node. Europe changes at 01:00 UTC on the last Sundays of March and October.
describe("the local day and start of a ride", () => {
  test.each([
    ["spring, before the change", "2026-03-29T00:30:00Z", "2026-03-29T01:30"],
    ["spring, after it", "2026-03-29T01:30:00Z", "2026-03-29T03:30"],
    ["autumn, before the change", "2026-10-25T00:30:00Z", "2026-10-25T02:30"],
    ["autumn, after it", "2026-10-25T01:30:00Z", "2026-10-25T02:30"],
  ])("%s: by the place where the file says nothing", (_, start, expected) => {
    expect(local(rideAt(46.5, 8, start, 2))).toBe(expected);
  });

  test("a file that says the offset of its end is right at its start, over both changes", () => {
    expect(local(rideAt(46.5, 8, "2026-03-29T00:15:00Z", 3, 120))).toBe("2026-03-29T01:15");
    expect(local(rideAt(46.5, 8, "2026-10-25T00:15:00Z", 3, 60))).toBe("2026-10-25T02:15");
    // A computer left on another zone's clock keeps it: that is what was read off it.
    expect(local(rideAt(46.5, 8, "2026-05-17T08:00:00Z", 3, -240))).toBe("2026-05-17T04:00");
  });

  test("around midnight the day is the rider's", () => {
    const late = rideAt(46.5, 8, "2026-05-16T22:30:00Z", 1);
    expect(rideDateText(late.startUtcMs!, late.utcOffsetMin, "en")).toBe("17 May 2026");
    const west = rideAt(45.5, -122.6, "2026-05-17T02:30:00Z", 1);
    expect(rideDateText(west.startUtcMs!, west.utcOffsetMin, "en")).toBe("16 May 2026");
    expect(local(rideAt(46.5, 8, "2026-05-16T21:59:00Z", 1))).toBe("2026-05-16T23:59");
  });

  test("zones of a quarter of an hour", () => {
    expect(rideAt(27.7, 85.3, "2026-05-17T02:00:00Z", 1).utcOffsetMin).toBe(5 * 60 + 45);
    // Chatham Islands: +12:45, in their summer +13:45.
    expect(rideAt(-43.95, -176.55, "2026-06-17T02:00:00Z", 1).utcOffsetMin).toBe(12 * 60 + 45);
    expect(rideAt(-43.95, -176.55, "2026-12-17T02:00:00Z", 1).utcOffsetMin).toBe(13 * 60 + 45);
  });

  test("a ride of many hours is dated by its start", () => {
    expect(local(rideAt(46.5, 8, "2026-05-16T20:00:00Z", 5))).toBe("2026-05-16T22:00");
  });
});
