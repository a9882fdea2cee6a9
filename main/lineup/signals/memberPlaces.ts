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
  /** Half-width of about 95 %, s; at least 0.25; null when neither stops nor evidence of its own fix it. */
  readonly uncertaintyS: number | null;
  /** Ride times of halts that its picture shows, s, and how many of the ride's turns it shows. */
  readonly stopsS: readonly number[];
  readonly turns: number;
}

/** Highest value within `reach` steps of a place, and where. */
function localPeak(
  values: Float64Array,
  centre: number,
  reach: number,
): { readonly at: number; readonly value: number } {
  const from = Math.max(0, centre - reach);
  const window = values.subarray(from, Math.min(values.length, centre + reach + 1));
  if (window.length === 0 || !window.some(Number.isFinite)) return { at: centre, value: NaN };
  const at = peakOf(window);
  return { at: from + at, value: window[Math.max(0, Math.min(window.length - 1, Math.round(at)))] };
}

/**
 * What is heard and how a picture turns follow other causes than speed and course beside them, and may trail or lead by
 * this, s, which no resampling shows (0.9 s in the made ride's clips, whose freewheel is heard before it slows).
 */
const OTHER_CAUSE_S = 0.8;
/** Edges further than this from where all of its evidence points are not trusted, s: a recorder may pause late, and a stop may be another one. */
const EDGES_AGREE_S = 1.5;
/** No place is called sharper than this, s: a step of the signals. */
const LEAST_S = 0.25;
/** Evidence of its own from which a member's place is taken from itself and not from the group's, natural log. */
const OWN_EVIDENCE = 4.5;

interface Estimate {
  readonly atS: number;
  readonly seS: number;
}

/**
 * Two estimates of one place weighted by their variances; where they lie further apart than their errors explain, the
 * error is widened by the Birge ratio (Birge, Physical Review 40, 1932, 207-227; from memory).
 */
function weighted(a: Estimate, b: Estimate): Estimate {
  if (!Number.isFinite(a.seS) || !Number.isFinite(b.seS)) return Number.isFinite(b.seS) ? b : a;
  const [wa, wb] = [a.seS ** -2, b.seS ** -2];
  const birge = Math.abs(a.atS - b.atS) / Math.hypot(a.seS, b.seS);
  return { atS: (wa * a.atS + wb * b.atS) / (wa + wb), seS: (wa + wb) ** -0.5 * Math.max(1, birge) };
}

/**
 * Where each member of a group lies when the first starts at `startS` by the coarse score: by its own evidence and stops
 * together, else by the clock from the sharpest of the others.
 */
export function memberPlaces(
  score: GroupScore,
  members: readonly GroupMember[],
  startS: number,
  slackS: number,
  ride: RideForSignals,
): MemberPlace[] {
  const own = members.map((member, k): MemberPlace | null => {
    const found = score.members[k];
    const offsetS = startS + member.afterFirstS;
    if (!found) return null;
    const reach = Math.round(slackS / SIGNAL_STEP_S);
    const peak = localPeak(found.evidence, Math.round(offsetS / SIGNAL_STEP_S) - found.firstLag, reach + 1);
    const levels = member.series.motion && motionLevels(member.series.motion);
    const edges = levels
      ? edgeShift(cameraStops(member.series.motion, levels.riding, levels.still), ride.stops, offsetS)
      : null;
    const turns = member.series.turning ? matchedTurns(member.series.turning, ride.series.turning, offsetS) : 0;
    const lagS = (found.firstLag + peak.at) * SIGNAL_STEP_S;
    const error = bootstrapError(found, Math.round(lagS / SIGNAL_STEP_S));
    const byEvidence = {
      atS: lagS,
      seS: error === null || !(peak.value >= OWN_EVIDENCE) ? Infinity : Math.hypot(error, OTHER_CAUSE_S / 2),
    };
    const byEdges = {
      atS: offsetS + (edges?.shiftS ?? 0),
      seS: edges && Math.abs(offsetS + edges.shiftS - lagS) <= EDGES_AGREE_S ? edges.seS : Infinity,
    };
    const { atS, seS } = weighted(byEvidence, byEdges);
    return {
      offsetS: atS,
      evidence: peak.value,
      uncertaintyS: Number.isFinite(seS) ? Math.max(LEAST_S, 2 * seS) : null,
      stopsS: edges?.stopsS ?? [],
      turns,
    };
  });
  // The sharpest member fixes the place of those without a sharp place of their own, through the camera's clock.
  let anchor = -1;
  own.forEach((place, k) => {
    if (place && place.uncertaintyS !== null && (anchor < 0 || place.uncertaintyS < own[anchor]!.uncertaintyS!))
      anchor = k;
  });
  const firstS = anchor < 0 ? startS : own[anchor]!.offsetS - members[anchor].afterFirstS;
  return members.map((member, k) => {
    const place = own[k];
    if (place && place.uncertaintyS !== null && (k === anchor || place.uncertaintyS <= slackS)) return place;
    return {
      offsetS: firstS + member.afterFirstS,
      evidence: place?.evidence ?? NaN,
      uncertaintyS: null,
      stopsS: place?.stopsS ?? [],
      turns: place?.turns ?? 0,
    };
  });
}
