import type { LineupCandidate } from "../contract/lineup.ts";
import { SIGNAL_STEP_S } from "../contract/signals.ts";
import { claimedStart, CLOCK_SIGMA_S, type CreationMark } from "./claimedStart.ts";
import type { ClockGroup } from "./clockGroups.ts";
import type { ClockHypothesis } from "./clockHypotheses.ts";
import type { RecordingPlacement } from "./placement.ts";
import type { Recording } from "./recordings.ts";
import { recordingSeries, type SensedSignals } from "./recordingSeries.ts";
import { FEATURES, type Feature, type FeatureSeries } from "./signals/featureScores.ts";
import type { GroupMember } from "./signals/groupScore.ts";
import type { RideForSignals } from "./signals/memberPlaces.ts";
import { solveGroup, SURE, type GroupSolution, type LogPrior } from "./signals/solveGroup.ts";
import { placedBecause, type PlacementReason } from "../contract/notices/placement.ts";

/** Further than this from every reading of the clock, a find is a conflict, s. */
const CONFLICT_S = 180;
/** Clocks of whole seconds leave the recordings this far open against each other, s. */
const WHOLE_SECOND_S = 1;

/** Recorders write speeds and places late, smoothed, by up to this, s (common practice, no source); no signal shows by how much. */
const WRITTEN_LATE_S = 2;

/** Half-width of about 95 % of a place by signals, s, from that of where its signals meet the record. */
export function signalsErrorS(meetS: number): number {
  // Lateness is all one way: it does not average out with the rest.
  return WRITTEN_LATE_S + meetS;
}

/** Log of the density of a start by the ways to read the clock, and anywhere in the ride with one chance in twenty. */
export function priorOf(hypotheses: readonly ClockHypothesis[], mark: CreationMark | null, elapsedS: number): LogPrior {
  const centres = hypotheses.filter((h) => (mark === null || h.mark === mark) && h.startsS[0] !== null);
  const anywhere = (centres.length > 0 ? 0.05 : 1) / (elapsedS + 7200);
  return (startS) => {
    let density = anywhere;
    for (const h of centres) {
      const off = (startS - h.startsS[0]!) / CLOCK_SIGMA_S;
      if (Math.abs(off) < 6)
        density += (0.95 * h.weight * Math.exp(-0.5 * off * off)) / (CLOCK_SIGMA_S * Math.sqrt(2 * Math.PI));
    }
    return Math.log(density);
  };
}

function solve(
  recordings: readonly Recording[],
  series: readonly FeatureSeries[],
  mark: CreationMark,
  hypotheses: readonly ClockHypothesis[],
  ride: RideForSignals,
): GroupSolution | null {
  const first = claimedStart(recordings[0]!.clips[0]!, mark);
  const members: GroupMember[] = recordings.map((recording, k) => {
    const own = claimedStart(recording.clips[0]!, mark);
    return { series: series[k]!, afterFirstS: own === null || first === null ? 0 : own - first };
  });
  const exact = recordings.every((recording) => recording.clips[0]!.timecode !== null);
  return solveGroup(members, ride, priorOf(hypotheses, mark, ride.elapsedS), exact ? SIGNAL_STEP_S : WHOLE_SECOND_S);
}

/** A solution is only sure if the other reading of the clock, where it moves a clip by more than 2 s, is far less likely. */
function againstRival(best: GroupSolution, rival: GroupSolution | undefined): GroupSolution {
  if (!rival || !best.sure) return best;
  const moved = best.members.some((place, k) => Math.abs(place.offsetS - rival.members[k]!.offsetS) > 2);
  const gap = best.evidence - rival.evidence;
  if (!moved || gap >= SURE.leastGap) return best;
  return { ...best, sure: false, gap, doubts: ["mark of the clock open"] };
}

/** Evidence as deviations of a normal variable, as people are used to scores. */
function scoreOf(evidence: number): number {
  return Math.sqrt(2 * Math.max(0, evidence));
}

