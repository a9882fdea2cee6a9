import { expect, it } from "vitest";
import type { Ride } from "../../../main/contract/ride.ts";
import { SIGNAL_STEP_S } from "../../../main/contract/signals.ts";
import { rideSeries } from "../../../main/lineup/signals/rideSeries.ts";
import { madeRide } from "../madeRide.ts";

/** A ride whose recorder wrote nothing between two times, as in a pause; `movedDeg` to the north meanwhile. */
function silent(fromS: number, toS: number, movedDeg: number): Ride {
  const ride = madeRide(600, { pause: { startS: fromS, endS: toS } });
  for (let k = fromS + 1; k < toS; k++) ride.raw.speedMps[k] = ride.raw.latDeg[k] = ride.raw.lonDeg[k] = NaN;
  for (let k = toS; k < 600; k++) ride.raw.latDeg[k]! += movedDeg;
  return ride;
}

const at = (column: Float64Array, t: number) => column[Math.round(t / SIGNAL_STEP_S)];

it("takes a pause after which the bike is where it was for standing, as a camera sees it; the speed on record stays unknown", () => {
  const series = rideSeries(silent(200, 260, 0));
  expect(at(series.seenMps, 230)).toBe(0);
  expect(at(series.speedMps, 230)).toBeNaN();
  expect(at(series.seenMps, 150)).toBeCloseTo(8, 6);
});

it("says nothing of a pause in which the bike moved on", () => {
  const series = rideSeries(silent(200, 260, 0.01));
  expect(at(series.seenMps, 230)).toBeNaN();
  expect(at(series.turning, 230)).toBeNaN();
});
