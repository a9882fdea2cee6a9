import type { ClipView, DebriefView } from "../../main/contract/debriefApi.ts";
import { type RideClock, rideClockOf } from "../../main/contract/lineup.ts";

/** A clip with its place in the ride. */
export interface PlacedClip {
  readonly clip: ClipView;
  readonly clock: RideClock;
  /** Ride s of its first frame and of its end. */
  readonly startS: number;
  readonly endS: number;
  readonly sure: boolean;
}

/** The clips that have a place in the ride, in the order of their places. */
export function placedClips({ clips, lineup }: Pick<DebriefView, "clips" | "lineup">): PlacedClip[] {
  if (lineup === null) return [];
  return clips
    .flatMap((clip): PlacedClip[] => {
      const placement = lineup.clips.find((one) => one.clipId === clip.id);
      const clock = rideClockOf(lineup, clip.id);
      if (placement === undefined || clock === null || placement.verdict === "no match") return [];
      return [
        { clip, clock, startS: clock.offsetS, endS: clock.offsetS + clock.rate * clip.durationS, sure: placement.sure },
      ];
    })
    .sort((a, b) => a.startS - b.startS);
}

/** The clip that shows a ride time, a sure one before an unsure one; null where nothing was filmed. */
export function clipAt(placed: readonly PlacedClip[], rideS: number): PlacedClip | null {
  const there = placed.filter((one) => rideS >= one.startS && rideS < one.endS);
  return there.find((one) => one.sure) ?? there.at(0) ?? null;
}

/** The first ride time of a span that was filmed; null: nothing of it was. */
export function firstFilmed(placed: readonly PlacedClip[], startS: number, endS: number): number | null {
  if (clipAt(placed, startS) !== null) return startS;
  return placed.find((one) => one.startS > startS && one.startS < endS)?.startS ?? null;
}