function reasonOf(
  solution: GroupSolution,
  together: boolean,
  used: readonly Feature[],
  farFromClock: boolean,
): PlacementReason {
  if (!solution.sure) return placedBecause("signals-open", { used, doubts: solution.doubts });
  const stopsS = solution.members.flatMap((member) => member.stopsS).sort((a, b) => a - b);
  const turns = solution.members.reduce((sum, member) => sum + member.turns, 0);
  return placedBecause("signals-match", {
    stopsS,
    turns,
    used,
    together,
    score: scoreOf(solution.evidence),
    farFromClock,
  });
}

/** Candidates for a person to look at, at most. */
const MOST_CANDIDATES = 3;
/** Nearer ones are one place, s. */
const ONE_PLACE_S = 8;

/**
 * What to offer a person where signals leave it open: the best place by them, others of which they tell something, and
 * where the camera's clock puts it by its likeliest reading, of which they tell nothing.
 */
function withClock(bySignals: readonly LineupCandidate[], clockS: number | null): LineupCandidate[] {
  const told = bySignals.filter(({ score }, k) => k === 0 || score > 0);
  if (clockS === null || told.some(({ rideStartS }) => Math.abs(rideStartS - clockS) < ONE_PLACE_S))
    return told.slice(0, MOST_CANDIDATES);
  return [...told.slice(0, MOST_CANDIDATES - 1), { rideStartS: clockS, score: 0 }];
}

/**
 * Places the recordings of a group together by what was seen and heard, the camera's clock as a prior. Null when none of
 * them has signals. Where it stays open what the clock marks, both readings are tried and the better one is kept.
 */
export function placeBySignals(
  group: ClockGroup,
  signals: readonly SensedSignals[],
  hypotheses: readonly ClockHypothesis[],
  ride: RideForSignals,
): RecordingPlacement[] | null {
  const { recordings } = group;
  const series = recordings.map((recording) => recordingSeries(recording, signals));
  const used = FEATURES.filter((feature) => series.some((s) => s[feature] !== null));
  if (used.length === 0) return null;
  const marks: readonly CreationMark[] = group.mark
    ? [group.mark]
    : recordings.length > 1
      ? ["start", "end"]
      : ["start"];
  const solutions = marks
    .map((mark) => solve(recordings, series, mark, hypotheses, ride))
    .filter((solution): solution is GroupSolution => solution !== null)
    .sort((a, b) => b.evidence - a.evidence);
  if (!solutions[0]) return null;
  const best = againstRival(solutions[0], solutions[1]);
  const strongest = best.members.reduce(
    (top, place, k) => ((place.evidence || 0) > (best.members[top]!.evidence || 0) ? k : top),
    0,
  );
  return recordings.map((recording, k): RecordingPlacement => {
    const place = best.members[k]!;
    const readings = hypotheses.map((h) => h.startsS[k]).filter((s): s is number => s !== null && s !== undefined);
    const far = readings.length > 0 && readings.every((s) => Math.abs(s - place.offsetS) > CONFLICT_S);
    const verdict = !best.sure ? "not sure" : far ? "conflict" : "sure";
    const inherits = k !== strongest && place.uncertaintyS === null;
    const shift = place.offsetS - best.members[0]!.offsetS;
    return {
      recording,
      clock: { offsetS: place.offsetS, rate: 1 },
      method: "signals",
      verdict,
      confidence: verdict === "sure" ? 0.97 : verdict === "conflict" ? 0.5 : Math.min(0.5, Math.max(0, best.gap) / 20),
      uncertaintyS: signalsErrorS(
        place.uncertaintyS ?? (best.members[strongest]!.uncertaintyS ?? 0.5) + WHOLE_SECOND_S,
      ),
      inheritedFrom: inherits ? recordings[strongest]!.clips[0]!.id : null,
      candidates:
        verdict === "sure"
          ? []
          : withClock(
              best.candidates.map((c) => ({ rideStartS: c.startS + shift, score: scoreOf(c.evidence) })),
              readings[0] ?? null,
            ),
      reason: reasonOf(best, recordings.length > 1, used, verdict === "conflict"),
    };
  });
}
