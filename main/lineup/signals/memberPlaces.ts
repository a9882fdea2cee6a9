import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { bootstrapError, peakOf } from "./bootstrapError.ts";
import { motionLevels, prepareRide, type PreparedRide } from "./featureScores.ts";
import type { GroupMember, GroupScore } from "./groupScore.ts";
import { matchedTurns } from "./matchedTurns.ts";
import type { RideSeries } from "./rideSeries.ts";
import { cameraStops, edgeShift, rideStops, type StopEdge } from "./stopEdges.ts";

/** The ride made ready once for all groups. */
export interface RideForSignals {
  readonly series: RideSeries;
  readonly prepared: PreparedRide;
  readonly elapsedS: number;
  readonly stops: readonly StopEdge[];
}

/** Prepares a ride of `elapsedS`. */
export function rideForSignals(series: RideSeries, elapsedS: number): RideForSignals {
  return { series, prepared: prepareRide(series), elapsedS, stops: rideStops(series.seenMps) };
}

export interface MemberPlace {
  /** Ride time of the member's first frame, s. */
  readonly offsetS: number;
  /** Its own evidence there, natural log; NaN when it has none. */
  readonly evidence: number;
  /** Half-width of about 95 %, s; at least 0.25; 0.8 and more where no stop fixes it; null when it has no evidence of its own. */
  readonly uncertaintyS: number | null;
  /** Ride times of halts that its picture shows, s, and how many of the ride's turns it shows. */
  readonly stopsS: readonly number[];
  readonly turns: number;
}

/** Highest value within `reach` steps of a place, and where. */
function localPeak(values: Float64Array, centre: number, reach: number): { readonly at: number; readonly value: number } {
  const from = Math.max(0, centre - reach);
  const window = values.subarray(from, Math.min(values.length, centre + reach + 1));
  if (window.length === 0 || !window.some(Number.isFinite)) return { at: centre, value: NaN };
  const at = peakOf(window);
  return { at: from + at, value: window[Math.max(0, Math.min(window.length - 1, Math.round(at)))] };
}

/** A member with standing in it: the edges fix its place to this, s: two standard errors of one edge, a guess of ours that clips of the made ride bear out (errors below 0.5 s); no published figure. */
const EDGE_2SE_S = 0.5;
/**
 * What is heard and how a picture turns follow other causes than speed and course beside them, and may trail or lead by
 * this, s, which no resampling shows (0.9 s in the made ride's clips, whose freewheel is heard before it slows).
 */
const OTHER_CAUSE_S = 0.8;
/** Edges further than this from where all of its evidence points are not trusted, s: a recorder may pause late, and a stop may be another one. */
const EDGES_AGREE_S = 1.5;
/** Evidence of its own from which a member's place is taken from itself and not from the group's, natural log. */
const OWN_EVIDENCE = 4.5;

/**
 * Where each member of a group lies when the first starts at `startS` by the coarse score: by its own stops, else by its
 * own evidence, else by the clock from the sharpest of the others.
 */
export function memberPlaces(score: GroupScore, members: readonly GroupMember[], startS: number, slackS: number, ride: RideForSignals): MemberPlace[] {
  const own = members.map((member, k): MemberPlace | null => {
    const found = score.members[k];
    const offsetS = startS + member.afterFirstS;
    if (!found) return null;
    const reach = Math.round(slackS / SIGNAL_STEP_S);
    const peak = localPeak(found.evidence, Math.round(offsetS / SIGNAL_STEP_S) - found.firstLag, reach + 1);
    const levels = member.series.motion && motionLevels(member.series.motion);
    const edges = levels ? edgeShift(cameraStops(member.series.motion, levels.riding, levels.still), ride.stops, offsetS) : { shiftS: 0, count: 0, stopsS: [] };
    const turns = member.series.turning ? matchedTurns(member.series.turning, ride.series.turning, offsetS) : 0;
    const shown = { stopsS: edges.stopsS, turns };
    const lagS = (found.firstLag + peak.at) * SIGNAL_STEP_S;
    const together = edges.count > 0 && Math.abs(offsetS + edges.shiftS - lagS) <= EDGES_AGREE_S;
    if (together) return { ...shown, offsetS: offsetS + edges.shiftS, evidence: peak.value, uncertaintyS: Math.max(0.25, EDGE_2SE_S / Math.sqrt(edges.count)) };
    const error = bootstrapError(found, Math.round(lagS / SIGNAL_STEP_S));
    return { ...shown, offsetS: lagS, evidence: peak.value, uncertaintyS: error === null || !(peak.value >= OWN_EVIDENCE) ? null : Math.hypot(2 * error, OTHER_CAUSE_S) };
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
    return { offsetS: firstS + member.afterFirstS, evidence: place?.evidence ?? NaN, uncertaintyS: null, stopsS: place?.stopsS ?? [], turns: place?.turns ?? 0 };
  });
}
