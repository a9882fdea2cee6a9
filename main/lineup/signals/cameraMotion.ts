import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import type { ClipTelemetry } from "../../contract/telemetry.ts";

/** What a camera's own sensors tell of how it moves, on the signals' grid; NaN where they tell nothing. */
export interface CameraMotion {
  /** Turning about the upright, degrees a second. Streams do not agree on which way is positive. */
  readonly swing: Float64Array | null;
  /** Natural log of how much the camera is shaken, m/s2 (standard deviation within a step). */
  readonly shake: Float64Array | null;
}

/** The upright is what the accelerometer says on average over this long, s: through a bend it leans with the bike. */
const UPRIGHT_S = 6;
/** Of a sensor at rest, m/s2: a shake below this is its own noise. */
const REST_MPS2 = 0.02;
/** Weaker than this on average, what is measured is not weight, m/s2. */
const LEAST_WEIGHT_MPS2 = 3;
/** Samples in a step without which no shake is told. */
const LEAST_SAMPLES = 8;

interface Cells {
  /** Mean of each axis. */
  readonly means: readonly Float64Array[];
  /** Sum over the axes of the variance within a step. */
  readonly variance: Float64Array;
  readonly samples: Float64Array;
}

function cellsOf(sensor: NonNullable<ClipTelemetry["gyro"]>, count: number): Cells {
  const sums = [0, 1, 2].map(() => new Float64Array(count));
  const squares = new Float64Array(count);
  const samples = new Float64Array(count);
  const { mediaS, axes } = sensor;
  for (let i = 0; i < mediaS.length; i++) {
    const cell = Math.floor(mediaS[i] / SIGNAL_STEP_S);
    const [a, b, c] = [axes[0][i], axes[1][i], axes[2][i]];
    if (!(cell >= 0 && cell < count) || !Number.isFinite(a + b + c)) continue;
    sums[0][cell] += a;
    sums[1][cell] += b;
    sums[2][cell] += c;
    squares[cell] += a * a + b * b + c * c;
    samples[cell] += 1;
  }
  const means = sums.map((sum) => sum.map((s, k) => s / samples[k]));
  const variance = squares.map((q, k) => Math.max(0, q / samples[k] - means.reduce((s, m) => s + m[k] ** 2, 0)));
  return { means, variance, samples };
}

/** Means of each axis over `UPRIGHT_S` about each step, as a unit vector; NaN where there is no weight to tell it by. */
function uprightOf(means: readonly Float64Array[], count: number): readonly Float64Array[] {
  const half = Math.round(UPRIGHT_S / SIGNAL_STEP_S / 2);
  const out = [0, 1, 2].map(() => new Float64Array(count).fill(NaN));
  for (let k = 0; k < count; k++) {
    const sum = [0, 0, 0];
    let n = 0;
    for (let j = Math.max(0, k - half); j <= Math.min(count - 1, k + half); j++) {
      if (!Number.isFinite(means[0][j])) continue;
      for (let a = 0; a < 3; a++) sum[a] += means[a][j];
      n++;
    }
    const size = Math.hypot(sum[0], sum[1], sum[2]);
    if (n > 0 && size / n >= LEAST_WEIGHT_MPS2) for (let a = 0; a < 3; a++) out[a][k] = sum[a] / size;
  }
  return out;
}

/** A series, or null where nothing of it is known. */
function told(series: Float64Array): Float64Array | null {
  return series.some(Number.isFinite) ? series : null;
}

/**
 * Turning about the upright and shake from a camera's gyroscope and accelerometer, whose axes stand in one order. However
 * it is mounted, its weight tells the upright. Turning needs both sensors.
 *
 * @param count steps of the clip's signals
 */
export function cameraMotion(telemetry: Pick<ClipTelemetry, "gyro" | "acceleration">, count: number): CameraMotion {
  if (!telemetry.acceleration) return { swing: null, shake: null };
  const felt = cellsOf(telemetry.acceleration, count);
  const shake = felt.variance.map((v, k) =>
    felt.samples[k] >= LEAST_SAMPLES ? Math.log(Math.hypot(REST_MPS2, Math.sqrt(v))) : NaN,
  );
  if (!telemetry.gyro) return { swing: null, shake: told(shake) };
  const upright = uprightOf(felt.means, count);
  const turned = cellsOf(telemetry.gyro, count).means;
  const swing = upright[0].map(
    (_, k) => (180 / Math.PI) * upright.reduce((sum, axis, a) => sum + axis[k] * turned[a][k], 0),
  );
  return { swing: told(swing), shake: told(shake) };
}
