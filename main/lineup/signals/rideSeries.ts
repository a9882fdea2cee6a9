import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import type { Ride } from "../../contract/ride.ts";

/** What a camera on this ride should have seen and heard, on the grid of the signals; NaN where the ride does not tell. */
export interface RideSeries {
  readonly motion: Float64Array;
  readonly sound: Float64Array;
  readonly turning: Float64Array;
  /** Speed itself, m/s, for pictures and for words about stops. */
  readonly speedMps: Float64Array;
}

/** No value is made between records further apart than this, s. */
const LONGEST_STEP_S = 3;
/** Course is taken between positions this far apart, s. */
const COURSE_STEP_S = 3;
/** Below this speed other noise covers wind and tyres, m/s. */
const QUIET_MPS = 3;
/** Below this speed the course means nothing, m/s. */
const SLOW_MPS = 1.2;

/** Reads a column of the raw records at the middle of each grid cell, straight between neighbours; never across pauses. */
function onGrid(ride: Ride, column: Float64Array, cells: number): Float64Array {
  const { timeS, count } = ride.raw;
  const out = new Float64Array(cells).fill(NaN);
  let before = -1;
  let k = 0;
  for (let cell = 0; cell < cells; cell++) {
    const t = (cell + 0.5) * SIGNAL_STEP_S;
    while (k < count && timeS[k] <= t) {
      if (Number.isFinite(column[k])) before = k;
      k++;
    }
    let after = k;
    while (after < count && !Number.isFinite(column[after]) && timeS[after] - t <= LONGEST_STEP_S) after++;
    if (before < 0 || after >= count || !Number.isFinite(column[after])) continue;
    const step = timeS[after] - timeS[before];
    if (step > LONGEST_STEP_S || ride.grid.paused[Math.floor(t)] === 1) continue;
    out[cell] = column[before] + ((t - timeS[before]) / step) * (column[after] - column[before]);
  }
  return out;
}

function percentile(values: Float64Array, share: number): number {
  const sorted = values.filter(Number.isFinite).sort();
  return sorted[Math.floor(share * (sorted.length - 1))] ?? NaN;
}

/** Rate of turn from positions, degrees a second, positive to the right; 0 when slow, NaN without positions. */
function turnRate(lat: Float64Array, lon: Float64Array, speed: Float64Array): Float64Array {
  const half = Math.round(COURSE_STEP_S / SIGNAL_STEP_S / 2);
  const n = lat.length;
  const course = new Float64Array(n).fill(NaN);
  for (let k = half; k < n - half; k++) {
    const dy = lat[k + half] - lat[k - half];
    const dx = (lon[k + half] - lon[k - half]) * Math.cos((lat[k] * Math.PI) / 180);
    if (Math.hypot(dx, dy) > 0) course[k] = (Math.atan2(dx, dy) * 180) / Math.PI;
  }
  const rate = new Float64Array(n).fill(NaN);
  for (let k = 1; k < n - 1; k++) {
    if (Number.isFinite(speed[k]) && speed[k] < SLOW_MPS) rate[k] = 0;
    else {
      const turned = course[k + 1] - course[k - 1];
      rate[k] = (turned - 360 * Math.round(turned / 360)) / (2 * SIGNAL_STEP_S);
    }
  }
  return rate;
}

/**
 * The ride as motion, sound and turning. Motion saturates with speed and wind grows with its square (40 dB for ten times
 * the speed, held to the 95th percentile, where cameras clip); both models are our own, not published.
 */
export function rideSeries(ride: Ride): RideSeries {
  const cells = Math.max(1, Math.ceil(ride.elapsedS / SIGNAL_STEP_S));
  const speedMps = onGrid(ride, ride.raw.speedMps, cells);
  const loud = speedMps.map((v) => 40 * Math.log10(Math.max(v, QUIET_MPS)));
  const most = percentile(loud, 0.95);
  return {
    speedMps,
    motion: speedMps.map((v) => Math.log(0.05 + v / (v + 3))),
    sound: loud.map((v) => Math.min(v, most)),
    turning: turnRate(onGrid(ride, ride.raw.latDeg, cells), onGrid(ride, ride.raw.lonDeg, cells), speedMps),
  };
}
