import { expect, it } from "vitest";
import {
  frameStartsFrom,
  frameTimesBytes,
  rideColumnsBytes,
  rideColumnsFrom,
  signalsBytes,
  signalsFrom,
} from "../../main/contract/columnBytes.ts";
import type { ClipSignals } from "../../main/contract/signals.ts";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";
import { read } from "../../main/reading/read.ts";
import { rideColumns } from "../../main/reading/rideColumns.ts";
import { makeRide } from "../support/makeRide.ts";

const every = (length: number, of: (k: number) => number): number[] => Array.from({ length }, (_, k) => of(k));

it("what the desk packs the window unpacks, value for value, gaps and columns that are not there too", () => {
  const rides = [
    makeRide({ powerW: every(1301, (k) => (k % 50 === 0 ? NaN : 180 + (k % 7))) }),
    makeRide({
      powerW: every(1801, (k) => 190 + (k % 5)),
      heartRateBpm: every(1801, (k) => 130 + (k % 3)),
      speedMps: every(1801, () => 8.25),
      altitudeM: every(1801, (k) => 100 + k / 20),
      latDeg: every(1801, (k) => 47 + k * 1e-5),
      lonDeg: every(1801, () => -0.1),
    }),
  ];
  for (const ride of rides) {
    const columns = rideColumns(ride, read(ride, defaultPlan({ targetW: 190 }), []));
    const { power30sW, distanceM, timerS } = ride.grid;
    const there = rideColumnsFrom(rideColumnsBytes(columns, ride.grid).buffer);
    expect(there).toEqual({ ...columns, power30sW, distanceM, timerS });
  }
});

it("frames and signals come back as they went", () => {
  const frames = {
    timescale: 30000,
    ticks: Float64Array.of(0, 1001, 2002),
    keyframes: Uint32Array.of(0),
    endTicks: 3003,
  };
  expect([...frameStartsFrom(frameTimesBytes(frames).buffer)]).toEqual(
    [0, 1001, 2002, 3003].map((tick) => tick / 30000),
  );
  const signals: ClipSignals = {
    clipId: "clip2",
    count: 3,
    motion: Float64Array.of(0.5, NaN, -1),
    sound: null,
    turning: Float64Array.of(0, 1, 2),
    bytesRead: null,
    lacks: ["sound"],
  };
  expect(signalsFrom(signalsBytes(signals).buffer, "clip2")).toEqual({ ...signals, stepS: 0.25 });
});
