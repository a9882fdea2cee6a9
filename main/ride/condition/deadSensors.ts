import type { Channel, Span } from "../../contract/ride.ts";
import { MOVING_MPS } from "./moving.ts";

/** A sensor that says the same for so long while the rest of the ride goes on is dead, s; our own choice. */
const DEAD_S = 60;
/** Cranks that turn this fast give power, rpm; our own choice. */
const TURNING_RPM = 60;
/** And so much power turns cranks, W; our own choice. */
const TURNING_W = 60;
/** Cadence and speed must have moved by so much for an unmoving power to count as frozen, rpm and m/s; our own choice. */
const MOVED_RPM = 5;
const MOVED_MPS = 1;
/** A heart rate that no heart has, held for so long, is a sensor without contact, s; our own choice. */
const NO_PULSE_S = 10;
/** No road rises or falls faster, m/s; our own bound: 90 km/h down 25 % is 6. */
const STEP_M = 8;
/** Altitude may begin wrong for so long before the position is fixed, s; our own choice. */
const ALTITUDE_START_S = 300;
/** Roads lie between these, m above the sea (the Dead Sea's shore, the Himalaya's passes, with room for a sensor's error). */
const LOWEST_M = -500;
const HIGHEST_M = 7000;

/** Seconds in which power stays exactly 0 for more than a minute with the cranks turning at 60 rpm or more. */
export function zeroWhileTurning(power: Channel, cadence: Channel | null): Span[] {
  if (!cadence) return [];
  return runs(power.value.length, (k) => power.value[k] === 0).filter((run) => {
    let turning = 0;
    for (let k = run.startS; k < run.endS && turning <= DEAD_S; k++)
      turning = cadence.value[k] >= TURNING_RPM ? turning + 1 : 0;
    return turning > DEAD_S;
  });
}

/** Seconds in which cadence stays 0 for more than a minute while power is pressed. */
export function cadenceZeroWhilePressed(cadence: Channel, power: Channel | null): Span[] {
  if (!power) return [];
  return runs(cadence.value.length, (k) => cadence.value[k] === 0 && power.value[k] >= TURNING_W).filter(
    (run) => run.endS - run.startS > DEAD_S,
  );
}

/** Seconds in which power shows one value above 0 for more than a minute while cadence and speed move. */
export function frozenPower(power: Channel, cadence: Channel | null, speed: Channel | null): Span[] {
  const moved = (channel: Channel, run: Span): number => {
    let low = Infinity;
    let high = -Infinity;
    for (let k = run.startS; k < run.endS; k++) {
      if (channel.value[k] < low) low = channel.value[k];
      if (channel.value[k] > high) high = channel.value[k];
    }
    return high - low;
  };
  if (!cadence || !speed) return [];
  return sameValue(power.value).filter(
    (run) =>
      run.endS - run.startS > DEAD_S &&
      power.value[run.startS] > 0 &&
      moved(cadence, run) >= MOVED_RPM &&
      moved(speed, run) >= MOVED_MPS,
  );
}

/** Seconds in which one value that no heart has (0, 1, 255) is held: the sensor has lost its contact. */
export function noPulse(heart: Channel, lowestBpm: number, highestBpm: number): Span[] {
  return sameValue(heart.value).filter((run) => {
    const bpm = heart.value[run.startS];
    return (bpm < lowestBpm || bpm > highestBpm) && run.endS - run.startS >= NO_PULSE_S;
  });
}

/** Spans of more than a minute in which the rider moves and the sensor gives nothing. */
export function silentSpans(channel: Channel, speed: Channel | null, paused: Uint8Array): Span[] {
  if (!speed) return [];
  const moves = (k: number) => speed.value[k] >= MOVING_MPS && paused[k] === 0;
  return runs(channel.value.length, (k) => !Number.isFinite(channel.value[k]) && moves(k)).filter(
    (run) => run.endS - run.startS > DEAD_S,
  );
}

/**
 * End of the wrong beginning of an altitude, s: values no road has, or all before a step of the first five minutes
 * that no road makes; 0 where it begins right.
 */
export function altitudeBeginsAt(altitude: Channel): number {
  const { value } = altitude;
  let from = 0;
  let last = -1;
  for (let k = 0; k < Math.min(value.length, ALTITUDE_START_S); k++) {
    if (!Number.isFinite(value[k])) continue;
    const impossible = value[k] < LOWEST_M || value[k] > HIGHEST_M;
    if (impossible) from = k + 1;
    else if (last >= from && Math.abs(value[k] - value[last]) > STEP_M * (k - last) + STEP_M) from = k;
    last = k;
  }
  return from;
}

/** Runs of seconds with one and the same recorded value. */
function sameValue(value: Float64Array): Span[] {
  const found: Span[] = [];
  for (let k = 0; k < value.length; k++) {
    if (!Number.isFinite(value[k])) continue;
    let end = k + 1;
    while (end < value.length && value[end] === value[k]) end++;
    found.push({ startS: k, endS: end });
    k = end - 1;
  }
  return found;
}

function runs(length: number, holds: (k: number) => boolean): Span[] {
  const found: Span[] = [];
  for (let k = 0; k < length; k++) {
    if (!holds(k)) continue;
    let end = k + 1;
    while (end < length && holds(end)) end++;
    found.push({ startS: k, endS: end });
    k = end;
  }
  return found;
}
