import type { Ride, Span } from "../contract/ride.ts";
import { runsOf } from "./spans.ts";

/** Rolling to a stand, and pushing off again before the recorder wakes, m. Own choice. */
const stillWayM = 30;

/**
 * Whether the rider stands still in a second, as far as the data shows: the recorder is paused or silent over a stop, or the speed is under
 * 1 m/s. Without a speed the cranks must stand still and give no power. False where nothing can be known.
 */
export function stoodStill(ride: Ride): (second: number) => boolean {
  const { grid } = ride;
  const { speed, cadence, power, paused } = grid;
  const silent = stillGaps(ride);
  return (second) => {
    if (paused[second] === 1 || silent[second] === 1) return true;
    const speedMps = speed?.value[second];
    if (speed) return speedMps !== undefined && speedMps < 1;
    const powerW = power?.value[second] ?? NaN;
    const cadenceRpm = cadence?.value[second] ?? NaN;
    if (cadence) return cadenceRpm === 0 && !(powerW > 0);
    return false;
  };
}

/** Recorders that stop by themselves write no event in some formats: a hole over which no way was ridden is a stop. */
function stillGaps(ride: Ride): Uint8Array {
  const { distanceM, seconds } = ride.grid;
  const still = new Uint8Array(seconds);
  for (const { startS, endS, kind } of ride.gaps) {
    if (kind !== "lost") continue;
    const from = Math.max(0, Math.floor(startS) - 1);
    const to = Math.min(seconds - 1, Math.ceil(endS));
    const way = distanceM ? distanceM[to] - distanceM[from] : NaN;
    if (way <= stillWayM) still.fill(1, from + 1, to);
  }
  return still;
}

/** Stops of at least so long, pauses of the recorder among them. */
export function stopsOf(ride: Ride, leastS: number): Span[] {
  return runsOf(stoodStill(ride), 0, ride.grid.seconds).filter((run) => run.endS - run.startS >= leastS);
}
