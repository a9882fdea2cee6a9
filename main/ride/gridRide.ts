import { CellState } from "../contract/ride.ts";
import type { Channel, RawRecords, RecordingMode, RideGrid } from "../contract/ride.ts";
import { distanceFromPositions, distanceOnGrid, fillStraight, hasValues } from "./condition/distance.ts";
import { rejectCadence } from "./condition/cadence.ts";
import { fillChannel, VARIABLE_HOLD_S } from "./condition/fillChannel.ts";
import { gradientPercent } from "./condition/gradient.ts";
import { courseOf } from "./condition/heading.ts";
import {
  altitudeBeginsAt,
  cadenceZeroWhilePressed,
  frozenPower,
  noPulse,
  silentSpans,
  zeroWhileTurning,
} from "./condition/deadSensors.ts";
import { HIGHEST_BPM, LOWEST_BPM, rejectHeartRate } from "./condition/heartRate.ts";
import { movingMask } from "./condition/moving.ts";
import { power30s, power3s, rejectPower } from "./condition/power.ts";
import { NEVER_MPS, speedFromDistance } from "./condition/speed.ts";
import type { ColumnName } from "./rideRecords.ts";
import type { Span } from "../contract/ride.ts";
import { note, type Note } from "../contract/notice.ts";

/** Longest holes that are bridged, s: power and cadence change fast, the others slowly. */
const BRIDGE_FAST_S = 3;
const BRIDGE_SLOW_S = 5;

/** What the grid is made from. */
export interface GridInput {
  readonly raw: RawRecords;
  /** 1 per record that begins a new track segment. */
  readonly startsSegment: Uint8Array;
  /** Spans with the timer stopped, ride seconds, sorted, apart from each other. */
  readonly pauses: readonly Span[];
  readonly mode: RecordingMode;
  /** Metres over which the gradient is fitted. */
  readonly gradientWindowM: number;
}

/**
 * Puts records on the 1 s grid and conditions them: cell k holds the records with ride time in [k, k+1) - their mean,
 * of positions and distance the last. Warnings tell what was dropped.
 */
