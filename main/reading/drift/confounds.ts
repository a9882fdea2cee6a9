import type { Plan } from "../../contract/plan.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { countOf, meanOf, standardDeviationOf } from "../../maths/statistics.ts";
import { lengthS, sharedS } from "../spans.ts";
import { stopsOf } from "../stops.ts";

const noteNames: readonly (readonly [keyof Plan["note"], string])[] = [
  ["heat", "heat"],
  ["foodAndDrink", "food and drink"],
  ["sleep", "sleep"],
  ["illness", "illness"],
  ["medicine", "medicine"],
  ["feel", "feel"],
  ["kit", "kit"],
];

/**
 * What else may have moved the heart or the meter, one plain phrase each: what the file shows, then what the rider's note
 * says. Nothing is guessed about the rider.
 */
export function confoundsOf(ride: Ride, plan: Plan, stretch: Span | null): string[] {
  const found: string[] = [];
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
      found.push(
        `the computer's own thermometer went from ${Math.round(cool)} to ${Math.round(warm)} C (sun on it counts too)`,
      );
    } else if (warm >= 28) {
      found.push(`warm: about ${Math.round(warm)} C on the computer's own thermometer (sun on it counts too)`);
    }
    const stops = stopsOf(ride, 30).filter((stop) => sharedS(stop, stretch) > 0);
    if (stops.length > 0) {
      const minutes = Math.max(1, Math.round(stops.reduce((sum, stop) => sum + sharedS(stop, stretch), 0) / 60));
      found.push(
        `${stops.length} ${stops.length === 1 ? "stop" : "stops"} of half a minute or more, ${minutes} min in all`,
      );
    }
    if (grid.heartRate) {
      const missing = 1 - countOf(grid.heartRate.value, stretch.startS, stretch.endS) / lengthS(stretch);
      if (missing >= 0.02) found.push(`${Math.round(missing * 100)} % of the heart data is missing`);
    }
    if (grid.power) {
      const missing = 1 - countOf(grid.power.value, stretch.startS, stretch.endS) / lengthS(stretch);
      if (missing >= 0.02) found.push(`${Math.round(missing * 100)} % of the power data is missing`);
      const means: number[] = [];
      for (let s = stretch.startS; s + 300 <= stretch.endS; s += 300) means.push(meanOf(grid.power.value, s, s + 300));
      const swing = standardDeviationOf(means) / meanOf(means);
      if (swing > 0.15) found.push("power was not steady from one five minutes to the next");
    }
    if (grid.altitude && plan.setting !== "trainer") {
      const lows = grid.altitude.value.slice(stretch.startS, stretch.endS).filter((metres) => Number.isFinite(metres));
      const top = lows.reduce((most, metres) => Math.max(most, metres), -Infinity);
      const bottom = lows.reduce((least, metres) => Math.min(least, metres), Infinity);
      if (top - bottom >= 300)
        found.push(`climbing: ${Math.round(top - bottom)} m between the lowest and the highest point`);
    }
  }
  for (const [key, name] of noteNames) {
    const said = plan.note[key];
    if (said !== null) found.push(`the rider's note on ${name}: ${said}`);
  }
  return found;
}
