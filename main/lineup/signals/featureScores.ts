import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { fitAutoregression, innovationsOf } from "../../maths/autoregressiveFilter.ts";
import { MaskedCorrelator } from "../../maths/maskedCorrelation.ts";
import { highPass } from "./highPass.ts";
import type { RideSeries } from "./rideSeries.ts";

export const FEATURES = ["motion", "sound", "turning", "swing", "shake"] as const;
export type Feature = (typeof FEATURES)[number];

/** Running means taken off, s: what is slower than this is scenery, wind and settings. */
const WINDOW_S: Readonly<Record<Feature, number>> = {
  motion: 60,
  sound: 300,
  turning: 20,
  swing: 20,
  shake: 60,
};

/** Series of a clip or of a recording on the signals' grid; null where there is none. */
export type FeatureSeries = Readonly<Record<Feature, Float64Array | null>>;

/** A picture that stands still changes this much less than one in motion, as a natural logarithm (a third). */
const STILL_DROP = 1.1;
/** How long a head or a camera that looks into the bend may lead the turn, s. */
const TURN_LEAD_S = 1;
/** Noise is taken for an autoregression over this many seconds: it has a memory, and only what it cannot foretell counts. */
export const NOISE_ORDER = 4;
/** Steps in a second, over which both sides are averaged first: the ride knows no more. */
export const STEPS_A_SECOND = Math.round(1 / SIGNAL_STEP_S);
/** Innovations are held to so many of their ordinary deviations, so that no single jolt decides; the ride's to more, since its stops are no noise. */
const HELD_AT = 4;
const RIDE_HELD_AT = 12;
/** A feature with fewer seconds than this is left out. */
const LEAST_S = 15;

function quantile(series: Float64Array, share: number): number {
  const valid = series.filter(Number.isFinite).sort();
  return valid[Math.floor(share * (valid.length - 1))] ?? NaN;
}

/**
 * Levels of a clip's motion when riding and when standing. Null when it never stands: how much a moving picture changes
 * is scenery, and tells nothing.
 */
export function motionLevels(motion: Float64Array): { readonly riding: number; readonly still: number } | null {
  const ordinary = quantile(motion, 0.5);
  const riding = quantile(
    motion.filter((v) => v > ordinary - STILL_DROP),
    0.3,
  );
  const still = quantile(motion, 0.03);
  return still < riding - STILL_DROP ? { riding, still } : null;
}

/** Motion with all above the level of riding held to it; null when the clip never stands. */
function stopAndGo(motion: Float64Array): Float64Array | null {
  const levels = motionLevels(motion);
  return levels && motion.map((v) => Math.min(v, levels.riding));
}

/** Means over a second about each step; NaN where less than half of it is there. */
function secondMeans(series: Float64Array): Float64Array {
  const half = STEPS_A_SECOND / 2;
  return series.map((_, k) => {
    let [sum, weight] = [0, 0];
    for (let j = -half; j <= half; j++) {
      const v = series[k + j];
      if (v === undefined || !Number.isFinite(v)) continue;
      const w = Math.abs(j) === half ? 0.5 : 1;
      sum += w * v;
      weight += w;
    }
    return weight > half ? sum / weight : NaN;
  });
}

/** A series prepared for correlation: its slow part taken off, averaged over a second. */
function prepared(feature: Feature, series: Float64Array): Float64Array {
  return secondMeans(highPass(series, Math.round(WINDOW_S[feature] / SIGNAL_STEP_S)));
}

/** The ride's series, prepared once. */
export type PreparedRide = Readonly<Record<Feature, Float64Array>>;

export function prepareRide(series: RideSeries): PreparedRide {
  const turning = prepared("turning", series.turning);
  return {
    motion: prepared("motion", series.motion),
    sound: prepared("sound", series.sound),
    turning,
    swing: turning,
    shake: prepared("shake", series.shake),
  };
}

/** A series held to `times` its ordinary deviation: 1.4826 MAD, or the standard deviation where most of it is flat. */
function held(series: Float64Array, times: number): Float64Array {
  const sizes = series.filter(Number.isFinite).map(Math.abs).sort();
  const robust = 1.4826 * (sizes[sizes.length >> 1] ?? NaN);
  const plain = Math.sqrt(sizes.reduce((sum, v) => sum + v * v, 0) / sizes.length);
  const limit = times * (robust > 0.2 * plain ? robust : plain);
  return series.map((v) => Math.max(-limit, Math.min(limit, v)));
}

/** How much likelier the signals are at each lag than without any tie to the ride, natural log. */
export interface Evidence {
  /** Lag of entry 0, in steps: recording sample i meets ride sample i + firstLag + k. */
  readonly firstLag: number;
  /** 0 or more; NaN where too little meets. */
  readonly evidence: Float64Array;
}

