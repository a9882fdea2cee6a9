import { expect, it } from "vitest";
import { placeRides } from "../../main/lineup/placeRides.ts";
import { madeRide } from "./madeRide.ts";

const course = (m: number) => 60 * Math.sin(m / 400);
const start = Date.UTC(2024, 5, 1, 8, 0, 0);
const shown = madeRide(1800, { courseDeg: (t) => course(8 * t), startUtcMs: start });

it("puts a rider who follows 6 s behind on the shown ride's time by satellite time, borne out by the tracks", () => {
  // switched on 100 s later; at its time t it is where the shown rider was at t + 94
  const other = madeRide(1600, { courseDeg: (t) => course(8 * (t + 94)), startUtcMs: start + 100_000 });
  const at = 94;
  other.raw.latDeg.set(shown.raw.latDeg.subarray(at, at + 1600));
  other.raw.lonDeg.set(shown.raw.lonDeg.subarray(at, at + 1600));
  const [first, second] = placeRides(shown, [other]);
  expect(first).toMatchObject({ shown: true, offsetS: 0 });
  expect(second).toMatchObject({ shown: false, offsetS: 100, uncertaintyS: 1 });
});

it("uses the tracks where a clock is wrong, and says how coarse that is", () => {
  const other = madeRide(1000, { startUtcMs: start + 3_600_000 });
  other.raw.latDeg.set(shown.raw.latDeg.subarray(200, 1200));
  other.raw.lonDeg.set(shown.raw.lonDeg.subarray(200, 1200));
  const second = placeRides(shown, [other])[1]!;
  expect(Math.abs(second.offsetS - 200)).toBeLessThan(1);
  expect(second.uncertaintyS).toBe(8);
});

it("claims nothing for a ride elsewhere", () => {
  const other = madeRide(1000, { start: { latDeg: 51, lonDeg: 4 }, startUtcMs: start });
  expect(placeRides(shown, [other])[1]!.uncertaintyS).toBeNull();
});

it("does not take a clock 12 s off for right because the riders were close", () => {
  // 4 s behind, clock 12 s ahead: the true offset is 0, and the range given must hold it
  const other = madeRide(1500, { startUtcMs: start + 12_000 });
  other.raw.latDeg.set(shown.raw.latDeg.subarray(0, 1496), 4);
  other.raw.lonDeg.set(shown.raw.lonDeg.subarray(0, 1496), 4);
  const second = placeRides(shown, [other])[1]!;
  expect(Math.abs(second.offsetS)).toBeLessThanOrEqual(second.uncertaintyS!);
});
