import { expect, test } from "vitest";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { ascentM } from "../../main/maths/ascent.ts";
import { makeRide } from "../support/makeRide.ts";
import { range } from "../support/trackText.ts";

test("means count zeros and skip what is missing, maxima are as recorded", () => {
  const ride = makeRide({
    powerW: [0, 100, NaN, 200, 2600, 100],
    heartRateBpm: [140, NaN, 142, 143, 143, 142],
    speedMps: [0, 5, 5, 5, 5, 5],
  });
  const summary = rideSummary(ride, "group");
  expect(summary.power).toEqual({ meanW: 600, maxW: 2600, samples: 5 });
  expect(summary.heartRate).toEqual({ meanBpm: 142, maxBpm: 143 });
  expect(summary.setting).toBe("group");
  expect(summary.movingS).toBe(5);
  expect(summary.cadence).toEqual({ meanRpm: null, maxRpm: null });
});

test("timer time is elapsed less pauses; gaps list both kinds", () => {
  const timeS = [...range(60), ...range(60, 100), ...range(60, 200)];
  const ride = makeRide({ timeS, powerW: timeS.map(() => 200), pauses: [{ startS: 59, endS: 100 }] });
  const summary = rideSummary(ride, "road");
  expect(summary.elapsedS).toBe(259);
  expect(summary.timerS).toBe(259 - 41);
  expect(summary.gaps).toEqual([
    { startS: 59, endS: 100 },
    { startS: 160, endS: 200 },
  ]);
});

test("distance is the recorder's last one, else from places", () => {
  expect(
    rideSummary(makeRide({ distanceM: range(100).map((k) => k * 7.123), speedMps: range(100).map(() => 7) }), "road")
      .distanceM,
  ).toBe(705.18);
  const path = makeRide({ latDeg: range(100).map((k) => 47 + k * 1e-4), lonDeg: range(100).map(() => 11) });
  // Meridian arc of 0.0099 degrees at 47 N on WGS 84: 1100.6 m (meridian radius 6,369,618 m, Snyder p. 24).
  expect(rideSummary(path, "road").distanceM! / 1100.6).toBeCloseTo(1, 3);
});

test("climb: a 100 m hill counts 100, noise below 2 m counts nothing, a valley counts its far side", () => {
  const hill = Float64Array.from(range(1001), (k) => 200 + (k <= 500 ? k / 5 : (1000 - k) / 5));
  expect(ascentM(hill)).toBeGreaterThan(97);
  expect(ascentM(hill)).toBeLessThanOrEqual(100);
  expect(ascentM(Float64Array.from(range(3000), (k) => 200 + 0.9 * Math.sin(k / 20)))).toBe(0);
  const valley = Float64Array.from(range(1001), (k) => 200 + (k <= 500 ? -k / 5 : -(1000 - k) / 5));
  expect(ascentM(valley)).toBeGreaterThan(97);
});

test("a ride whose file has no date has no start time", () => {
  expect(rideSummary(makeRide({ powerW: [1, 2, 3], startUtcMs: null }), "road").startTime).toBeNull();
});
