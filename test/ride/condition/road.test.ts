import geodesic from "geographiclib-geodesic";
import { describe, expect, test } from "vitest";
import { makeRide } from "../../support/makeRide.ts";
import { range } from "../../support/trackText.ts";
import { seeded } from "../mutate.ts";
import { said } from "../../support/said.ts";

const earth = geodesic.Geodesic.WGS84;

/** A known course: grade in percent as a function of distance, rolling like a road (no jump in it). */
const gradeAt = (m: number) => 4 * Math.sin(m / 250) + 2 * Math.sin(m / 90 + 1);
const heightAt = (m: number) => 300 + 10 * (1 - Math.cos(m / 250)) + 1.8 * (Math.cos(1) - Math.cos(m / 90 + 1));

/** Rides the known course at a changing speed, as a barometer with 0.2 m steps and noise would record it. */
function rideCourse(sigmaM: number, seed = 1) {
  const random = seeded(seed);
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  let m = 0;
  const speedMps: number[] = [];
  const distanceM: number[] = [];
  const altitudeM: number[] = [];
  for (let k = 0; k < 1800; k++) {
    const v = 8 - 0.5 * gradeAt(m);
    speedMps.push(v);
    distanceM.push(Math.round(m * 100) / 100);
    altitudeM.push(Math.round((heightAt(m) + sigmaM * normal()) * 5) / 5);
    m += v;
  }
  return { speedMps, distanceM, altitudeM };
}

describe("gradient", () => {
  test.each([0, 0.1])("within 1 %% of the known course for 95 %% of the seconds, barometer noise %f m", (sigmaM) => {
    const course = rideCourse(sigmaM);
    const { gradientPercent } = makeRide(course).grid;
    const errors = range(1700, 50).map((k) => Math.abs(gradientPercent![k]! - gradeAt(course.distanceM[k]!)));
    errors.sort((a, b) => a - b);
    expect(errors[Math.floor(errors.length * 0.95)]).toBeLessThan(1);
    expect(errors[Math.floor(errors.length / 2)]).toBeLessThan(0.4);
  });

  test("an even slope is its grade exactly, uphill positive", () => {
    const distanceM = range(200).map((k) => k * 6);
    const up = makeRide({
      distanceM,
      speedMps: range(200).map(() => 6),
      altitudeM: distanceM.map((d) => 100 + 0.05 * d),
    });
    expect(up.grid.gradientPercent![100]).toBeCloseTo(5, 9);
    const down = makeRide({
      distanceM,
      speedMps: range(200).map(() => 6),
      altitudeM: distanceM.map((d) => 100 - 0.07 * d),
    });
    expect(down.grid.gradientPercent![100]).toBeCloseTo(-7, 9);
  });

  test("none below 2 m/s, none beyond 25 %, none without altitude", () => {
    const slow = makeRide({
      distanceM: range(200),
      speedMps: range(200).map(() => 1),
      altitudeM: range(200).map((k) => k * 0.05),
    });
    expect(slow.grid.gradientPercent!.every(Number.isNaN)).toBe(true);
    const cliff = makeRide({
      distanceM: range(200).map((k) => k * 6),
      speedMps: range(200).map(() => 6),
      altitudeM: range(200).map((k) => k * 2),
    });
    expect(cliff.grid.gradientPercent!.every(Number.isNaN)).toBe(true);
    expect(makeRide({ distanceM: range(200), speedMps: range(200).map(() => 6) }).grid.gradientPercent).toBeNull();
  });

  test("a variable recording of an even slope keeps its grade between samples", () => {
    const timeS = range(60).map((i) => i * 4);
    const ride = makeRide({
      timeS,
      distanceM: timeS.map((t) => t * 7),
      speedMps: timeS.map(() => 7),
      altitudeM: timeS.map((t) => 100 + t * 7 * 0.03),
    });
    for (let k = 20; k < 200; k++) expect(ride.grid.gradientPercent![k]).toBeCloseTo(3, 6);
  });
});

/** Places along a path given by its course at each second, 8 m apart (GeographicLib's direct problem). */
function pathOf(courses: readonly number[]) {
  let lat = 47;
  let lon = 11;
  const latDeg: number[] = [];
  const lonDeg: number[] = [];
  for (const course of courses) {
    latDeg.push(lat);
    lonDeg.push(lon);
    const to = earth.Direct(lat, lon, course, 8);
    lat = to.lat2!;
    lon = to.lon2!;
  }
  return { latDeg, lonDeg, speedMps: courses.map(() => 8) };
}

