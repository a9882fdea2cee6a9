import type { Plan } from "../../contract/plan.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import type { Asked } from "../band.ts";
import { thresholds } from "../thresholds.ts";

const limits = thresholds.pressure;

/** Whether the cranks are pressed, per second: NaN-free, with unknown apart. */
export const Cranks = { unknown: 0, off: 1, pressed: 2 } as const;

/** Whether power or cadence is there, and tells of more than a trace of what is judged. */
export function cranksKnown(ride: Ride, cranks: Uint8Array, stretches: readonly Span[]): boolean {
  if (!ride.grid.power && !ride.grid.cadence) return false;
  let knownS = 0;
  let allS = 0;
  for (const { startS, endS } of stretches) {
    allS += endS - startS;
    for (let s = startS; s < endS; s++) if (cranks[s] !== Cranks.unknown) knownS++;
  }
  return allS === 0 || knownS >= limits.knownShare * allS;
}

/**
 * Whether the cranks are pressed in each second of the ride.
 *
 * From power, with a hysteresis so that noise about the floor is one break; a value that the meter goes on showing after
 * the cranks have stopped does not count as pressure, and a lost sample or two with the cranks turning is no break.
 * Without power: from cadence 0. Without either: unknown throughout.
 */
export function cranksOf(ride: Ride, plan: Plan, askedAt: (second: number) => Asked): Uint8Array {
  const { power, cadence, paused, seconds } = ride.grid;
  const cranks = new Uint8Array(seconds);
  if (!power) {
    if (!cadence) return cranks;
    for (let s = 0; s < seconds; s++) {
      const rpm = cadence.value[s];
      if (paused[s] === 1 || !Number.isFinite(rpm)) continue;
      cranks[s] = rpm > 0 ? Cranks.pressed : Cranks.off;
    }
    return cranks;
  }
  let off = false;
  for (let s = 0; s < seconds; s++) {
    const watts = power.value[s];
    if (paused[s] === 1 || !Number.isFinite(watts)) {
      off = false;
      continue;
    }
    const targetW = askedAt(s).band?.targetW ?? 0;
    const offBelowW = plan.floorW ?? Math.max(limits.offBelowW, limits.offBelowShare * targetW);
    const onFromW = plan.floorW === null ? Math.max(limits.onFromW, limits.onFromShare * targetW) : 1.5 * plan.floorW;
    off = off ? watts < onFromW : watts < offBelowW;
    cranks[s] = off ? Cranks.off : Cranks.pressed;
  }
  if (cadence) mendWithCadence(cranks, cadence.value);
  return cranks;
}

function mendWithCadence(cranks: Uint8Array, cadenceRpm: Float64Array): void {
  for (let s = 1; s < cranks.length; s++) {
    if (cranks[s] !== Cranks.off || cranks[s - 1] !== Cranks.pressed) continue;
    let end = s;
    while (end < cranks.length && cranks[end] === Cranks.off) end++;
    let turning = end - s <= limits.dropoutS && cranks[end] === Cranks.pressed;
    for (let k = s; turning && k < end; k++) turning = cadenceRpm[k] > limits.dropoutCadenceRpm;
    if (turning) {
      cranks.fill(Cranks.pressed, s, end);
    } else {
      for (
        let k = s - 1;
        k >= Math.max(0, s - limits.heldValueS) && cadenceRpm[k] === 0 && cranks[k] === Cranks.pressed;
        k--
      ) {
        cranks[k] = Cranks.off;
      }
    }
    s = end;
  }
}
