import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { MaskedCorrelator } from "../../maths/maskedCorrelation.ts";
import { highPass } from "./highPass.ts";
import type { RideSeries } from "./rideSeries.ts";

export const FEATURES = ["motion", "sound", "turning"] as const;
export type Feature = (typeof FEATURES)[number];

/** Running means taken off, s: what is slower than this is scenery, wind and settings. */
const WINDOW_S: Readonly<Record<Feature, number>> = { motion: 60, sound: 300, turning: 20 };

/** Series of a clip or of a recording on the signals' grid; null where there is none. */
export type FeatureSeries = Readonly<Record<Feature, Float64Array | null>>;

/** A picture that stands still changes this much less than one in motion, as a natural logarithm (a third). */
const STILL_DROP = 1.1;
/** How long a head or a camera that looks into the bend may lead the turn, s. */
const TURN_LEAD_S = 1;

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
  const riding = quantile(motion.filter((v) => v > ordinary - STILL_DROP), 0.3);
  const still = quantile(motion, 0.03);
  return still < riding - STILL_DROP ? { riding, still } : null;
}

/** Motion with all above the level of riding held to it; null when the clip never stands. */
function stopAndGo(motion: Float64Array): Float64Array | null {
  const levels = motionLevels(motion);
  return levels && motion.map((v) => Math.min(v, levels.riding));
}

/** A series prepared for correlation, its slow part taken off. */
export function prepared(feature: Feature, series: Float64Array): Float64Array {
  return highPass(series, Math.round(WINDOW_S[feature] / SIGNAL_STEP_S));
}

/** The ride, ready to be held against any number of recordings. */
export type RideCorrelators = Readonly<Record<Feature, MaskedCorrelator>>;

export function rideCorrelators(series: RideSeries): RideCorrelators {
  const of = (feature: Feature) => new MaskedCorrelator(prepared(feature, series[feature]));
  return { motion: of("motion"), sound: of("sound"), turning: of("turning") };
}

/** Scores at every lag: how many typical deviations above the ride's ordinary agreement. */
export interface Scores {
  /** Lag of entry 0, in steps: recording sample i meets ride sample i + firstLag + k. */
  readonly firstLag: number;
  /** NaN where too little meets. */
  readonly z: Float64Array;
}

function middle(sorted: Float64Array): number {
  return sorted[sorted.length >> 1] ?? NaN;
}

/** Median and 1.4826 MAD of the valid entries. */
function ordinary(values: Float64Array): { readonly median: number; readonly spread: number } {
  const valid = values.filter(Number.isFinite).sort();
  const median = middle(valid);
  return { median, spread: 1.4826 * middle(valid.map((v) => Math.abs(v - median)).sort()) };
}

/** Deviations from the median in units of 1.4826 MAD over all valid entries: calibrates itself on the whole ride. */
export function scaled(values: Float64Array): Float64Array {
  const { median, spread } = ordinary(values);
  return values.map((v) => (spread > 0 ? (v - median) / spread : NaN));
}

/** Value that a standard normal variable exceeds with chance `p` (Abramowitz and Stegun 26.2.23; good to 4.5e-4). */
function normalExceeding(p: number): number {
  const lower = p > 0.5;
  const t = Math.sqrt(-2 * Math.log(lower ? 1 - p : p));
  const x = t - (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t ** 3);
  return lower ? -x : x;
}

/**
 * Normal scores by rank: what share of all places in the ride agrees at least as well, as deviations of a normal
 * variable. So a feature with a few wild values and one that is bounded weigh alike.
 */
function normalScores(values: Float64Array): Float64Array {
  const order = Array.from(values.keys()).filter((k) => Number.isFinite(values[k])).sort((a, b) => values[b] - values[a]);
  const out = new Float64Array(values.length).fill(NaN);
  order.forEach((k, rank) => (out[k] = normalExceeding((rank + 0.5) / order.length)));
  return out;
}

