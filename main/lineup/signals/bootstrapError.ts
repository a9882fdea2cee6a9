import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { led, tieEvidence, type FeatureScore, type RecordingScore } from "./featureScores.ts";

/** Lags looked at on either side of the peak, steps. */
const REACH = 20;
const RESAMPLES = 100;

/** A small generator with a fixed start (Park and Miller 1988), so that a result repeats. */
function generator(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

/** Place of the largest entry, between entries by the parabola through three. */
export function peakOf(values: ArrayLike<number>): number {
  let best = 0;
  for (let k = 1; k < values.length; k++) if (values[k] > values[best] || !Number.isFinite(values[best])) best = k;
  const [a, b, c] = [values[best - 1], values[best], values[best + 1]];
  const bend = a - 2 * b + c;
  return bend < 0 ? best + (0.5 * (a - c)) / bend : best;
}

/** Of one block of one part at one lag: n, x, y, xx, yy, xy. */
const SUMS = 6;

/** Sums of each block at `width` lags from `first` on, in the order block, lag, sum. */
function blockSums(
  { seen, expected }: FeatureScore,
  block: number,
  blocks: number,
  first: number,
  width: number,
): Float64Array {
  const out = new Float64Array(blocks * width * SUMS);
  for (let b = 0; b < blocks; b++) {
    for (let d = 0; d < width; d++) {
      const at = (b * width + d) * SUMS;
      for (let i = b * block; i < (b + 1) * block; i++) {
        const x = seen[i];
        const y = expected[i + first + d];
        if (y === undefined || !Number.isFinite(x) || !Number.isFinite(y)) continue;
        out[at] += 1;
        out[at + 1] += x;
        out[at + 2] += y;
        out[at + 3] += x * x;
        out[at + 4] += y * y;
        out[at + 5] += x * y;
      }
    }
  }
  return out;
}

/**
 * Standard error of a recording's place, s, by resampling blocks of it (block bootstrap, Kunsch 1989): 30 s each, or a
 * sixth of a short recording. The spread is 1.4826 MAD of the peaks. Null when nothing can be resampled.
 */
export function bootstrapError(score: RecordingScore, lag: number): number | null {
  const samples = score.parts[0].seen.length;
  const block = Math.max(8, Math.min(Math.round(30 / SIGNAL_STEP_S), Math.floor(samples / 6)));
  const blocks = Math.floor(samples / block);
  if (blocks < 4) return null;
  const width = (part: FeatureScore) => 2 * REACH + 1 + part.leadSteps;
  const sums = score.parts.map((part) => blockSums(part, block, blocks, lag - REACH, width(part)));
  const next = generator(20_240_601);
  const peaks: number[] = [];
  for (let round = 0; round < RESAMPLES; round++) {
    const picked = Array.from({ length: blocks }, () => Math.min(blocks - 1, Math.floor(next() * blocks)));
    const evidence = new Float64Array(2 * REACH + 1);
    score.parts.forEach((part, p) => {
      const wide = width(part);
      const own = Float64Array.from({ length: wide }, (_, d) => {
        const s = [0, 0, 0, 0, 0, 0];
        for (const b of picked) for (let k = 0; k < SUMS; k++) s[k] += sums[p][(b * wide + d) * SUMS + k];
        const [n, sx, sy, sxx, syy, sxy] = s as [number, number, number, number, number, number];
        const variance = (sxx - (sx * sx) / n) * (syy - (sy * sy) / n);
        return variance > 0 ? tieEvidence((sxy - (sx * sy) / n) / Math.sqrt(variance), n, part.eitherWay) : 0;
      });
      led(own, part.leadSteps)
        .subarray(0, evidence.length)
        .forEach((v, d) => (evidence[d] += v));
    });
    peaks.push(peakOf(evidence));
  }
  peaks.sort((a, b) => a - b);
  const median = peaks[peaks.length >> 1];
  const off = peaks.map((p) => Math.abs(p - median)).sort((a, b) => a - b);
  return 1.4826 * off[off.length >> 1] * SIGNAL_STEP_S;
}
