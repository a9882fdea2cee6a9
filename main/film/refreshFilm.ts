import type { AskedChoice } from "../contract/debrief.ts";
import type { CardItem, Film, FilmItem, Shot } from "../contract/film.ts";
import { matchSpans } from "../maths/matchSpans.ts";
import { storyCards } from "./chooseFilm.ts";
import { HOLD_ID, holdWords, momentWords } from "./filmedMoments.ts";
import { type FilmInput, anonymous } from "./filmInput.ts";
import { shotPage } from "../../overlay/instant/threadPageAt.ts";
import { textMark } from "../maths/textMark.ts";
import { cardWords } from "./cardWords.ts";
import { saysTooMuch } from "./keptBack.ts";
import { withShownOnChart } from "./filmCards.ts";
import { type PlacedClip, placedClips } from "./filmedSpan.ts";
import { captionsMark, captionsSaying, rideSpan } from "./makeShot.ts";
import { note, type Note } from "../contract/notice.ts";

export interface RefreshedFilm {
  readonly film: Film;
  /** A person's words that a lesson can't carry. */
  readonly warnings: readonly Note[];
  /** Parts whose moment is not surely one of today's: they are without the program's words until the coach says which it is. */
  readonly asked: readonly AskedPart[];
}

type AskedPart = Extract<AskedChoice, { readonly what: "part" }>;

/**
 * A film that a person has set, on the numbers of today: clocks from the line-up as it now is, moments found again, and
 * every caption and card that still is the program's own written anew. What a person wrote stays as it is; in a lesson
 * it goes where it says who, or watts that are to be kept back.
 * @param keptBack words that no lesson may hold
 */
export function refreshFilm(film: Film, given: FilmInput, keptBack: readonly string[] = []): RefreshedFilm {
  const lesson = given.forWhom === "lesson";
  const input = lesson ? anonymous(given) : given;
  const cards = storyCards(input);
  const placed = placedClips(input.clips, input.lineup, true);
  const warnings: Note[] = [];
  const { of, asked } = momentsShown(film, given);
  const mayStay = (words: string): boolean => !lesson || !saysTooMuch(words, keptBack, input.asPercent);

  const items = film.items.flatMap((item): FilmItem[] => {
    const index = of.get(item.id) ?? null;
    const about = index === null ? null : momentWords(input, index);
    const keyed = { moment: index, ...(about === null ? {} : { momentKey: about.key }) };
    if (item.type === "shot") {
      const { beside, ...alone } = { ...onTheClock(item, placed), ...keyed, ...(lesson ? { riderName: null } : {}) };
      const drawings = item.drawings.filter(({ text }) => mayStay(text ?? ""));
      if (drawings.length < item.drawings.length) warnings.push(note("lesson-without-drawing", {}));
      // Another ride is known by its day or its rider: no lesson has it.
      const shot = { ...alone, ...(beside === undefined || lesson ? {} : { beside }), drawings };
      if (item.made !== undefined && item.made === captionsMark(item.captions)) {
        const texts =
          (index === null ? null : momentWords(input, index, rideSpan(shot)).captions) ??
          (item.id === HOLD_ID ? holdWords(input, ...rideSpan(shot)) : []);
        return [{ ...shot, ...captionsSaying(item.captions, texts) }];
      }
      const captions = item.captions.filter(({ text }) => mayStay(text));
      for (const { text } of item.captions) if (!mayStay(text)) warnings.push(note("lesson-without-caption", { text }));
      return [{ ...shot, captions }];
    }
    const own = item.made !== undefined && item.made === textMark(cardWords(item.card));
    if (own) {
      const card = Object.hasOwn(cards, item.id) ? cards[item.id as keyof typeof cards] : (about?.card ?? null);
      return card === null ? [] : [{ ...item, ...keyed, card, made: textMark(cardWords(card)) }];
    }
    if (mayStay(cardWords(item.card)) && !(lesson && item.card.kind === "pair"))
      return [{ ...item, ...keyed, ...(lesson ? { card: chartForLesson(item.card, input) } : {}) }];
    warnings.push(note("lesson-without-card", { title: item.card.title }));
    return [];
  });
  const { items: _before, ...rest } = { ...film, ...input.shape };
  return { film: { ...rest, items: withShownOnChart(items, rest, input.reading) }, warnings, asked };
}

/** The moment of each part that shows one, by the part's id: found again by its key; without a key, by its number as it stands. */
function momentsShown(
  film: Film,
  { reading, wishes }: FilmInput,
): { readonly of: ReadonlyMap<string, number>; readonly asked: readonly AskedPart[] } {
  const now = reading.moments.map((moment, index) => {
    const { kind, startS, endS } = wishes[index]?.key ?? moment;
    return { kind, startS, endS: endS ?? moment.endS };
  });
  const of = new Map<string, number>();
  const asked: AskedPart[] = [];
  // Two parts may show one moment: what is sought is the moment, once.
  const keyed = new Map<string, { readonly key: NonNullable<FilmItem["momentKey"]>; readonly itemIds: string[] }>();
  for (const { id, moment, momentKey: key } of film.items) {
    if (key !== undefined) {
      const name = JSON.stringify([key.kind, key.startS, key.endS]);
      keyed.set(name, { key, itemIds: [...(keyed.get(name)?.itemIds ?? []), id] });
    } else if (moment !== null && moment < now.length) of.set(id, moment);
  }
  const sought = [...keyed.values()];
  matchSpans(
    sought.map(({ key }) => ({ ...key, endS: key.endS ?? null })),
    now,
  ).forEach(({ sure, among }, at) => {
    for (const itemId of sought[at]!.itemIds)
      if (sure === null) asked.push({ what: "part", itemId, key: sought[at]!.key, among });
      else of.set(itemId, sure);
  });
  return { of, asked };
}

/** The shot with its clip's clock as the line-up now has it, and the page of its thread by that; as it was where the clip is not placed. */
function onTheClock(shot: Shot, placed: readonly PlacedClip[]): Shot {
  const found = placed.find(({ clip }) => clip.id === shot.clipId);
  if (found === undefined) return shot;
  const { clock, leadS } = found;
  const { leadS: _before, ...rest } = shot;
  const page = shotPage(clock, shot.mediaStartS, shot.mediaEndS);
  return {
    ...rest,
    clock,
    ...(leadS === undefined ? {} : { leadS }),
    pageStartS: page.startS,
    pageEndS: page.endS,
  };
}

/**
 * A chart that a person gave other words, for a lesson: without the road's height, by which a place may be known, and
 * without its curve in watts where they are kept back.
 */
function chartForLesson(card: CardItem["card"], input: FilmInput): CardItem["card"] {
  if (card.kind !== "chart") return card;
  const { altitude: _place, altitudeUnit: _unit, ...series } = card.series;
  if (!input.asPercent || series.powerUnit === "%") return { ...card, series };
  const { blocks: _watts, ...marks } = card.marks;
  return { ...card, series: { ...series, power30sW: null }, marks: { ...marks, bandW: null } };
}
