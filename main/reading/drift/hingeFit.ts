import type { HeartBlocks } from "./heartBlocks.ts";
import { hingeProfile, type HingeProfile } from "./hingeProfile.ts";

/** Autocorrelations tried, per 60 s block. */
const rhoGrid: readonly number[] = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95];

/** A hinge placed by restricted likelihood. */
export interface HingeFit {
  /** At the autocorrelation that the restricted likelihood prefers. */
  readonly profile: HingeProfile;
  readonly rho: number;
  /** Index of the best corner in the profile. */
  readonly best: number;
  readonly psiMin: number;
  readonly slopePerMin: number;
  /** Variance of the whitened noise, beats squared. */
  readonly variance: number;
  /** What the hinge gains over no hinge, and over a hinge at the window's start, in units of that variance. */
  readonly gainOverNone: number;
  readonly gainOverStart: number;
}

/** Corners tried: the window's start, then from five minutes after it to ten before its end, a minute apart. */
export function psiGrid(blocks: HeartBlocks): Float64Array {
  const first = blocks.tMin[0];
  const last = blocks.tMin.at(-1) as number;
  const psi = [first];
  for (let t = first + 5; t <= last - 10; t++) psi.push(t);
  return Float64Array.from(psi);
}

/**
 * Fits bpm = base columns + slope * max(t - psi, 0) + AR(1) noise.
 *
 * The autocorrelation is the one of the grid with the highest restricted likelihood,
 * -1/2 [(n - p) log RSS + log |V| + log |X'V^-1 X|], at its best corner; then psi is where the RSS is least.
 *
 * @param base columns besides the hinge, a constant among them
 * @returns null when there are too few blocks or the columns are not independent
 */
export function hingeFit(
  blocks: HeartBlocks,
  base: readonly Float64Array[],
  psi: Float64Array = psiGrid(blocks),
): HingeFit | null {
  const n = blocks.bpm.length;
  const p = base.length + 1;
  if (n <= p + 2) return null;
  let chosen: { profile: HingeProfile; best: number; likelihood: number } | null = null;
  for (const rho of rhoGrid) {
    const profile = hingeProfile(base, blocks.bpm, blocks.tMin, blocks.gaps, psi, rho);
    if (!profile) continue;
    const best = indexOfLeast(profile.rss);
    const likelihood =
      -0.5 * ((n - p) * Math.log(profile.rss[best]) + profile.logRest + finiteOr(profile.logHinge[best], 0));
    if (!chosen || likelihood > chosen.likelihood) chosen = { profile, best, likelihood };
  }
  if (!chosen) return null;
  const { profile, best } = chosen;
  const least = profile.rss[best];
  const variance = least / (n - p - 1);
  return {
    profile,
    rho: profile.rho,
    best,
    psiMin: psi[best],
    slopePerMin: profile.slope[best],
    variance,
    gainOverNone: (profile.rssWithout - least) / variance,
    gainOverStart: (profile.rss[0] - least) / variance,
  };
}

export function indexOfLeast(values: Float64Array): number {
  let best = 0;
  values.forEach((value, index) => {
    if (value < values[best]) best = index;
  });
  return best;
}

function finiteOr(value: number, other: number): number {
  return Number.isFinite(value) ? value : other;
}