export function gridRide(input: GridInput): { grid: RideGrid; warnings: Note[] } {
  const { raw, mode } = input;
  const warnings: Note[] = [];
  const seconds = Math.floor(raw.timeS[raw.count - 1] ?? 0) + 1;
  const cell = new Int32Array(raw.count);
  for (let i = 0; i < raw.count; i++) cell[i] = Math.floor(raw.timeS[i]);
  const paused = pausedCells(input, cell, seconds);

  const power = meanChannel(raw.powerW, cell, seconds);
  const cadence = meanChannel(raw.cadenceRpm, cell, seconds);
  const heartRate = meanChannel(raw.heartRateBpm, cell, seconds);
  let speed = meanChannel(raw.speedMps, cell, seconds, (v) => v >= 0 && v <= NEVER_MPS);
  const altitude = meanChannel(raw.altitudeM, cell, seconds);
  const position = lastPosition(raw, cell, seconds);

  // Judged as recorded, before any hole is bridged: a held value is no evidence.
  const told = (code: SpansCode, channel: Channel, column: ColumnName, spans: readonly Span[]) => {
    if (spans.length === 0) return;
    markDead(channel, raw[column], cell, spans);
    warnings.push(note(code, spansFacts(spans)));
  };
  for (const [column, channel] of [
    ["powerW", power],
    ["heartRateBpm", heartRate],
    ["cadenceRpm", cadence],
  ] as const) {
    const silent = channel && mode === "every second" ? silentSpans(channel, speed, paused) : [];
    if (silent.length > 0) warnings.push(note("ride-sensor-silent", { column, ...spansFacts(silent) }));
  }
  if (power) {
    const frozen = frozenPower(power, cadence, speed);
    told("ride-power-zero-turning", power, "powerW", zeroWhileTurning(power, cadence));
    told("ride-power-frozen", power, "powerW", frozen);
  }
  if (cadence) told("ride-cadence-zero-pressed", cadence, "cadenceRpm", cadenceZeroWhilePressed(cadence, power));
  if (altitude) {
    const begins = altitudeBeginsAt(altitude);
    if (begins > 0) {
      markDead(altitude, raw.altitudeM, cell, [{ startS: 0, endS: begins }]);
      warnings.push(note("ride-altitude-begins-wrong", { untilS: begins }));
    }
  }
  if (power) {
    const { spikes, dropouts } = rejectPower(power, cadence);
    if (spikes) warnings.push(note("ride-power-spikes", { count: spikes }));
    if (dropouts) warnings.push(note("ride-power-dropouts", { seconds: dropouts }));
    fillChannel(power, paused, mode, BRIDGE_FAST_S);
  }
  const power30sW = power && power30s(power, paused);
  if (heartRate) {
    told("ride-heart-no-pulse", heartRate, "heartRateBpm", noPulse(heartRate, LOWEST_BPM, HIGHEST_BPM));
    const rejects = rejectHeartRate(heartRate, cadence, power30sW);
    if (rejects.spikesS) warnings.push(note("ride-heart-jumps", { seconds: rejects.spikesS }));
    told("ride-heart-follows-cadence", heartRate, "heartRateBpm", rejects.cadenceLock);
    told("ride-heart-stuck", heartRate, "heartRateBpm", rejects.stuck);
    fillChannel(heartRate, paused, mode, BRIDGE_SLOW_S);
  }
  if (cadence) {
    const spikes = rejectCadence(cadence);
    if (spikes) warnings.push(note("ride-cadence-spikes", { seconds: spikes }));
    fillChannel(cadence, paused, mode, BRIDGE_FAST_S);
  }
  const bridgeS = mode === "variable" ? VARIABLE_HOLD_S : BRIDGE_SLOW_S;
  const travelled = hasValues(raw.distanceM)
    ? raw.distanceM
    : position
      ? distanceFromPositions(raw, input.startsSegment)
      : null;
  const distanceM = travelled && distanceOnGrid(raw.timeS, travelled, seconds, bridgeS);
  // A held altitude would make steps of a slope; the road between two samples is taken as straight.
  const slopeAltitude = altitude && Float64Array.from(altitude.value);
  if (slopeAltitude) fillStraight(slopeAltitude, bridgeS);
  if (altitude) fillChannel(altitude, paused, mode, BRIDGE_SLOW_S);
  if (speed) fillChannel(speed, paused, mode, BRIDGE_SLOW_S);
  else if (travelled && distanceM) {
    const measured = new Uint8Array(seconds);
    const begins = new Uint8Array(seconds);
    for (let i = 0; i < raw.count; i++) {
      if (!Number.isNaN(travelled[i])) measured[cell[i]] = 1;
      if (input.startsSegment[i]) begins[cell[i]] = 1;
    }
    // A recorder that chose its own steps has been everywhere between them.
    if (mode === "variable") measured.fill(1);
    speed = speedFromDistance(distanceM, paused, measured, begins);
    if (speed) warnings.push(note("ride-speed-from-places", {}));
  }
  const path = position && heldPosition(position, paused, mode);
  const course = position && speed && courseOf(position, speed.value, paused);
  const moving = movingMask(seconds, paused, speed, cadence, power);
  const grid: RideGrid = {
    seconds,
    power,
    heartRate,
    cadence,
    speed,
    altitude,
    position: path,
    distanceM,
    power3sW: power && power3s(power, paused, mode),
    power30sW,
    gradientPercent:
      slopeAltitude && distanceM && speed
        ? gradientPercent(slopeAltitude, distanceM, speed.value, paused, input.gradientWindowM)
        : null,
    headingDeg: course && course.headingDeg,
    turnRadiusM: course && course.turnRadiusM,
    moving,
    paused,
    timerS: timerColumn(input.pauses, seconds),
    movingS: runningSum(moving),
  };
  return { grid, warnings };
}

/** `1 second`, `2 seconds`. */
/** Notes that name spans of a sensor that is no data. */
type SpansCode =
  | "ride-power-zero-turning"
  | "ride-power-frozen"
  | "ride-cadence-zero-pressed"
  | "ride-heart-no-pulse"
  | "ride-heart-follows-cadence"
  | "ride-heart-stuck";

