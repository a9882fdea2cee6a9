import type { Plan } from "../../contract/plan.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf, standardDeviationOf } from "../../maths/statistics.ts";
import { lengthS, sharedS } from "../spans.ts";
import { stoodStill, stopsOf } from "../stops.ts";
import type { Confound, RiderNote } from "../../contract/notices/reading.ts";

const NOTES: readonly RiderNote[] = ["heat", "foodAndDrink", "sleep", "illness", "medicine", "feel", "kit"];

/** Share of a span in which a sensor is missing; what is not recorded while the rider stands still is a pause, and misses nothing. */
export function missingShare(ride: Ride, value: Float64Array, span: Span): number {
  const still = stoodStill(ride);
  let asked = 0;
  let missing = 0;
  for (let s = span.startS; s < span.endS; s++) {
    const known = Number.isFinite(value[s]);
    if (!known && still(s)) continue;
    asked++;
    if (!known) missing++;
  }
  return asked === 0 ? 1 : missing / asked;
}

/**
 * What else may have moved the heart or the meter, each once: what the file shows, then what the rider's note
 * says. Nothing is guessed about the rider.
 */
export function confoundsOf(ride: Ride, plan: Plan, stretch: Span | null): Confound[] {
  const found: Confound[] = [];
  if (stretch) {
    const { grid, raw } = ride;
    const third = lengthS(stretch) / 3;
    const inSpan = (from: number, to: number) => {
      const values: number[] = [];
      for (let i = 0; i < raw.count; i++) {
        const at = raw.timeS[i];
        if (at >= from && at < to) values.push(raw.temperatureC[i]);
      }
      return meanOf(values);
    };
    const cool = inSpan(stretch.startS, stretch.startS + third);
    const warm = inSpan(stretch.endS - third, stretch.endS);
    if (Math.abs(warm - cool) >= 4) {
      found.push({ kind: "temperature changed", fromC: cool, toC: warm });
    } else if (warm >= 28) {
      found.push({ kind: "warm", aboutC: warm });
    }
    const stops = stopsOf(ride, 30).filter((stop) => sharedS(stop, stretch) > 0);
    if (stops.length > 0) {
      const minutes = Math.max(1, Math.round(stops.reduce((sum, stop) => sum + sharedS(stop, stretch), 0) / 60));
      found.push({ kind: "stops", count: stops.length, minutes });
    }
    if (grid.heartRate) {
      const missing = missingShare(ride, grid.heartRate.value, stretch);
      if (missing >= 0.02) found.push({ kind: "heart missing", percent: 100 * missing });
    }
    if (grid.power) {
      const missing = missingShare(ride, grid.power.value, stretch);
      if (missing >= 0.02) found.push({ kind: "power missing", percent: 100 * missing });
      const means: number[] = [];
      // Whoever stands gives no power: a recorder that pauses there and one that does not must read alike.
      const still = stoodStill(ride);
      const moving = grid.power.value.map((watts, s) => (still(s) ? NaN : watts));
      for (let s = stretch.startS; s + 300 <= stretch.endS; s += 300) {
        const mean = meanOf(moving, s, s + 300);
        if (Number.isFinite(mean)) means.push(mean);
      }
      const swing = standardDeviationOf(means) / meanOf(means);
      if (swing > 0.15) found.push({ kind: "power not steady" });
    }
    if (grid.altitude && plan.setting !== "trainer") {
      const lows = grid.altitude.value.slice(stretch.startS, stretch.endS).filter((metres) => Number.isFinite(metres));
      const top = lows.reduce((most, metres) => Math.max(most, metres), -Infinity);
      const bottom = lows.reduce((least, metres) => Math.min(least, metres), Infinity);
      if (top - bottom >= 300) found.push({ kind: "climbing", metres: top - bottom });
    }
  }
  for (const on of NOTES) {
    const text = plan.note[on];
    if (text !== null) found.push({ kind: "note", on, text });
  }
  return found;
}
