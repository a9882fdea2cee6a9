import type { PairPace, PairSide } from "../../main/contract/pair.ts";
import { paceAt } from "../../overlay/pair/pairAt.ts";

/** How the picture of a half of a pair goes on: to a clip time and no further, or on from where it is, so many times as fast as filmed. */
export type PairRun =
  { readonly how: "stand"; readonly mediaS: number } | { readonly how: "run"; readonly speed: number };

/** How far ahead the pace is read, film time, s. */
const AHEAD_S = 0.2;
/** A half that is further from its place than this is brought there at once, clip time, s. */
const JUMP_S = 0.4;
/** Nearer than this it is left as it runs, clip time, s. */
const NEAR_S = 0.04;
/** What is between the two is made good within so long, s. */
const SETTLE_S = 0.5;
/** A browser plays no slower and no faster. */
const SPEED = { least: 0.0625, most: 16 } as const;

/** Clip time of a half at a film time since the card's start, s. @param which 0 for the first half, 1 for the second */
export function halfMediaS(pace: PairPace, { offsetS, rate }: Footage["clock"], which: number, filmS: number): number {
  const { firstS, secondS } = paceAt(pace, filmS);
  return ((which === 0 ? firstS : secondS) - offsetS) / rate;
}

type Footage = NonNullable<PairSide["footage"]>;

/** Clip times that a half shows within a card, s: what may have to be hidden of it. */
export function halfSpan(pace: PairPace, clock: Footage["clock"], which: number): { startS: number; endS: number } {
  return {
    startS: halfMediaS(pace, clock, which, pace.filmS[0]!),
    endS: halfMediaS(pace, clock, which, pace.filmS.at(-1)!),
  };
}

/** Whether the first half runs as filmed all along: only then is it heard, as in the film. */
export function firstAsFilmed({ filmS, firstS }: PairPace): boolean {
  return filmS.every((at, k) => Math.abs(at - filmS[0]! - (firstS[k]! - firstS[0]!)) < NEAR_S);
}

/**
 * What a half does next while the film plays.
 *
 * @param mediaSAt clip time by film time, s @param filmS where the film stands @param shownS clip time on the screen; null: none yet
 */
export function pairRun(mediaSAt: (filmS: number) => number, filmS: number, shownS: number | null): PairRun {
  const mediaS = mediaSAt(filmS);
  const late = shownS === null ? Infinity : mediaS - shownS;
  const pace = (mediaSAt(filmS + AHEAD_S) - mediaS) / AHEAD_S;
  if (Math.abs(late) > JUMP_S || pace < SPEED.least) return { how: "stand", mediaS };
  const speed = Math.abs(late) < NEAR_S ? pace : pace + late / SETTLE_S;
  return { how: "run", speed: Math.max(SPEED.least, Math.min(SPEED.most, speed)) };
}
