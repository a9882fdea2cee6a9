import type { DriftFacts } from "../../main/contract/debriefFacts.ts";
import type { HeartFacts } from "./debriefPhrases.ts";
import { shownRise, TOLD_APART_W } from "./reading/shownRise.ts";

/** Smallest change of the two readings that is worth a sentence, beats; common practice, no source. */
const CHANGE_BEATS = 3;

/**
 * What a ride can say of the heart's climb. `unsteady`: the readings differ, but in between there is no steady climb.
 * `within noise`: they differ by no more than one ride can tell from no change. `no start`: it climbed, and there is too
 * little data for when.
 */
export type HeartStory =
  "began" | "start unclear" | "rose from the start" | "unsteady" | "within noise" | "level" | "no start" | "no data";

/** The one thing to say of the climb, so that it never says other than the readings beside it. */
export function heartStory(heart: HeartFacts): HeartStory {
  const { verdict } = heart;
  if (verdict === "began") return heart.onsetS === null ? "no start" : "began";
  if (verdict === "start unclear" || verdict === "rose from the start") return verdict;
  const beats = heart.correctedForPower ? heart.driftBeats : (shownRise(heart.firstBpm, heart.lastBpm)?.beats ?? null);
  if (verdict === "not enough data") return heart.isShown && beats !== null && beats > 0 ? "no start" : "no data";
  if (heart.isShown) return "unsteady";
  return beats !== null && Math.abs(Math.round(beats)) >= CHANGE_BEATS ? "within noise" : "level";
}

/**
 * Why a reading at equal power differs from the rise beside it: whole watts by which the end was ridden harder
 * (positive) or easier; null where they show the same, there is no power, or no meter could tell the two apart.
 */
export function harderAtTheEndW(heart: HeartFacts): number | null {
  const rise = shownRise(heart.firstBpm, heart.lastBpm);
  if (
    !heart.correctedForPower ||
    rise === null ||
    heart.driftBeats === null ||
    rise.beats === Math.round(heart.driftBeats)
  )
    return null;
  if (heart.firstPowerW === null || heart.lastPowerW === null) return null;
  const stepW = Math.round(heart.lastPowerW - heart.firstPowerW);
  return Math.abs(stepW) < TOLD_APART_W ? null : stepW;
}

/** True where it was said already that this ride can't tell, so that `within noise` would only say it twice. */
export function saysNothingMore(heart: HeartFacts, drift: DriftFacts | null): boolean {
  return heart.correctedForPower && drift?.canTell === false && heartStory(heart) === "within noise";
}
