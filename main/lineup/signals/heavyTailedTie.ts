import { fitAutoregression, innovationsOf } from "../../maths/autoregressiveFilter.ts";
import { NOISE_ORDER, STEPS_A_SECOND, type FeatureScore } from "./featureScores.ts";

/** Degrees of freedom of Student's distribution that the noise is taken for: jolts, glances and lorries are common in it. */
const FREEDOM = 4;
/** Fits of the noise's memory to what the tie leaves, of the tie to that memory, and of the scale to both. */
const ROUNDS = 3;
const SLOPES = 3;
const SCALES = 4;
/** The first slope counts no step as further out than this many deviations. */
const FIRST_HELD_AT = 5;
/** Fewer steps than this tell nothing, s. */
const LEAST_S = 15;

/** Squared scale of Student's distribution for errors (Lange, Little and Taylor 1989; from memory). */
function scaleOf(errors: Float64Array, from: number): number {
  let scale = from;
  for (let round = 0; round < SCALES; round++) {
    let [sum, count] = [0, 0];
    for (const e of errors) {
      if (!Number.isFinite(e)) continue;
      sum += ((FREEDOM + 1) * e * e) / (FREEDOM + (e * e) / scale);
      count++;
    }
    scale = sum / count;
  }
  return scale;
}

/** Mean square of what is there. */
function spread(errors: Float64Array): number {
  let [sum, count] = [0, 0];
  for (const e of errors) {
    if (!Number.isFinite(e)) continue;
    sum += e * e;
    count++;
  }
  return sum / count;
}

/** Log density of an error but for a constant. */
function logDensity(error: number, scale: number): number {
  return -0.5 * (Math.log(scale) + (FREEDOM + 1) * Math.log1p((error * error) / (FREEDOM * scale)));
}

/** A straight line by weighted least squares; what it leaves and its squared scale after some rounds of weighing. */
function tieTo(
  seen: Float64Array,
  expected: Float64Array,
  start: { readonly slope: number | null; readonly scale: number },
  eitherWay: boolean,
): { readonly slope: number; readonly scale: number; readonly left: Float64Array } {
  let [slope, scale, offset] = [start.slope, start.scale, 0];
  let left = seen;
  for (let round = 0; round < SLOPES; round++) {
    let [w, wx, wy, wxx, wxy] = [0, 0, 0, 0, 0];
    for (let i = 0; i < seen.length; i++) {
      const [x, y] = [expected[i], seen[i]];
      if (!Number.isFinite(x) || !Number.isFinite(y)) continue;
      const off = slope === null ? Math.min(FIRST_HELD_AT ** 2, (y * y) / scale) : (y - slope * x) ** 2 / scale;
      const weight = (FREEDOM + 1) / (FREEDOM + off);
      w += weight;
      wx += weight * x;
      wy += weight * y;
      wxx += weight * x * x;
      wxy += weight * x * y;
    }
    const varies = wxx - (wx * wx) / w;
    slope = varies > 0 ? (wxy - (wx * wy) / w) / varies : 0;
    if (!eitherWay) slope = Math.max(0, slope);
    offset = (wy - slope * wx) / w;
    left = seen.map((y, i) => y - slope! * expected[i] - offset);
    scale = scaleOf(left, scale);
  }
  return { slope: slope ?? 0, scale, left };
}

/** A feature without any tie to the ride: its noise's memory, what that cannot foretell, and its squared scale. */
export interface Untied {
  readonly memory: Float64Array;
  readonly left: Float64Array;
  readonly scale: number;
}

/** Fits a feature's own noise, once for all places. */
export function untied({ ready }: FeatureScore): Untied {
  const memory = fitAutoregression(ready, NOISE_ORDER, STEPS_A_SECOND);
  const alone = innovationsOf(ready, memory, STEPS_A_SECOND);
  // A ride on which nothing happens leaves the level alone to be fitted.
  const { left, scale } = tieTo(alone, new Float64Array(alone.length), { slope: null, scale: spread(alone) }, false);
  return { memory, left, scale };
}

/**
 * What each step of a feature says for a tie to the ride at a lag against none, natural log; NaN where either is missing.
 * Unlike the quick score over all lags, whose noise has the memory of the whole series, the noise's memory is that of what
 * the tie leaves, and its tails are heavy. Null where too little meets.
 */
export function heavyTailedTie(part: FeatureScore, lag: number, alone: Untied): Float64Array | null {
  const { ready, onto, eitherWay } = part;
  const expected = ready.map((_, i) => onto[i + lag] ?? NaN);
  let memory = alone.memory;
  let tie: { readonly slope: number | null; readonly scale: number; readonly left: Float64Array } = {
    slope: null,
    ...alone,
  };
  for (let round = 0; round < ROUNDS; round++) {
    if (round > 0) {
      const { slope } = tie;
      memory = fitAutoregression(
        ready.map((y, i) => y - slope! * expected[i]),
        NOISE_ORDER,
        STEPS_A_SECOND,
      );
    }
    const [y, x] = [ready, expected].map((series) => innovationsOf(series, memory, STEPS_A_SECOND));
    tie = tieTo(y, x, tie, eitherWay);
  }
  const { left, scale } = tie;
  const steps = left.reduce((count, e) => count + (Number.isFinite(e) ? 1 : 0), 0);
  if (steps < LEAST_S * STEPS_A_SECOND) return null;
  const met = alone.left.map((e, i) => (Number.isFinite(left[i]) ? e : NaN));
  const without = scaleOf(met, alone.scale);
  return left.map((e, i) => (logDensity(e, scale) - logDensity(met[i], without)) / STEPS_A_SECOND);
}
