import { expect, test } from "vitest";
import { makeRide } from "../support/makeRide.ts";

test("a ride made from columns carries them on its grid, with pauses masked and means as defined", () => {
  const n = 120;
  const ride = makeRide({
    powerW: Array.from({ length: n }, (_, i) => 200 + (i % 3)),
    heartRateBpm: Array.from({ length: n }, () => 140),
    speedMps: Array.from({ length: n }, () => 9),
    pauses: [{ startS: 60, endS: 90 }],
    dropPaused: true,
  });
  expect(ride.mode).toBe("every second");
  expect(ride.grid.seconds).toBe(n);
  expect(ride.grid.power?.value[10]).toBe(201);
  expect(ride.grid.power3sW?.[10]).toBe(201);
  expect(ride.grid.power3sW?.[75]).toBeNaN();
  expect(ride.grid.timerS[119]).toBe(89);
  expect(ride.grid.paused.reduce((a, b) => a + b, 0)).toBe(29);
  expect(ride.gaps).toEqual([{ startS: 60, endS: 90, kind: "pause" }]);
  expect(ride.grid.cadence).toBeNull();
});
