import type { Channel } from "../../contract/ride.ts";

/** At this speed and above a rider counts as moving, m/s. */
export const MOVING_MPS = 1;

/**
 * 1 per second of moving, else 0: speed of at least 1 m/s; where no speed is known, cadence above 0; where there is
 * neither sensor, power above 0. An unknown second counts as not moving.
 */
export function movingMask(
  seconds: number,
  paused: Uint8Array,
  speed: Channel | null,
  cadence: Channel | null,
  power: Channel | null,
): Uint8Array {
  const moving = new Uint8Array(seconds);
  const source = speed ?? cadence ?? power;
  if (!source) return moving;
  const least = source === speed ? MOVING_MPS : Number.MIN_VALUE;
  for (let k = 0; k < seconds; k++) moving[k] = !paused[k] && source.value[k] >= least ? 1 : 0;
  return moving;
}