/** The first three spans, how many more there are, and all their seconds. */
function spansFacts(spans: readonly Span[]) {
  const inOrder = [...spans].sort((one, other) => one.startS - other.startS);
  return {
    spans: inOrder.slice(0, 3).map(({ startS, endS }) => ({ startS, endS })),
    more: Math.max(0, spans.length - 3),
    seconds: spans.reduce((sum, { startS, endS }) => sum + endS - startS, 0),
  };
}

/** Takes a dead sensor's spans out of its channel and out of the records: no number is made from them. */
function markDead(channel: Channel, column: Float64Array, cell: Int32Array, spans: readonly Span[]): void {
  for (const { startS, endS } of spans) {
    for (let k = startS; k < endS; k++) {
      channel.value[k] = NaN;
      channel.state[k] = CellState.rejected;
    }
  }
  for (let i = 0; i < cell.length; i++)
    if (spans.some(({ startS, endS }) => cell[i] >= startS && cell[i] < endS)) column[i] = NaN;
}

/** 1 in cells that begin while the timer is stopped and hold no record. */
function pausedCells(input: GridInput, cell: Int32Array, seconds: number): Uint8Array {
  const paused = new Uint8Array(seconds);
  for (const { startS, endS } of input.pauses)
    paused.fill(1, Math.max(0, Math.ceil(startS)), Math.max(0, Math.ceil(endS)));
  for (const k of cell) paused[k] = 0;
  return paused;
}

function timerColumn(pauses: readonly Span[], seconds: number): Float64Array {
  const timerS = new Float64Array(seconds);
  let next = 0;
  let stoppedS = 0;
  for (let k = 0; k < seconds; k++) {
    while (next < pauses.length && pauses[next].endS <= k) {
      stoppedS += pauses[next].endS - pauses[next].startS;
      next++;
    }
    const running = next < pauses.length && pauses[next].startS < k ? k - pauses[next].startS : 0;
    timerS[k] = k - stoppedS - running;
  }
  return timerS;
}

function runningSum(mask: Uint8Array): Float64Array {
  const out = new Float64Array(mask.length);
  for (let k = 1; k < mask.length; k++) out[k] = out[k - 1] + mask[k - 1];
  return out;
}

function meanChannel(
  column: Float64Array,
  cell: Int32Array,
  seconds: number,
  accept: (v: number) => boolean = Number.isFinite,
): Channel | null {
  const value = new Float64Array(seconds);
  const count = new Uint16Array(seconds);
  let any = false;
  for (let i = 0; i < cell.length; i++) {
    const v = column[i];
    if (v !== v || !accept(v)) continue;
    value[cell[i]] += v;
    count[cell[i]]++;
    any = true;
  }
  if (!any) return null;
  const state = new Uint8Array(seconds);
  for (let k = 0; k < seconds; k++) {
    if (count[k]) {
      value[k] /= count[k];
      state[k] = CellState.recorded;
    } else value[k] = NaN;
  }
  return { value, state };
}

type Position = NonNullable<RideGrid["position"]>;

function lastPosition(raw: RawRecords, cell: Int32Array, seconds: number): Position | null {
  const latDeg = new Float64Array(seconds).fill(NaN);
  const lonDeg = new Float64Array(seconds).fill(NaN);
  const state = new Uint8Array(seconds);
  let any = false;
  for (let i = 0; i < raw.count; i++) {
    if (raw.latDeg[i] !== raw.latDeg[i] || raw.lonDeg[i] !== raw.lonDeg[i]) continue;
    latDeg[cell[i]] = raw.latDeg[i]!;
    lonDeg[cell[i]] = raw.lonDeg[i]!;
    state[cell[i]] = CellState.recorded;
    any = true;
  }
  return any ? { latDeg, lonDeg, state } : null;
}

/** A copy with short holes held; the course is taken from the recorded places alone. */
function heldPosition(position: Position, paused: Uint8Array, mode: RecordingMode): Position {
  const lat = { value: Float64Array.from(position.latDeg), state: Uint8Array.from(position.state) };
  const lon = { value: Float64Array.from(position.lonDeg), state: Uint8Array.from(position.state) };
  fillChannel(lat, paused, mode, BRIDGE_SLOW_S);
  fillChannel(lon, paused, mode, BRIDGE_SLOW_S);
  return { latDeg: lat.value, lonDeg: lon.value, state: lat.state };
}
