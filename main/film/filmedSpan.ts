import type { Clip } from "../contract/footage.ts";
import { type Lineup, type RideClock, rideClockOf } from "../contract/lineup.ts";

/** A clip with its place on the ride; ride times in s. */
export interface PlacedClip {
  readonly clip: Clip;
  readonly clock: RideClock;
  readonly startS: number;
  readonly endS: number;
  /** As in `ClipPlacement`. */
  readonly leadS?: number;
}

/**
 * The clips that the line-up places, in ride order. Clips it is not sure of only where `acceptUnsure`, or where a person's
 * anchor has set the clock of their camera.
 */
export function placedClips(clips: readonly Clip[], lineup: Lineup, acceptUnsure: boolean): PlacedClip[] {
  return clips
    .flatMap((clip): PlacedClip[] => {
      const placement = lineup.clips.find((one) => one.clipId === clip.id);
      const clock = rideClockOf(lineup, clip.id);
      if (!placement || !clock || placement.verdict === "no match") return [];
      const byHand = placement.method === "anchor" && placement.verdict === "not sure";
      if (!placement.sure && !byHand && !acceptUnsure) return [];
      const lead = placement.leadS === undefined ? {} : { leadS: placement.leadS };
      return [{ clip, clock, startS: clock.offsetS, endS: clock.offsetS + clock.rate * clip.durationS, ...lead }];
    })
    .sort((a, b) => a.startS - b.startS);
}

/** Which part of the ride a shot should show: as much as possible of `wantS` seconds around `focusS`. */
export interface WantedSpan {
  readonly startS: number;
  readonly endS: number;
  /** This instant must be on the picture. */
  readonly focusS: number;
}

/** The clip that covers most of the wanted span and holds its focus, or null where no camera saw it. */
export function clipFor(placed: readonly PlacedClip[], wanted: WantedSpan): PlacedClip | null {
  const covered = (one: PlacedClip): number => Math.min(one.endS, wanted.endS) - Math.max(one.startS, wanted.startS);
  return placed
    .filter((one) => one.startS <= wanted.focusS && wanted.focusS <= one.endS)
    .reduce<PlacedClip | null>((best, one) => (best === null || covered(one) > covered(best) ? one : best), null);
}
