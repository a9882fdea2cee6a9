import { turningSpans } from "../../main/footage/signals/turningSpans.ts";
import { SIGNAL_STEP_S } from "../../main/contract/signals.ts";
import type { FeatureSeries } from "../../main/lineup/signals/featureScores.ts";
import type { RideSeries } from "../../main/lineup/signals/rideSeries.ts";

/** Park and Miller's generator (1988), so that a seed gives the same pair everywhere. */
export function seeded(seed: number): () => number {
  let state = (seed * 7919 + 1) % 2_147_483_647;
  for (let k = 0; k < 10; k++) state = (state * 48_271) % 2_147_483_647;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

export function normal(next: () => number): number {
  return Math.sqrt(-2 * Math.log(next() + 1e-12)) * Math.cos(2 * Math.PI * next());
}

/** Wandering noise with standard deviation `sd` and memory `tauS` (an Ornstein-Uhlenbeck process). */
export function wander(n: number, sd: number, tauS: number, next: () => number): Float64Array {
  const keep = Math.exp(-SIGNAL_STEP_S / tauS);
  const out = new Float64Array(n);
  let v = sd * normal(next);
  for (let k = 0; k < n; k++) {
    out[k] = v;
    v = keep * v + sd * Math.sqrt(1 - keep * keep) * normal(next);
  }
  return out;
}

/** Humps of random height at random times, `everyS` apart on average and `lastS` long. */
function bursts(n: number, everyS: number, lastS: number, height: () => number, next: () => number): Float64Array {
  const out = new Float64Array(n);
  for (let t = -everyS * Math.log(next() + 1e-9); t < n * SIGNAL_STEP_S; t -= everyS * Math.log(next() + 1e-9)) {
    const h = height();
    const length = lastS * (0.5 + next());
    for (let k = Math.max(0, Math.floor(t / SIGNAL_STEP_S)); k < Math.min(n, (t + length) / SIGNAL_STEP_S); k++) {
      out[k]! += h * Math.sin((Math.PI * (k * SIGNAL_STEP_S - t)) / length);
    }
  }
  return out;
}

/** A column with what is missing put straight between its neighbours: where the recorder was silent the ride went on. */
export function bridged(column: Float64Array): Float64Array {
  const out = column.slice();
  let last = -1;
  for (let k = 0; k <= out.length; k++) {
    if (k < out.length && !Number.isFinite(column[k])) continue;
    const [a, b] = [column[last] ?? column[k] ?? 0, column[k] ?? column[last] ?? 0];
    for (let j = last + 1; j < k; j++) out[j] = a + ((j - last) / (k - last)) * (b - a);
    last = k;
  }
  return out;
}

/** What the reader of signals leaves of a clip: of a long one motion at keyframes, about one a second, and turning in windows. */
export function asRead(
  motion: Float64Array,
  turning: Float64Array,
): { readonly motion: Float64Array; readonly turning: Float64Array } {
  const durationS = motion.length * SIGNAL_STEP_S;
  const spans = turningSpans(durationS);
  if (spans.length === 1) return { motion, turning };
  const perKeyframe = Math.round(1 / SIGNAL_STEP_S);
  const inSpan = (k: number) => spans.some(({ fromS, toS }) => k * SIGNAL_STEP_S >= fromS && k * SIGNAL_STEP_S < toS);
  return {
    motion: bridged(motion.map((v, k) => (k % perKeyframe === 0 ? v : NaN))),
    turning: turning.map((v, k) => (inSpan(k) ? v : NaN)),
  };
}

/** A column of the ride at a ride time, s, straight between its steps. */
export function columnAt(column: Float64Array, rideS: number): number {
  const f = rideS / SIGNAL_STEP_S - 0.5;
  const i = Math.floor(f);
  const [a, b] = [column[i] ?? NaN, column[i + 1] ?? NaN];
  return a + (f - i) * (b - a);
}

export interface SimulatedClip {
  readonly series: FeatureSeries;
  /** The same with a gyroscope and an accelerometer in the camera. */
  readonly sensed: FeatureSeries;
  /** Ride time of its first sample, s. */
  readonly startS: number;
  readonly mount: "helmet" | "bars";
}

/**
 * What a camera on this ride might have seen and heard, by a noise model of our own: scenery, gusts, passing traffic, rain
 * on one in eight, head turns of a helmet that lead the road by up to a second, a clock up to 100 ppm off. A gyroscope
 * has 2 degrees a second of noise of its own, bars steer beside the course when it is slow, and a road shakes by its surface.
 */
export function simulateClip(ride: RideSeries, durationS: number, seed: number): SimulatedClip {
  const next = seeded(seed);
  const n = Math.round(durationS / SIGNAL_STEP_S);
  const startS = next() * Math.max(0, ride.seenMps.length * SIGNAL_STEP_S - durationS);
  const mount = next() < 0.5 ? "helmet" : "bars";
  const rate = 1 + (2 * next() - 1) * 100e-6;
  const rain = next() < 0.125;
  const at = (column: Float64Array, k: number, earlierS = 0) =>
    columnAt(column, startS + rate * (k + 0.5) * SIGNAL_STEP_S + earlierS);
  const riddenMps = bridged(ride.seenMps);
  const scenery = wander(n, 0.45, 15, next);
  const tremor = wander(n, 0.15, 0.3, next);
  const stirring = bursts(n, mount === "helmet" ? 15 : 60, 2, () => 1 + 2 * next(), next);
  const wind = wander(n, 3, 25, next);
  const gusts = wander(n, 2, 2, next);
  const traffic = bursts(n, 40, 4, () => 4 + 10 * next(), next);
  const headTurns =
    mount === "helmet"
      ? bursts(n, 12, 1.5, () => (next() < 0.5 ? -1 : 1) * (10 + 30 * next()), next)
      : new Float64Array(n);
  const shake = wander(n, mount === "helmet" ? 5 : 3, 0.4, next);
  const leadS = mount === "helmet" ? next() : 0.3 * next();
  const motion = new Float64Array(n);
  const sound = new Float64Array(n);
  const turning = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const v = at(riddenMps, k);
    motion[k] = Math.log(Math.exp(-6 + stirring[k]!) + (v / (v + 2)) * Math.exp(-3.4 + scenery[k]!)) + tremor[k]!;
    const airMps = Math.max(0.5, v * (1 + 0.02 * wind[k]!));
    const air = 40 * Math.log10(airMps) - 70 + wind[k]! * 0.7 + gusts[k]!;
    const floor = (rain ? 34 : 18) - 70 + 1.5 * normal(next);
    sound[k] = Math.min(-25, 10 * Math.log10(10 ** (air / 10) + 10 ** (floor / 10)) + traffic[k]!);
    const turn = at(ride.turning, k, leadS);
    turning[k] = ((Number.isFinite(turn) ? turn : 0) + headTurns[k]! + shake[k]!) / 100;
  }
  const swing = new Float64Array(n);
  const shaken = new Float64Array(n);
  const wobble = wander(n, 2, 0.4, next);
  const steered = wander(n, mount === "bars" ? 5 : 0, 0.6, next);
  const surface = wander(n, 0.35, 20, next);
  const holes = bursts(n, 25, 1, () => 1.2 * next(), next);
  const [driftDeg, side] = [2 * (next() - 0.5), next() < 0.5 ? -1 : 1];
  for (let k = 0; k < n; k++) {
    const v = at(riddenMps, k);
    const turn = at(ride.turning, k, mount === "helmet" ? leadS : 0);
    swing[k] =
      side * ((Number.isFinite(turn) ? turn : 0) + headTurns[k]! + wobble[k]! + (v > 0.3 && v < 4 ? steered[k]! : 0)) +
      driftDeg;
    const road = 0.35 * v ** 1.2 * Math.exp(surface[k]! + (v > 0.5 ? holes[k]! : 0));
    const handled = 0.25 * (Math.exp(stirring[k]!) - 1);
    shaken[k] = Math.log(Math.hypot(0.03, road, handled)) + 0.15 * normal(next);
  }
  const read = asRead(motion, turning);
  return {
    series: { sound, ...read, swing: null, shake: null },
    sensed: { sound, motion: read.motion, turning: null, swing, shake: shaken },
    startS,
    mount,
  };
}
