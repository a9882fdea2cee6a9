import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import {
  recordingScore,
  type Evidence,
  type FeatureSeries,
  type PreparedRide,
  type RecordingScore,
} from "./featureScores.ts";

/** A recording of a group: its series, and where its start lies against the group's first by the camera's clock. */
export interface GroupMember {
  readonly series: FeatureSeries;
  /** s. */
  readonly afterFirstS: number;
}

/** All recordings of a clock group on one common place: entry 0 is that place of the first one's start, the others follow by the camera's clock. */
export interface GroupScore extends Evidence {
  /** Of each member; null where it has nothing to score. */
  readonly members: readonly (RecordingScore | null)[];
}

/** Largest value within `reach` entries on either side. */
function widened(values: Float64Array, reach: number): Float64Array {
  if (reach === 0) return values;
  const out = new Float64Array(values.length).fill(NaN);
  for (let k = 0; k < values.length; k++) {
    let best = NaN;
    for (let j = Math.max(0, k - reach); j <= Math.min(values.length - 1, k + reach); j++)
      if (!(values[j] <= best) && Number.isFinite(values[j])) best = values[j]!;
    out[k] = best;
  }
  return out;
}

/**
 * Sum of the members' evidence on a common place. Each member may lie up to `slackS` off the others, as clocks of whole
 * seconds do. A place counts where members of at least 60 % of the footage reach the ride.
 */
export function groupScore(members: readonly GroupMember[], ride: PreparedRide, slackS: number): GroupScore | null {
  const scores = members.map((member) => recordingScore(member.series, ride));
  const reach = members.length > 1 ? Math.round(slackS / SIGNAL_STEP_S) : 0;
  const used = scores.flatMap((score, k) =>
    score
      ? [
          {
            evidence: widened(score.evidence, reach),
            from: score.firstLag - Math.round(members[k].afterFirstS / SIGNAL_STEP_S),
            size: score.parts[0].seen.length,
          },
        ]
      : [],
  );
  if (used.length === 0) return null;
  const all = used.reduce((sum, part) => sum + part.size, 0);
  const firstLag = Math.min(...used.map((part) => part.from));
  const length = Math.max(...used.map((part) => part.from + part.evidence.length)) - firstLag;
  const evidence = new Float64Array(length).fill(NaN);
  for (let k = 0; k < length; k++) {
    let [sum, size] = [0, 0];
    for (const part of used) {
      const v = part.evidence[firstLag + k - part.from];
      if (v === undefined || !Number.isFinite(v)) continue;
      sum += v;
      size += part.size;
    }
    if (size >= 0.6 * all) evidence[k] = sum;
  }
  return { firstLag, evidence, members: scores };
}
