import type { PressureReading, Surge } from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf } from "../../maths/statistics.ts";
import type { Asked } from "../band.ts";
import { joinSpans, lengthS, runsOf } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { leastBreakS } from "./breaks.ts";
import type { Road } from "./road.ts";

/** What counts as a surge in a ride: a recorder that chooses its own steps cannot show short ones. */
export function surgeFrom(ride: Ride): PressureReading["surgeFrom"] {
  const { lengthS, overTarget } = thresholds.surge;
  return { lengthS: Math.max(lengthS, ride.mode === "variable" ? leastBreakS(ride) : 0), overTarget };
}

/**
 * Surges of the judged stretches: the 3 s mean of power so much over the target (and above the band) for so long
 * (`surgeFrom`), not in a planned effort and not pulling away from a stop. None without power or without a target.
 */
export function surgesOf(
  ride: Ride,
  askedAt: (second: number) => Asked,
  road: Road,
  stretches: readonly Span[],
): Surge[] {
  const power3sW = ride.grid.power3sW;
  const power = ride.grid.power;
  if (!power3sW || !power) return [];
  const from = surgeFrom(ride);
  const over = (s: number) => {
    const { band, planned } = askedAt(s);
    if (!band || planned !== "steady" || road.pullingAway[s] === 1) return false;
    return power3sW[s] > Math.max(band.highW, band.targetW * (1 + from.overTarget));
  };
  return stretches.flatMap((stretch) =>
    joinSpans(
      // Each run must be one of its own; only then do neighbours join.
      runsOf(over, stretch.startS, stretch.endS).filter((run) => lengthS(run) >= from.lengthS),
      thresholds.surge.joinS,
    ).map((span) => ({
      ...span,
      meanW: meanOf(power.value, span.startS, span.endS),
      peakW: power3sW.slice(span.startS, span.endS).reduce((peak, watts) => (watts > peak ? watts : peak), 0),
    })),
  );
}
