import { mixedWhitener, whiten, type MixedNoise, type Whitener } from "../../maths/whitener.ts";
import type { HeartBlocks } from "./heartBlocks.ts";

/** What is thought likely before looking; see `onsetWeights`. */
interface OnsetPriors {
  /** Slope that a heart has from the start, beats a minute: mean and SD. A slow rise is normal in every domain. */
  readonly creepMean: number;
  readonly creepSd: number;
  /** SD of the slope that an onset adds, beats a minute. */
  readonly slopeSd: number;
  /** Kinds of noise, equally likely. */
  readonly noises: readonly MixedNoise[];
}

/** What the corners are weighed on. */
export interface OnsetQuestion {
  readonly blocks: HeartBlocks;
  /** Heart rate of the blocks, bpm. */
  readonly bpm: Float64Array;
  /** Lagged power of the blocks where its effect is free; null where it is taken out already or there is none. */
  readonly powerColumn: Float64Array | null;
  /** Corners, minutes, ascending; the first is the start. */
  readonly psiMin: Float64Array;
  /** SD of the noise, beats. */
  readonly noiseSd: number;
  readonly priors: OnsetPriors;
}

/** How likely each corner is. */
export interface OnsetWeights {
  readonly psiMin: Float64Array;
  /** One per corner; they add up to 1. The first stands for a rise from the start. */
  readonly weight: Float64Array;
  /**
   * How much better the corners inside, taken together, explain the blocks than no rise beyond the creep does: natural log
   * of the ratio of their marginal likelihoods.
   */
  readonly logOverNone: number;
}

/**
 * How likely each corner of the rise is, given the blocks: every kind of noise and every size of creep and slope is
 * weighed by how well it explains them (marginal likelihood), not the best one alone.
 *
 * bpm = a + c * power + creep * t + slope * max(t - psi, 0) + noise. a and c are free; creep and slope have normal priors,
 * written as one extra row each, in units of the noise's SD.
 */
export function onsetWeights(question: OnsetQuestion): OnsetWeights {
  const { psiMin, priors } = question;
  const logs = priors.noises.map((noise) => logLikelihoods(question, noise));
  let most = -Infinity;
  for (const one of logs) for (const value of one.corners) most = Math.max(most, value);
  const weight = new Float64Array(psiMin.length);
  let sum = 0;
  let none = 0;
  for (const { corners, without } of logs) {
    none += Math.exp(without - most);
    for (let k = 0; k < corners.length; k++) {
      const likely = Math.exp(corners[k] - most);
      weight[k] = weight[k] + likely;
      sum += likely;
    }
  }
  const inside = weight.subarray(1).reduce((total, one) => total + one, 0) / (weight.length - 1);
  return { psiMin, weight: weight.map((one) => one / sum), logOverNone: Math.log(inside) - Math.log(none) };
}

/** Log marginal likelihood of each corner, and without a rise, up to one constant. */
function logLikelihoods(
  question: OnsetQuestion,
  noise: MixedNoise,
): { readonly corners: Float64Array; readonly without: number } {
  const { blocks, bpm, powerColumn, psiMin, noiseSd, priors } = question;
  const { tMin, gaps } = blocks;
  const n = bpm.length;
  const whitener = mixedWhitener(gaps, noise);
  const startMin = tMin[0];
  const creepRow = noiseSd / priors.creepSd;
  const slopeRow = noiseSd / priors.slopeSd;
  const creep = whiten(
    whitener,
    tMin.map((t) => t - startMin),
    1,
  );
  creep[n] = creepRow;
  const base = [
    whiten(whitener, new Float64Array(n).fill(1), 1),
    ...(powerColumn ? [whiten(whitener, powerColumn, 1)] : []),
    creep,
  ];
  const y = whiten(whitener, bpm, 1);
  y[n] = creepRow * priors.creepMean;
  const q: Float64Array[] = [];
  let logRest = whitener.logDeterminant;
  for (const column of base) {
    takeOut(q, column);
    const length = Math.sqrt(dot(column, column));
    logRest += 2 * Math.log(length);
    q.push(column.map((value) => value / length));
  }
  takeOut(q, y);
  const rssWithout = dot(y, y);
  const free = n - (powerColumn ? 2 : 1);
  const along = new Float64Array(q.length);
  const result = new Float64Array(psiMin.length);
  let first = 0;
  for (let k = 0; k < psiMin.length; k++) {
    while (first < n && tMin[first] <= psiMin[k]) first++;
    const { squares, withY } = hingeSums(whitener, tMin, psiMin[k], first, q, y, along);
    let length2 = squares + slopeRow * slopeRow;
    for (const part of along) length2 -= part * part;
    const rss = rssWithout - (withY * withY) / length2;
    result[k] = -0.5 * (free * Math.log(rss) + logRest + Math.log(length2));
  }
  // Without a rise the prior of its slope is all that is left of its row.
  return { corners: result, without: -0.5 * (free * Math.log(rssWithout) + logRest + Math.log(slopeRow * slopeRow)) };
}

/** Sums of the whitened hinge with itself, with y and with the base columns, without keeping it. */
function hingeSums(
  whitener: Whitener,
  tMin: Float64Array,
  psi: number,
  first: number,
  q: readonly Float64Array[],
  y: Float64Array,
  along: Float64Array,
): { squares: number; withY: number } {
  let squares = 0;
  let withY = 0;
  let quick = 0;
  let slow = 0;
  along.fill(0);
  for (let i = first; i < tMin.length; i++) {
    quick *= whitener.quick[i];
    slow *= whitener.slow[i];
    const innovation = tMin[i] - psi - quick - slow;
    const value = innovation / whitener.root[i];
    quick += whitener.gainQuick[i] * innovation;
    slow += whitener.gainSlow[i] * innovation;
    squares += value * value;
    withY += value * y[i];
    for (let j = 0; j < q.length; j++) along[j] = along[j] + value * q[j][i];
  }
  return { squares, withY };
}

function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += one[i] * other[i];
  return sum;
}

function takeOut(q: readonly Float64Array[], v: Float64Array): void {
  for (let pass = 0; pass < 2; pass++) {
    for (const column of q) {
      const part = dot(column, v);
      for (let i = 0; i < v.length; i++) v[i] = v[i] - part * column[i];
    }
  }
}
