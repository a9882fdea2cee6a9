import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { bootstrapError, peakOf } from "./bootstrapError.ts";
import { prepared, rideCorrelators, type Feature, type RideCorrelators } from "./featureScores.ts";
import { groupScore, halves, type GroupMember, type GroupScore } from "./groupScore.ts";
import type { RideSeries } from "./rideSeries.ts";

/** The ride made ready once for all groups. */
export interface RideForSignals {
  readonly series: RideSeries;
  readonly prepared: Readonly<Record<Feature, Float64Array>>;
  readonly correlators: RideCorrelators;
  readonly elapsedS: number;
}

/** Prepares a ride of `elapsedS`. */
export function rideForSignals(series: RideSeries, elapsedS: number): RideForSignals {
  const of = (feature: Feature) => prepared(feature, series[feature]);
  return { series, prepared: { motion: of("motion"), sound: of("sound"), turning: of("turning") }, correlators: rideCorrelators(series), elapsedS };
}

/** What must hold for `sure` (each is asked). */
export const SURE = {
  /** Score of the peak. */
  leastZ: 5,
  /** Log posterior of the peak over that of the next one more than `rivalS` away. */
  leastGap: 4,
  rivalS: 8,
  /** Each half of the footage alone: how far off, and how high its score. */
  halfOffS: 1.5,
  leastHalfZ: 2,
  /** Twice the standard error, s. */
  most2SeS: 1,
} as const;

export interface MemberPlace {
  /** Ride time of the member's first frame, s. */
  readonly offsetS: number;
  /** Its own score there; NaN when it has none. */
  readonly z: number;
  /** Half-width of about 95 %, s; at least 0.25; null when it has no evidence of its own. */
  readonly uncertaintyS: number | null;
}

export interface GroupSolution {
  readonly sure: boolean;
  readonly z: number;
  readonly gap: number;
  readonly halfOffS: number;
  readonly halfZ: number;
  readonly members: readonly MemberPlace[];
  /** Places of the group's first start, best first, at most three, with their score. */
  readonly candidates: readonly { readonly startS: number; readonly score: number }[];
  /** Which conditions failed, in words. */
  readonly doubts: readonly string[];
}

/** Log of how likely a start of the group's first recording is before anything is heard or seen. */
export type LogPrior = (startS: number) => number;

interface Peak {
  readonly index: number;
  readonly logP: number;
}

/** Largest log posteriors more than `rivalS` from each other. */
function peaks(score: GroupScore, prior: LogPrior, most: number): Peak[] {
  const logP = score.z.map((z, k) => 0.5 * Math.max(z, 0) ** 2 + prior((score.firstLag + k) * SIGNAL_STEP_S));
  const apart = SURE.rivalS / SIGNAL_STEP_S;
  const found: Peak[] = [];
  while (found.length < most) {
    let best = -1;
    for (let k = 0; k < logP.length; k++) {
      if (!Number.isFinite(logP[k]) || found.some((peak) => Math.abs(peak.index - k) <= apart)) continue;
      if (best < 0 || logP[k]! > logP[best]!) best = k;
    }
    if (best < 0) break;
    found.push({ index: best, logP: logP[best]! });
  }
  return found;
}

/** Highest score within `reach` steps of a place, and where. */
function localPeak(z: Float64Array, centre: number, reach: number): { readonly at: number; readonly z: number } {
  const from = Math.max(0, centre - reach);
  const window = z.subarray(from, Math.min(z.length, centre + reach + 1));
  if (window.length === 0 || !window.some(Number.isFinite)) return { at: centre, z: NaN };
  const at = peakOf(window);
  return { at: from + at, z: window[Math.max(0, Math.min(window.length - 1, Math.round(at)))]! };
}

function memberPlaces(score: GroupScore, members: readonly GroupMember[], startStep: number, slackSteps: number, ride: RideForSignals): MemberPlace[] {
  return members.map((member, k): MemberPlace => {
    const own = score.members[k];
    const step = startStep + Math.round(member.afterFirstS / SIGNAL_STEP_S);
    const byClock = { offsetS: startStep * SIGNAL_STEP_S + member.afterFirstS, z: NaN, uncertaintyS: null };
    if (!own) return byClock;
    const peak = localPeak(own.z, step - own.firstLag, slackSteps + 1);
    if (!(peak.z >= 2)) return { ...byClock, z: peak.z };
    const lag = own.firstLag + peak.at;
    const error = bootstrapError(own, ride.prepared, Math.round(lag));
    return { offsetS: lag * SIGNAL_STEP_S, z: peak.z, uncertaintyS: error === null ? null : Math.max(0.25, 2 * error) };
  });
}

/**
 * Finds one place in the ride for all recordings of a clock group by what was seen and heard, and how sure that is.
 * Null when the group has nothing to hold on to (no signals, or a ride too short to tell chance from agreement).
 */
export function solveGroup(members: readonly GroupMember[], ride: RideForSignals, prior: LogPrior, slackS: number): GroupSolution | null {
  const score = groupScore(members, ride.correlators, slackS);
  if (!score) return null;
  const found = peaks(score, prior, 3);
  const best = found[0];
  if (!best) return null;
  const z = score.z[best.index]!;
  const gap = best.logP - (found[1]?.logP ?? -Infinity);
  const startStep = score.firstLag + best.index;
  const near = Math.round(15 / SIGNAL_STEP_S);
  const halfPeaks = halves(members).map((half) => {
    const halfScore = groupScore(half, ride.correlators, slackS);
    if (!halfScore) return { offS: Infinity, z: 0 };
    const peak = localPeak(halfScore.z, startStep - halfScore.firstLag, near);
    return { offS: Math.abs(halfScore.firstLag + peak.at - startStep) * SIGNAL_STEP_S, z: peak.z };
  });
  const halfOffS = Math.max(...halfPeaks.map((half) => half.offS));
  const halfZ = Math.min(...halfPeaks.map((half) => half.z));
  const places = memberPlaces(score, members, startStep, Math.round(slackS / SIGNAL_STEP_S), ride);
  const errors = places.map((place) => place.uncertaintyS).filter((e): e is number => e !== null);
  const doubts: string[] = [];
  if (!(z >= SURE.leastZ)) doubts.push("the agreement could be chance");
  if (!(gap >= SURE.leastGap)) doubts.push("another place in the ride fits nearly as well");
  if (!(halfOffS <= SURE.halfOffS && halfZ >= SURE.leastHalfZ)) doubts.push("its two halves do not both point there");
  if (errors.length === 0 || Math.min(...errors) > SURE.most2SeS) doubts.push("the place is not sharp");
  return {
    sure: doubts.length === 0,
    z,
    gap,
    halfOffS,
    halfZ,
    members: places,
    candidates: found.map((peak) => ({ startS: (score.firstLag + peak.index) * SIGNAL_STEP_S, score: score.z[peak.index]! })),
    doubts,
  };
}
