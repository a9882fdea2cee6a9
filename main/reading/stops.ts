import type { Ride, Span } from "../contract/ride.ts";
import { runsOf } from "./spans.ts";

/**
 * Whether the rider stands still in a second, as far as the data shows: the recorder is paused, or the speed is under
 * 1 m/s. Without a speed the cranks must stand still and give no power. False where nothing can be known.
 */
export function stoodStill(ride: Ride): (second: number) => boolean {
  const { grid } = ride;
  const { speed, cadence, power, paused } = grid;
  return (second) => {
    if (paused[second] === 1) return true;
    const speedMps = speed?.value[second];
    if (speed) return speedMps !== undefined && speedMps < 1;
    const powerW = power?.value[second] ?? NaN;
    const cadenceRpm = cadence?.value[second] ?? NaN;
    if (cadence) return cadenceRpm === 0 && !(powerW > 0);
    return false;
  };
}

/** Stops of at least so long, pauses of the recorder among them. */
export function stopsOf(ride: Ride, leastS: number): Span[] {
  return runsOf(stoodStill(ride), 0, ride.grid.seconds).filter((run) => run.endS - run.startS >= leastS);
}
