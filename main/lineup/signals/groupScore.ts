import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { recordingScore, scaled, type FeatureSeries, type RecordingScore, type RideCorrelators } from "./featureScores.ts";

/** A recording of a group: its series, and where its start lies against the group's first by the camera's clock. */
export interface GroupMember {
  readonly series: FeatureSeries;
  /** s. */
  readonly afterFirstS: number;
}

/** All recordings of a clock group on one common place. */
export interface GroupScore {
  /** Place of the group's first start for entry 0, in steps of ride time; the others follow by the camera's clock. */
  readonly firstLag: number;
  readonly z: Float64Array;
  /** Of each member; null where it has nothing to score. */
  readonly members: readonly (RecordingScore | null)[];
}

/** Largest value within `reach` entries on either side. */
function widened(z: Float64Array, reach: number): Float64Array {
  if (reach === 0) return z;
  const out = new Float64Array(z.length).fill(NaN);
  for (let k = 0; k < z.length; k++) {
    let best = NaN;
    for (let j = Math.max(0, k - reach); j <= Math.min(z.length - 1, k + reach); j++) if (!(z[j] <= best) && Number.isFinite(z[j])) best = z[j]!;
    out[k] = best;
  }
  return out;
}

/**
 * Sum of the members' scores on a common place, scaled again over the whole ride. Each member may lie up to `slackS` off
 * the others, as clocks of whole seconds do. A place counts where members of at least 60 % of the footage reach the ride.
 */
export function groupScore(members: readonly GroupMember[], ride: RideCorrelators, slackS: number): GroupScore | null {
  const scores = members.map((member) => recordingScore(member.series, ride));
  const reach = members.length > 1 ? Math.round(slackS / SIGNAL_STEP_S) : 0;
  const used = scores.flatMap((score, k) =>
    score ? [{ z: widened(score.z, reach), from: score.firstLag - Math.round(members[k].afterFirstS / SIGNAL_STEP_S), size: score.parts[0].ready.length }] : [],
  );
  if (used.length === 0) return null;
  const all = used.reduce((sum, part) => sum + part.size, 0);
  const firstLag = Math.min(...used.map((part) => part.from));
  const length = Math.max(...used.map((part) => part.from + part.z.length)) - firstLag;
  const z = new Float64Array(length).fill(NaN);
  for (let k = 0; k < length; k++) {
    let [sum, size, count] = [0, 0, 0];
    for (const part of used) {
      const v = part.z[firstLag + k - part.from];
      if (v === undefined || !Number.isFinite(v)) continue;
      sum += v;
      size += part.size;
      count++;
    }
    if (size >= 0.6 * all) z[k] = sum / Math.sqrt(count);
  }
  return { firstLag, z: scaled(z), members: scores };
}

/** The members with only the first or second half of each recording left. */
export function halves(members: readonly GroupMember[]): readonly [GroupMember[], GroupMember[]] {
  const cut = (member: GroupMember, second: boolean): GroupMember => {
    const keep = (series: Float64Array | null) => {
      if (!series) return null;
      const middle = series.length >> 1;
      return series.map((v, k) => (k >= middle === second ? v : NaN));
    };
    const { motion, sound, turning } = member.series;
    return { ...member, series: { motion: keep(motion), sound: keep(sound), turning: keep(turning) } };
  };
  return [members.map((m) => cut(m, false)), members.map((m) => cut(m, true))];
}
