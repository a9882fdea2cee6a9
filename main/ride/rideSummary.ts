import type { Ride } from "../contract/ride.ts";
import type { Setting } from "../contract/plan.ts";
import type { RideSummary } from "../contract/rideSummary.ts";
import { ascentM } from "../maths/ascent.ts";

/** Sums a ride up: the one place where the figures of a whole ride are computed. */
export function rideSummary(ride: Ride, setting: Setting): RideSummary {
  const { raw, grid } = ride;
  const power = figures(raw.powerW);
  const heart = figures(raw.heartRateBpm);
  const cadence = figures(raw.cadenceRpm);
  const speed = figures(raw.speedMps);
  const pausedS = ride.gaps.reduce((sum, gap) => sum + (gap.kind === "pause" ? gap.endS - gap.startS : 0), 0);
  const last = grid.seconds - 1;
  const tellsMoving = grid.speed !== null || grid.cadence !== null || grid.power !== null;
  return {
    file: ride.fileName,
    format: ride.format,
    setting,
    startTime: ride.startUtcMs === null ? null : new Date(ride.startUtcMs).toISOString(),
    localStart:
      ride.startUtcMs === null || ride.utcOffsetMin === null
        ? null
        : new Date(ride.startUtcMs + ride.utcOffsetMin * 60_000).toISOString().slice(0, 16),
    records: raw.count,
    elapsedS: round(ride.elapsedS, 3),
    timerS: round(ride.elapsedS - pausedS, 3),
    movingS: tellsMoving ? grid.movingS[last] + grid.moving[last] : null,
    distanceM: grid.distanceM && roundOrNull(lastValue(grid.distanceM), 2),
    ascentM: grid.altitude && round(ascentM(grid.altitude.value), 1),
    power: { meanW: roundOrNull(power.mean, 3), maxW: roundOrNull(power.max, 3), samples: power.samples },
    heartRate: { meanBpm: roundOrNull(heart.mean, 3), maxBpm: roundOrNull(heart.max, 3) },
    cadence: { meanRpm: roundOrNull(cadence.mean, 3), maxRpm: roundOrNull(cadence.max, 3) },
    speed: { meanMps: roundOrNull(speed.mean, 4), maxMps: roundOrNull(speed.max, 4) },
    firstPosition: place(ride, 1),
    lastPosition: place(ride, -1),
    gaps: ride.gaps.map(({ startS, endS }) => ({ startS: round(startS, 3), endS: round(endS, 3) })),
  };
}

function figures(column: Float64Array): { mean: number; max: number; samples: number } {
  let samples = 0;
  let sum = 0;
  let max = NaN;
  for (const v of column) {
    if (v !== v) continue;
    samples++;
    sum += v;
    if (!(v <= max)) max = v;
  }
  return { mean: samples ? sum / samples : NaN, max, samples };
}

function lastValue(column: Float64Array): number {
  for (let i = column.length - 1; i >= 0; i--) if (column[i] === column[i]) return column[i];
  return NaN;
}

function place(ride: Ride, step: 1 | -1): [number, number] | null {
  const { latDeg, lonDeg, count } = ride.raw;
  for (let i = step > 0 ? 0 : count - 1; i >= 0 && i < count; i += step) {
    if (latDeg[i] === latDeg[i] && lonDeg[i] === lonDeg[i]) return [round(latDeg[i], 7), round(lonDeg[i], 7)];
  }
  return null;
}

function round(value: number, digits: number): number {
  const factor = 10 ** digits;
  return Math.round(value * factor) / factor;
}

function roundOrNull(value: number, digits: number): number | null {
  return value === value ? round(value, digits) : null;
}
