import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { bootstrapError, peakOf } from "./bootstrapError.ts";
import { motionLevels, prepared, rideCorrelators, type Feature, type RideCorrelators } from "./featureScores.ts";
import { groupScore, halves, type GroupMember, type GroupScore } from "./groupScore.ts";
import { matchedTurns } from "./matchedTurns.ts";
import { cameraStops, edgeShift, rideStops, type StopEdge } from "./stopEdges.ts";
import type { RideSeries } from "./rideSeries.ts";

/** The ride made ready once for all groups. */
export interface RideForSignals {
  readonly series: RideSeries;
  readonly prepared: Readonly<Record<Feature, Float64Array>>;
  readonly correlators: RideCorrelators;
  readonly elapsedS: number;
  readonly stops: readonly StopEdge[];
}

/** Prepares a ride of `elapsedS`. */
export function rideForSignals(series: RideSeries, elapsedS: number): RideForSignals {
  const of = (feature: Feature) => prepared(feature, series[feature]);
  return { series, prepared: { motion: of("motion"), sound: of("sound"), turning: of("turning") }, correlators: rideCorrelators(series), elapsedS, stops: rideStops(series.speedMps) };
}

/** What must hold for `sure` (each is asked). */
export const SURE = {
  /** Score of the peak. */
  leastZ: 5,
  /** Log posterior of the peak over that of the next one more than `rivalS` away. */
  leastGap: 6,
  rivalS: 8,
  /** Each half of the footage alone: its score at the place, to this many s, and how much likelier a place near by may be (log). */
  halfOffS: 1.5,
  leastHalfZ: 2,
  mostHalfLoss: 2,
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
  /** Ride times of halts that its picture shows, s, and how many of the ride's turns it shows. */
  readonly stopsS: readonly number[];
  readonly turns: number;
}

export interface GroupSolution {
  readonly sure: boolean;
  readonly z: number;
  readonly gap: number;
  readonly halfLoss: number;
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
      if (best < 0 || logP[k] > logP[best]) best = k;
    }
    if (best < 0) break;
    found.push({ index: best, logP: logP[best] });
  }
  return found;
}

/** Highest score within `reach` steps of a place, and where. */
function localPeak(z: Float64Array, centre: number, reach: number): { readonly at: number; readonly z: number } {
  const from = Math.max(0, centre - reach);
  const window = z.subarray(from, Math.min(z.length, centre + reach + 1));
  if (window.length === 0 || !window.some(Number.isFinite)) return { at: centre, z: NaN };
  const at = peakOf(window);
  return { at: from + at, z: window[Math.max(0, Math.min(window.length - 1, Math.round(at)))] };
}

/** A member with standing in it: the edges fix its place to this, s: two standard errors of one edge, a guess of ours that clips of the made ride bear out (errors below 0.5 s); no published figure. */
const EDGE_2SE_S = 0.5;
/** A score of its own from which a member's place is taken from itself and not from the group's. */
const OWN_Z = 3;

function memberPlaces(score: GroupScore, members: readonly GroupMember[], startS: number, slackS: number, ride: RideForSignals): MemberPlace[] {
  const own = members.map((member, k): MemberPlace | null => {
    const found = score.members[k];
    const offsetS = startS + member.afterFirstS;
    if (!found) return null;
    const reach = Math.round(slackS / SIGNAL_STEP_S);
    const peak = localPeak(found.z, Math.round(offsetS / SIGNAL_STEP_S) - found.firstLag, reach + 1);
    const levels = member.series.motion && motionLevels(member.series.motion);
    const edges = levels ? edgeShift(cameraStops(member.series.motion, levels.riding, levels.still), ride.stops, offsetS) : { shiftS: 0, count: 0, stopsS: [] };
    const turns = member.series.turning ? matchedTurns(member.series.turning, ride.series.turning, offsetS) : 0;
    const shown = { stopsS: edges.stopsS, turns };
    if (edges.count > 0) return { ...shown, offsetS: offsetS + edges.shiftS, z: peak.z, uncertaintyS: Math.max(0.25, EDGE_2SE_S / Math.sqrt(edges.count)) };
    const lagS = (found.firstLag + peak.at) * SIGNAL_STEP_S;
    const error = bootstrapError(found, ride.prepared, Math.round(lagS / SIGNAL_STEP_S));
    return { ...shown, offsetS: lagS, z: peak.z, uncertaintyS: error === null || !(peak.z >= OWN_Z) ? null : Math.max(0.25, 2 * error) };
  });
  // The sharpest member fixes the place of those without a sharp place of their own, through the camera's clock.
  let anchor = -1;
  own.forEach((place, k) => {
    if (place && place.uncertaintyS !== null && (anchor < 0 || place.uncertaintyS < own[anchor]!.uncertaintyS!)) anchor = k;
  });
  const firstS = anchor < 0 ? startS : own[anchor]!.offsetS - members[anchor].afterFirstS;
  return members.map((member, k) => {
    const place = own[k];
    if (place && place.uncertaintyS !== null && (k === anchor || place.uncertaintyS <= slackS)) return place;
    return { offsetS: firstS + member.afterFirstS, z: place?.z ?? NaN, uncertaintyS: null, stopsS: place?.stopsS ?? [], turns: place?.turns ?? 0 };
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
  const z = score.z[best.index];
  const gap = best.logP - (found[1]?.logP ?? -Infinity);
  const startStep = score.firstLag + best.index;
  const near = Math.round(15 / SIGNAL_STEP_S);
  const places = memberPlaces(score, members, startStep * SIGNAL_STEP_S, slackS, ride);
  // The halves are asked about the place that is claimed, not about the coarse peak.
  const claimedStep = Math.round(places[0].offsetS / SIGNAL_STEP_S);
  const halfPeaks = halves(members).map((half) => {
    const halfScore = groupScore(half, ride.correlators, slackS);
    if (!halfScore) return { loss: Infinity, z: 0 };
    const centre = claimedStep - halfScore.firstLag;
    const here = localPeak(halfScore.z, centre, Math.round(SURE.halfOffS / SIGNAL_STEP_S)).z;
    const best = localPeak(halfScore.z, centre, near).z;
    return { loss: 0.5 * (Math.max(best, 0) ** 2 - Math.max(here, 0) ** 2), z: here };
  });
  const halfLoss = Math.max(...halfPeaks.map((half) => half.loss));
  const halfZ = Math.min(...halfPeaks.map((half) => half.z));
  const errors = places.map((place) => place.uncertaintyS).filter((e): e is number => e !== null);
  const doubts: string[] = [];
  if (!(z >= SURE.leastZ)) doubts.push("the agreement could be chance");
  if (!(gap >= SURE.leastGap)) doubts.push("another place in the ride fits nearly as well");
  if (!(halfLoss <= SURE.mostHalfLoss && halfZ >= SURE.leastHalfZ)) doubts.push("its two halves do not both point there");
  if (errors.length === 0 || Math.min(...errors) > SURE.most2SeS) doubts.push("the place is not sharp");
  return {
    sure: doubts.length === 0,
    z,
    gap,
    halfLoss,
    halfZ,
    members: places,
    candidates: found.map((peak) => ({
      startS: peak === best ? places[0].offsetS : (score.firstLag + peak.index) * SIGNAL_STEP_S,
      score: score.z[peak.index],
    })),
    doubts,
  };
}
