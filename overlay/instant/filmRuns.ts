import type { Film } from "../../main/contract/film.ts";
import { filmClock } from "./filmClock.ts";
import { rideTimeAt } from "./rideTimeAt.ts";

/** A stretch of film in which one shot's picture runs or stands, with the ride it shows; all in s. */
export interface FilmRun {
  readonly filmStartS: number;
  readonly filmEndS: number;
  readonly rideStartS: number;
  /** The same as the start while the picture stands. */
  readonly rideEndS: number;
  /** Of the film's items. */
  readonly item: number;
}

/** Which part of the ride each stretch of a film shows, in film order; cards show none. Reversed clocks do not occur. */
export function filmRuns(film: Film): FilmRun[] {
  const clock = filmClock(film);
  return clock.spans.flatMap(({ startFrame }, index) => {
    const item = film.items[index]!;
    if (item.type === "card") return [];
    return clock.runs(index).map(({ firstFrame, frames, mediaS, frozen }) => {
      const filmStartS = clock.timeOf(startFrame + firstFrame);
      const filmEndS = clock.timeOf(startFrame + firstFrame + frames);
      const endMediaS = frozen ? mediaS : mediaS + (filmEndS - filmStartS) * item.speed;
      return {
        filmStartS,
        filmEndS,
        rideStartS: rideTimeAt(item.clock, mediaS),
        rideEndS: rideTimeAt(item.clock, endMediaS),
        item: index,
      };
    });
  });
}

/** The moments that a film tells of, by their index in the reading: in its order, each once. The page numbers them so. */
export function momentsTold({ items }: Pick<Film, "items">): number[] {
  return [...new Set(items.flatMap(({ moment }) => (moment === null ? [] : [moment])))];
}