/** One feature of a recording held against the whole ride. */
export interface FeatureScore extends Scores {
  readonly feature: Feature;
  /** The recording's prepared series, and what makes a z of its atanh r. */
  readonly ready: Float64Array;
  readonly median: number;
  readonly spread: number;
}

/** atanh of a correlation, held away from infinity. */
export function fisher(r: number): number {
  return Math.atanh(Math.max(-0.9999, Math.min(0.9999, r)));
}

/** The best of each lag and those up to `TURN_LEAD_S` later, where a lead would put the match. */
function led(values: Float64Array): Float64Array {
  const reach = Math.round(TURN_LEAD_S / SIGNAL_STEP_S);
  return values.map((value, k) => {
    let best = value;
    for (let j = 1; j <= reach; j++) if (values[k + j] > best) best = values[k + j]!;
    return best;
  });
}

/** z of one feature; null when the series is missing, hardly there, or does not vary. */
function featureScore(feature: Feature, series: Float64Array | null, ride: RideCorrelators): FeatureScore | null {
  const usable = series && feature === "motion" ? stopAndGo(series) : series;
  if (!usable) return null;
  const ready = prepared(feature, usable);
  if (ready.filter(Number.isFinite).length < 60) return null;
  const { firstLag, r } = ride[feature].against(ready, 0.6);
  const f = feature === "turning" ? led(r.map(fisher)) : r.map(fisher);
  const { median, spread } = ordinary(f);
  if (!(spread > 0)) return null;
  return { feature, ready, firstLag, z: normalScores(f), median, spread };
}

/** Solves A w = b for up to three unknowns by elimination with pivots. */
function solve(a: number[][], b: number[]): number[] {
  const n = b.length;
  const m = a.map((row, k) => [...row, b[k]]);
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(m[r][c]) > Math.abs(m[pivot][c])) pivot = r;
    [m[c], m[pivot]] = [m[pivot], m[c]];
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const f = m[r][c] / m[c][c];
      for (let k = c; k <= n; k++) m[r][k] = m[r][k] - f * m[c][k];
    }
  }
  return m.map((row, k) => row[n] / row[k]);
}

/** A recording held against the whole ride by all its features together. */
export interface RecordingScore extends Scores {
  readonly parts: readonly FeatureScore[];
  /** z = sum of weight x z of each part. */
  readonly weights: readonly number[];
}

/**
 * One score from several: weights from the inverse of their covariance over all lags (clipped at 4, plus 0.05 on the
 * diagonal), none negative, so that what follows the same cause does not count twice.
 */
function combined(parts: readonly FeatureScore[]): RecordingScore | null {
  if (parts.length === 0) return null;
  const length = parts[0].z.length;
  const cov = parts.map(() => parts.map(() => 0));
  let count = 0;
  for (let k = 0; k < length; k++) {
    if (!parts.every((part) => Number.isFinite(part.z[k]))) continue;
    count++;
    const held = parts.map((part) => Math.max(-4, Math.min(4, part.z[k])));
    held.forEach((a, i) => held.forEach((b, j) => (cov[i][j] += a * b)));
  }
  if (count === 0) return null;
  cov.forEach((row, i) => row.forEach((v, j) => (row[j] = v / count + (i === j ? 0.05 : 0))));
  const w = solve(cov, parts.map(() => 1)).map((v) => Math.max(0, v));
  const variance = cov.reduce((sum, row, i) => sum + row.reduce((s, v, j) => s + w[i] * w[j] * v, 0), 0);
  const weights = w.map((v) => v / Math.sqrt(variance));
  const z = new Float64Array(length);
  for (let k = 0; k < length; k++) z[k] = parts.reduce((sum, part, i) => sum + weights[i] * part.z[k], 0);
  return { firstLag: parts[0].firstLag, z, parts, weights };
}

/** Score of a recording over all lags, from whichever features it has; null when it has none. */
export function recordingScore(series: FeatureSeries, ride: RideCorrelators): RecordingScore | null {
  const parts = FEATURES.map((feature) => featureScore(feature, series[feature], ride)).filter((s): s is FeatureScore => s !== null);
  return combined(parts);
}