describe("heading and radius", () => {
  test("a straight road has its course and no radius", () => {
    const { grid } = makeRide(pathOf(range(100).map(() => 37)));
    expect(grid.headingDeg![50]).toBeCloseTo(37, 1);
    expect(grid.turnRadiusM![50]).toBe(Infinity);
  });

  test("a circle of 40 m radius: radius within 5 %, heading unwrapped over several rounds", () => {
    // A chord of 8 m on a circle of 40 m turns by 2 asin(8 / 80) = 11.478 degrees (school geometry).
    const turn = (2 * Math.asin(8 / 80) * 180) / Math.PI;
    const { grid } = makeRide(pathOf(range(120).map((k) => k * turn)));
    for (let k = 10; k < 110; k++) expect(grid.turnRadiusM![k]! / 40).toBeCloseTo(1, 1);
    expect(grid.headingDeg![110]! - grid.headingDeg![10]!).toBeCloseTo(100 * turn, 0);
  });

  test("turning left runs below 0", () => {
    const turn = -(2 * Math.asin(8 / 80) * 180) / Math.PI;
    const { headingDeg } = makeRide(pathOf(range(120).map((k) => k * turn))).grid;
    expect(headingDeg![110]! - headingDeg![10]!).toBeCloseTo(100 * turn, 0);
    expect(headingDeg![110]).toBeLessThan(0);
  });

  test("a right-angled corner turns by 90 degrees within 10 s at a small radius", () => {
    const { grid } = makeRide(pathOf(range(60).map((k) => (k < 30 ? 0 : 90))));
    expect(grid.headingDeg![34]! - grid.headingDeg![25]!).toBeCloseTo(90, 0);
    expect(Math.min(...grid.turnRadiusM!.slice(25, 35))).toBeLessThan(15);
  });

  test("none while standing", () => {
    const path = pathOf(range(60).map(() => 0));
    path.speedMps.fill(0.5, 20, 40);
    expect(makeRide(path).grid.headingDeg![30]).toBeNaN();
  });
});

describe("moving, distance, speed, climb", () => {
  test("moving is speed of 1 m/s, without speed cadence, in a pause neither", () => {
    const speedMps = range(100).map((k) => (k >= 40 && k < 60 ? 0.4 : 7));
    expect(makeRide({ speedMps }).grid.movingS[99]).toBe(79);
    const cadenceRpm = range(100).map((k) => (k >= 40 && k < 60 ? 0 : 85));
    expect(makeRide({ cadenceRpm }).grid.movingS[99]).toBe(79);
    const paused = makeRide({
      speedMps: range(100).map(() => 7),
      pauses: [{ startS: 40, endS: 60 }],
      dropPaused: true,
    });
    expect(paused.grid.movingS[99]).toBe(80);
    expect(paused.grid.moving[50]).toBe(0);
  });

  test("without a speed in the file it comes from the places, within 1 %", () => {
    const { latDeg, lonDeg } = pathOf(range(100).map(() => 200));
    const ride = makeRide({ latDeg, lonDeg });
    expect(ride.grid.speed!.value[50]! / 8).toBeCloseTo(1, 2);
    expect(ride.raw.speedMps[50]).toBeNaN();
    expect(said(ride.warnings)).toEqual([
      "Speed is not in the file; it is worked out from the distance between places.",
    ]);
  });

  test("a recorder's count that starts again is carried on", () => {
    const ride = makeRide({
      distanceM: range(200).map((k) => (k < 100 ? k * 8 : (k - 100) * 8)),
      speedMps: range(200).map(() => 8),
    });
    expect(ride.grid.distanceM![199]).toBe(792 + 792);
  });

  test("a cadence that no legs turn is rejected", () => {
    const cadenceRpm = range(60).map((k) => (k === 30 ? 239 : 85));
    const { cadence } = makeRide({ cadenceRpm }).grid;
    expect(cadence!.state[30]).toBe(2);
    const sprint = range(60).map((k) => (k >= 25 && k < 40 ? 150 : 95));
    expect(makeRide({ cadenceRpm: sprint }).grid.cadence!.value[30]).toBe(150);
  });
});
