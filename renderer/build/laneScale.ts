import type { FilmClock, FilmItemLike } from "../../overlay/instant/filmClock.ts";

/** A part as wide as it lasts until the next begins, px. */
interface LanePlace {
  readonly leftPx: number;
  readonly widthPx: number;
}

/** Where film time lies in the lane. */
export interface LaneScale {
  readonly pxPerS: number;
  readonly widthPx: number;
  readonly parts: readonly LanePlace[];
}

/** No part is narrower, so that it can be taken by the hand; a film too long for that is wider than its window. */
const LEAST_PART_PX = 28;
/** But never wider than so many windows. */
const MOST_WINDOWS = 24;

/** The scale at which a film fills `roomPx`, or more where its shortest part would be too narrow. */
export function laneScale(clock: FilmClock<FilmItemLike>, roomPx: number): LaneScale {
  const startsS = clock.spans.map(({ startFrame }) => clock.timeOf(startFrame));
  const lengthsS = startsS.map((startS, index) => (startsS[index + 1] ?? clock.lengthS) - startS);
  const wholePxPerS = roomPx / Math.max(clock.lengthS, 0.1);
  const pxPerS = Math.min(
    MOST_WINDOWS * wholePxPerS,
    Math.max(wholePxPerS, LEAST_PART_PX / Math.max(0.1, Math.min(...lengthsS))),
  );
  return {
    pxPerS,
    widthPx: clock.lengthS * pxPerS,
    parts: startsS.map((startS, index) => ({ leftPx: startS * pxPerS, widthPx: lengthsS[index]! * pxPerS })),
  };
}

/** Steps of the ruler, s. */
const STEPS_S = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600];
/** Room that a time needs on the ruler, px. */
const TICK_PX = 64;

/** Times that stand on the ruler, s. */
export function rulerTimes(lengthS: number, pxPerS: number): number[] {
  const stepS = STEPS_S.find((step) => step * pxPerS >= TICK_PX) ?? STEPS_S.at(-1)!;
  // The last one has room for its figures before the film's end.
  const lastS = lengthS - TICK_PX / pxPerS;
  return Array.from({ length: Math.max(1, Math.floor(lastS / stepS) + 1) }, (_, k) => k * stepS);
}
