import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Lineup } from "../../main/contract/lineup.ts";

/** Clips in the order in which they were filmed; those without a place come last, as they were given. */
export function byRideTime(clips: readonly ClipView[], lineup: Lineup | null): readonly ClipView[] {
  const startS = (clip: ClipView) => lineup?.clips.find((one) => one.clipId === clip.id)?.found?.offsetS ?? Infinity;
  const starts = new Map(clips.map((clip) => [clip, startS(clip)]));
  return [...clips].sort((a, b) => {
    const [one, other] = [starts.get(a)!, starts.get(b)!];
    return one === other ? 0 : one - other;
  });
}
