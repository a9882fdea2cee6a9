import { expect, test } from "vitest";
import { threadPageAt, turningPage } from "../../../overlay/instant/threadPageAt.ts";
import { sampleRide } from "../support/sampleRide.ts";

const page = { startS: 100, endS: 160 };

test("runs are the reading's own states, cut at the instant", () => {
  const ride = sampleRide();
  ride.pressureState.fill(5, 100, 120);
  ride.pressureState.fill(1, 120, 126);
  ride.pressureState.fill(2, 126, 160);
  const share = (rideS: number): number => (rideS - 100) / 60;
  expect(threadPageAt(ride, page, 130.5).runs).toEqual([
    { from: 0, to: share(120), stroke: "in" },
    { from: share(120), to: share(126), stroke: "off" },
    { from: share(126), to: share(130.5), stroke: "off excused" },
  ]);
  expect(threadPageAt(ride, page, 120).runs).toEqual([{ from: 0, to: share(120), stroke: "in" }]);
  expect(threadPageAt(ride, page, 99).runs).toEqual([]);
  expect(threadPageAt(ride, page, 500)).toMatchObject({ drawnTo: 1 });
});

test("a page that begins before the ride draws nothing there", () => {
  const ride = sampleRide();
  ride.pressureState.fill(5, 0, 40);
  expect(threadPageAt(ride, { startS: -60, endS: 20 }, 10).runs).toEqual([
    { from: 0, to: 60 / 80, stroke: "unknown" },
    { from: 60 / 80, to: 70 / 80, stroke: "in" },
  ]);
});

test("the road: flat on a trainer or without altitude, within the strip on a mountain, its gaps bridged", () => {
  expect(new Set(threadPageAt(sampleRide({ setting: "trainer" }), page, 130).heights)).toEqual(new Set([0.5]));
  expect(new Set(threadPageAt(sampleRide({ altitudeM: null }), page, 130).heights)).toEqual(new Set([0.5]));
  const steep = threadPageAt(
    sampleRide({ altitudeM: Float64Array.from({ length: 7800 }, (_, k) => k * 3) }),
    page,
    130,
  ).heights;
  expect([Math.min(...steep), Math.max(...steep)]).toEqual([0, 1]);
  expect(steep.every((height, k) => k === 0 || height >= steep[k - 1]!)).toBe(true);
  const gappy = sampleRide();
  gappy.altitudeM?.fill(Number.NaN, 110, 150);
  expect(threadPageAt(gappy, page, 130).heights.every((height) => Number.isFinite(height))).toBe(true);
});

test("the page stands still: only `drawnTo` and the last run grow", () => {
  const ride = sampleRide();
  const a = threadPageAt(ride, page, 130);
  const b = threadPageAt(ride, page, 130.2);
  expect(b.key).toBe(a.key);
  expect(b.heights).toEqual(a.heights);
});

test("a turning page is 2 min long and keeps 30 s when it turns", () => {
  expect(turningPage(50, 50)).toEqual({ startS: 50, endS: 170 });
  expect(turningPage(50, 169.9)).toEqual({ startS: 50, endS: 170 });
  expect(turningPage(50, 170)).toEqual({ startS: 140, endS: 260 });
  expect(turningPage(50, 10_000.5).endS).toBeGreaterThan(10_000.5);
});