/** One feature of a recording held against the whole ride. */
export interface FeatureScore extends Evidence {
  readonly feature: Feature;
  /** What the noise's memory cannot foretell of the recording and, through the same filter, of the ride. */
  readonly seen: Float64Array;
  readonly expected: Float64Array;
  /** The recording and the ride before that filter. */
  readonly ready: Float64Array;
  readonly onto: Float64Array;
  /** The recording may be ahead of the ride by up to so many steps. */
  readonly leadSteps: number;
  /** A tie of either sign counts. */
  readonly eitherWay: boolean;
}

/**
 * Log likelihood ratio of a linear tie of unknown strength and right sign against none, from the correlation `r` of
 * white series over `steps` (Wilks 1938; from memory); of any sign where it may count `eitherWay`.
 */
export function tieEvidence(r: number, steps: number, eitherWay: boolean): number {
  return r > 0 || eitherWay ? (-0.5 * steps * Math.log(1 - Math.min(Math.abs(r), 0.9999) ** 2)) / STEPS_A_SECOND : 0;
}

/** The best of each lag and those up to `steps` later, where a lead would put the match. */
export function led(values: Float64Array, steps: number): Float64Array {
  if (steps === 0) return values;
  return values.map((value, k) => {
    let best = value;
    for (let j = 1; j <= steps; j++) if (values[k + j] > best) best = values[k + j]!;
    return best;
  });
}

/** Evidence of one feature; null when the series is missing, hardly there, or does not vary. */
function featureScore(feature: Feature, series: Float64Array | null, ride: PreparedRide): FeatureScore | null {
  const usable = series && feature === "motion" ? stopAndGo(series) : series;
  if (!usable) return null;
  const ready = prepared(feature, usable);
  const noise = fitAutoregression(ready, NOISE_ORDER, STEPS_A_SECOND);
  const seen = held(innovationsOf(ready, noise, STEPS_A_SECOND), HELD_AT);
  const steps = seen.filter(Number.isFinite).length;
  if (steps < LEAST_S * STEPS_A_SECOND || !seen.some((v) => v > 0)) return null;
  const expected = held(innovationsOf(ride[feature], noise, STEPS_A_SECOND), RIDE_HELD_AT);
  const { firstLag, r } = new MaskedCorrelator(expected).against(seen, 0.6);
  if (!r.some(Number.isFinite)) return null;
  // Streams of gyroscopes do not agree on which way is positive.
  const eitherWay = feature === "swing";
  const leadSteps = feature === "turning" || feature === "swing" ? Math.round(TURN_LEAD_S / SIGNAL_STEP_S) : 0;
  return {
    feature,
    firstLag,
    evidence: led(
      r.map((v) => (Number.isFinite(v) ? tieEvidence(v, steps, eitherWay) : NaN)),
      leadSteps,
    ),
    seen,
    expected,
    ready,
    onto: ride[feature],
    leadSteps,
    eitherWay,
  };
}

/**
 * The features whose evidence adds up at entry `k`. Their noises are apart; but motion and shake both tell above all when
 * the bike stands, and a stop that is there by chance is there in both: of these two the stronger counts.
 */
export function countedAt(parts: readonly FeatureScore[], k: number): readonly FeatureScore[] {
  const [motion, shake] = (["motion", "shake"] as const).map((name) => parts.find(({ feature }) => feature === name));
  if (!motion || !shake) return parts;
  const weaker = motion.evidence[k] > shake.evidence[k] ? shake : motion;
  return Number.isFinite(motion.evidence[k]) && Number.isFinite(shake.evidence[k])
    ? parts.filter((part) => part !== weaker)
    : parts;
}

/** A recording held against the whole ride by all its features. */
export interface RecordingScore extends Evidence {
  readonly parts: readonly FeatureScore[];
}

/** Evidence of a recording over all lags, from whichever features it has; null when it has none. */
export function recordingScore(series: FeatureSeries, ride: PreparedRide): RecordingScore | null {
  const parts = FEATURES.map((feature) => featureScore(feature, series[feature], ride)).filter(
    (part): part is FeatureScore => part !== null,
  );
  if (parts.length === 0) return null;
  const { firstLag } = parts[0];
  const evidence = new Float64Array(parts[0].evidence.length).fill(NaN);
  for (let k = 0; k < evidence.length; k++) {
    for (const part of countedAt(parts, k))
      if (Number.isFinite(part.evidence[k]))
        evidence[k] = (Number.isFinite(evidence[k]) ? evidence[k] : 0) + part.evidence[k];
  }
  return { firstLag, evidence, parts };
}
