import type { Ride } from "../../main/contract/ride.ts";
import { freeRollDecelerationMps2, middlingRider } from "../../main/maths/roadPower.ts";
import { makeRide, type MakeRideInput } from "../support/makeRide.ts";

/** Columns of a straight, flat ride at 9 m/s with steady power and heart rate, one value a second, to be changed by a test. */
export interface Columns {
  powerW: number[];
  heartRateBpm: number[];
  cadenceRpm: number[];
  speedMps: number[];
  altitudeM: number[];
  /** Course, degrees: positions follow from it and from speed. */
  courseDeg: number[];
}

/** A beat up and down about the mean, every four seconds. */
export function heartRipple(s: number): number {
  return [0, -1, 0, 1][s % 4]!;
}

/** A steady ride of so many seconds. */
export function steadyColumns(seconds: number, watts = 185): Columns {
  const fill = (value: number) => new Array<number>(seconds).fill(value);
  return {
    powerW: fill(watts),
    // A heart that never moves is a stuck strap.
    heartRateBpm: Array.from({ length: seconds }, (_, s) => 124 + heartRipple(s)),
    cadenceRpm: fill(88),
    speedMps: fill(9),
    altitudeM: fill(100),
    courseDeg: fill(90),
  };
}

/** Sets a column to a value over some seconds. */
export function set(column: number[], fromS: number, toS: number, value: number | ((s: number) => number)): void {
  for (let s = fromS; s < toS; s++) column[s] = typeof value === "number" ? value : value(s);
}

/** Speed that rolls free on one grade from second to second, as a bicycle does that nobody presses. */
export function rollFree(columns: Columns, fromS: number, toS: number, fromMps = 9, grade = 0): void {
  let mps = fromMps;
  for (let s = fromS; s < toS; s++) {
    columns.speedMps[s] = mps;
    mps = Math.max(0, mps - freeRollDecelerationMps2(middlingRider, mps, grade));
  }
}

/** The ride of some columns; positions are laid along the course. */
export function rideOf(columns: Columns, more: Partial<MakeRideInput> = {}): Ride {
  let lat = 46;
  let lon = 7;
  const latDeg: number[] = [];
  const lonDeg: number[] = [];
  columns.speedMps.forEach((metres, s) => {
    const course = (columns.courseDeg[s]! * Math.PI) / 180;
    lat += (metres * Math.cos(course)) / 111_195;
    lon += (metres * Math.sin(course)) / (111_195 * Math.cos((lat * Math.PI) / 180));
    latDeg.push(lat);
    lonDeg.push(lon);
  });
  const { powerW, heartRateBpm, cadenceRpm, speedMps, altitudeM } = columns;
  return makeRide({ powerW, heartRateBpm, cadenceRpm, speedMps, altitudeM, latDeg, lonDeg, ...more });
}
