import type { Film, FilmItem } from "../contract/film.ts";
import type { Moment } from "../contract/reading.ts";
import { filmTimeline } from "../../overlay/instant/filmAt.ts";
import type { DebriefPhrases } from "../../overlay/words/debriefPhrases.ts";

/** A text with its time on film, s. */
export interface FilmText {
  readonly startS: number;
  readonly endS: number;
  readonly text: string;
}

function cardTexts(item: FilmItem): string[] {
  if (item.type === "shot") return [];
  const card = item.card;
  const lines =
    "lines" in card
      ? card.lines
      : card.kind === "plan"
        ? card.rows.map((row) => `${row.label}: ${row.value}`)
        : card.rows.map((row) => `${row.label}: ${row.left}, ${row.right}`);
  return [card.title, ...lines, ...(card.kind === "closing" ? [card.caution] : [])].filter(
    (line) => line.trim() !== "",
  );
}

/** Every text the film shows, in film time: the captions of shots, and what the cards say. */
export function filmCaptions(film: Film): FilmText[] {
  const secondsPerFrame = film.frameRate.den / film.frameRate.num;
  return filmTimeline(film).flatMap((span, index): FilmText[] => {
    const item = film.items[index];
    const startS = span.startFrame * secondsPerFrame;
    if (item.type === "shot")
      return item.captions.map((caption) => ({
        startS: startS + caption.startS,
        endS: startS + caption.endS,
        text: caption.text,
      }));
    return [{ startS, endS: startS + span.frames * secondsPerFrame, text: cardTexts(item).join("\n") }];
  });
}

/** What an item without a moment is called: a card's title, a shot's first caption. */
export function itemTitle(item: FilmItem): string {
  return item.type === "card" ? item.card.title : (item.captions[0]?.text ?? item.id);
}

/**
 * One chapter per item, without gaps from 0 to the end of the film; the title is the moment's or the card's.
 * @param names the coach's own names of moments, by index
 */
export function filmChapters(
  film: Film,
  moments: readonly Moment[],
  words: DebriefPhrases,
  names: ReadonlyMap<number, string> = new Map(),
): FilmText[] {
  const secondsPerFrame = film.frameRate.den / film.frameRate.num;
  const spans = filmTimeline(film);
  return spans.map((span, index) => {
    const item = film.items[index];
    const next = spans[index + 1];
    const moment = item.moment === null ? undefined : moments[item.moment];
    const text = moment !== undefined ? (names.get(item.moment!) ?? words.momentName(moment.kind)) : itemTitle(item);
    return {
      startS: span.startFrame * secondsPerFrame,
      endS: (next?.startFrame ?? span.startFrame + span.frames) * secondsPerFrame,
      text,
    };
  });
}

/** Length of the film, s. */
export function filmLengthS(film: Film): number {
  const last = filmTimeline(film).at(-1);
  return last === undefined ? 0 : ((last.startFrame + last.frames) * film.frameRate.den) / film.frameRate.num;
}
