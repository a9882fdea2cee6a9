import { type RefObject, useEffect, useMemo } from "react";
import type { ClipView, DebriefView } from "../../main/contract/debriefApi.ts";
import type { Film } from "../../main/contract/film.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { build as words } from "../words/build.ts";
import { useKept } from "../desk/useKept.ts";
import type { FilmLaneHandle } from "./FilmLane.tsx";
import type { FilmStageHandle } from "./FilmStage.tsx";
import type { FilmPlace } from "./filmPlayhead.ts";
import { movedItem, withoutItem } from "../film/filmEdits.ts";

interface Given {
  readonly debrief: DebriefView;
  /** It has a part at least. */
  readonly film: Film;
  readonly clips: readonly ClipView[];
  readonly stage: RefObject<FilmStageHandle | null>;
  readonly lane: RefObject<FilmLaneHandle | null>;
  /** Says where the film stands. */
  readonly clock: RefObject<HTMLElement | null>;
  readonly locked: boolean;
  readonly edit: (film: Film, label: string) => void;
}

export type Parts = ReturnType<typeof useParts>;

/** Which part of the film is open, and the parts in their order. */
export function useParts({ debrief, film, clips, stage, lane, clock, locked, edit }: Given) {
  const [chosenId, setChosenId] = useKept("part", debrief);
  const items = film.items;
  const chosen = Math.max(
    0,
    items.findIndex(({ id }) => id === chosenId),
  );
  const item = items[chosen]!;
  const clip = item.type === "shot" ? clips.find(({ id }) => id === item.clipId) : undefined;
  const lengthS = useMemo(() => filmClock(film).lengthS, [film]);

  const show = (place: FilmPlace) => {
    lane.current?.show(place);
    if (clock.current !== null)
      clock.current.textContent = `${clockText(Math.floor(place.filmS))} / ${clockText(Math.round(lengthS))}`;
    const id = film.items[place.index]?.id ?? null;
    if (id !== chosenId) setChosenId(id);
  };
  useEffect(() => {
    stage.current?.show(chosen, 0);
    // Only when the screen opens: later the person goes where they like.
  }, []);

  const choose = (index: number, itemS = 0) => {
    if (index < 0 || index >= items.length) return;
    setChosenId(items[index]!.id);
    stage.current?.show(index, itemS);
  };
  const move = (from: number, to: number) => !locked && edit(movedItem(film, from, to), words.labels.move);
  const remove = () => {
    if (locked) return;
    setChosenId(items[chosen + 1]?.id ?? items[chosen - 1]?.id ?? null);
    edit(withoutItem(film, item.id), words.labels.remove);
  };
  return { item, clip, chosen, lengthS, show, choose, move, remove };
}
