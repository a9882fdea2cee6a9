import type { Shot } from "../../main/contract/film.ts";

/** What the time of a shot is reckoned from. */
export type ShotSpan = Pick<Shot, "mediaStartS" | "mediaEndS" | "speed" | "freezes">;

/** A freeze that the film shows. */
export interface Hold {
  /** Clip time of the picture that stands, s. */
  readonly atMediaS: number;
  readonly durationS: number;
  /** Film time from the shot's start: when it stands, and when the shot goes on, s. */
  readonly startS: number;
  readonly endS: number;
}

/** The freezes that lie within the shot, in order. */
export function holdsIn(shot: ShotSpan): Hold[] {
  let heldS = 0;
  return shot.freezes
    .filter((freeze) => freeze.atMediaS >= shot.mediaStartS && freeze.atMediaS < shot.mediaEndS && freeze.durationS > 0)
    .sort((a, b) => a.atMediaS - b.atMediaS)
    .map(({ atMediaS, durationS }) => {
      const startS = (atMediaS - shot.mediaStartS) / shot.speed + heldS;
      heldS += durationS;
      return { atMediaS, durationS, startS, endS: startS + durationS };
    });
}

/** Length of a shot on film, s: its footage at its speed plus what its holds add. */
export function shotLengthS(shot: ShotSpan): number {
  const heldS = holdsIn(shot).reduce((sum, hold) => sum + hold.durationS, 0);
  return (shot.mediaEndS - shot.mediaStartS) / shot.speed + heldS;
}

/**
 * Clip time at a film time within a shot, s, and whether a freeze holds it. Past either end the footage runs on.
 *
 * @param holds `holdsIn(shot)`, where the caller already has them
 */
export function mediaTimeIn(
  shot: ShotSpan,
  itemS: number,
  holds: readonly Hold[] = holdsIn(shot),
): { readonly mediaS: number; readonly frozen: boolean } {
  let heldS = 0;
  for (const hold of holds) {
    if (itemS < hold.startS) break;
    if (itemS < hold.endS) return { mediaS: hold.atMediaS, frozen: true };
    heldS += hold.durationS;
  }
  return { mediaS: shot.mediaStartS + (itemS - heldS) * shot.speed, frozen: false };
}

/** The first film time within a shot at which it is at a clip time, s: at a hold's own picture, the hold's beginning. */
export function itemTimeAt(shot: ShotSpan, mediaS: number, holds: readonly Hold[] = holdsIn(shot)): number {
  const heldS = holds.reduce((sum, hold) => (hold.atMediaS < mediaS ? sum + hold.durationS : sum), 0);
  return (mediaS - shot.mediaStartS) / shot.speed + heldS;
}
