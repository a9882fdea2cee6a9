import type { Caption, Film, FilmItem } from "../contract/film.ts";
import type { Moment } from "../contract/reading.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
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
        : card.kind === "pair"
          ? [card.sides.map(({ name }) => name).join(" / ")]
          : card.rows.map((row) => `${row.label}: ${row.left}, ${row.right}`);
  return [card.title, ...lines, ...(card.kind === "closing" ? [card.caution] : [])].filter(
    (line) => line.trim() !== "",
  );
}

/**
 * Every text the film shows, in film time and to the frame: what the cards say while they are seen, and the caption that
 * stands on a shot.
 */
export function filmCaptions(film: Film): FilmText[] {
  const clock = filmClock(film);
  return clock.spans.flatMap((span, index): FilmText[] => {
    const item = film.items[index]!;
    const endFrame = span.startFrame + span.frames;
    if (item.type === "card")
      return [
        { startS: clock.timeOf(span.startFrame), endS: clock.timeOf(endFrame), text: cardTexts(item).join("\n") },
      ];
    if (item.captions.length === 0) return [];
    const texts: (FilmText & { readonly caption: Caption })[] = [];
    for (let frame = span.startFrame; frame < endFrame; frame += 1) {
      const instant = clock.at(frame);
      if (instant === null || instant.caption === null || instant.upper.index !== index) continue;
      const [startS, endS] = [clock.timeOf(frame), clock.timeOf(frame + 1)];
      const last = texts.at(-1);
      if (last?.caption === instant.caption && last.endS === startS) texts[texts.length - 1] = { ...last, endS };
      else texts.push({ startS, endS, text: instant.caption.text, caption: instant.caption });
    }
    return texts.map(({ caption: _, ...text }) => text);
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
  const clock = filmClock(film);
  return clock.spans.map((span, index) => {
    const item = film.items[index]!;
    const next = clock.spans[index + 1];
    const moment = item.moment === null ? undefined : moments[item.moment];
    const text = moment !== undefined ? (names.get(item.moment!) ?? words.momentName(moment.kind)) : itemTitle(item);
    return {
      startS: clock.timeOf(span.startFrame),
      endS: clock.timeOf(next?.startFrame ?? clock.frames),
      text,
    };
  });
}
