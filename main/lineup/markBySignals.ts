import { SIGNAL_STEP_S } from "../contract/signals.ts";
import { claimedStart, CLOCK_SIGMA_S, type CreationMark } from "./claimedStart.ts";
import type { ClockGroup } from "./clockGroups.ts";
import type { RecordingPlacement } from "./placement.ts";
import { hasAny, recordingSeries, type SensedSignals } from "./recordingSeries.ts";
import { recordingScore } from "./signals/featureScores.ts";
import type { RideForSignals } from "./signals/memberPlaces.ts";

/** Two readings whose log likelihoods lie this far apart are told from each other. */
const LEAST_GAP = 4;
/** Clocks of whole seconds, and what a turn may lead, leave a place open by this, s. */
const SLACK_S = 1.25;

/**
 * What a camera's creation time marks, told by which reading puts the other recordings of a group where their signals
 * agree with the ride, and by how far the clock would be off; `sources` are the recordings whose place is known. Null when the signals do not tell.
 */
export function markBySignals(
  group: ClockGroup,
  sources: readonly RecordingPlacement[],
  signals: readonly SensedSignals[],
  ride: () => RideForSignals,
  rideStartUtcMs: number | null,
): CreationMark | null {
  const source = sources.find((placed) => claimedStart(placed.recording.clips[0]!, "start") !== null);
  if (group.mark || !source?.clock) return null;
  const [known, first] = [source.clock.offsetS, source.recording.clips[0]!];
  // Most cameras stamp the start (four in five, from memory), and most clocks are right to half a minute, zones aside.
  const errorS = (mark: CreationMark) => {
    const off = rideStartUtcMs === null ? 0 : claimedStart(first, mark)! - rideStartUtcMs / 1000 - known;
    return off - 900 * Math.round(off / 900);
  };
  const prior = (mark: CreationMark) =>
    Math.log(mark === "start" ? 0.8 : 0.2) - 0.5 * (errorS(mark) / CLOCK_SIGMA_S) ** 2;
  const likelihood = { start: prior("start"), end: prior("end") };
  let heard = false;
  for (const recording of group.recordings) {
    if (sources.some((placed) => placed.recording === recording)) continue;
    const series = recordingSeries(recording, signals);
    if (!hasAny(series)) continue;
    const score = recordingScore(series, ride().prepared);
    if (!score) continue;
    heard = true;
    for (const mark of ["start", "end"] as const) {
      const own = claimedStart(recording.clips[0]!, mark);
      if (own === null) continue;
      const centre = Math.round((known + own - claimedStart(first, mark)!) / SIGNAL_STEP_S) - score.firstLag;
      const reach = Math.round(SLACK_S / SIGNAL_STEP_S);
      const best = score.evidence
        .subarray(Math.max(0, centre - reach), Math.max(0, centre + reach + 1))
        .reduce((a, b) => (b > a ? b : a), -Infinity);
      likelihood[mark] += Math.max(0, best);
    }
  }
  const gap = likelihood.start - likelihood.end;
  return !heard || Math.abs(gap) < LEAST_GAP ? null : gap > 0 ? "start" : "end";
}
