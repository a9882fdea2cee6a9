import type { Caption, Film, FilmItem, Shot } from "../../main/contract/film.ts";
import { coveredAsBefore } from "../../overlay/instant/coversOf.ts";
import { itemTimeAt, mediaTimeIn, shotLengthS } from "../../overlay/instant/shotTime.ts";
import { shotPage } from "../../overlay/instant/threadPageAt.ts";

/** No shot is cut shorter than this on film, s. */
const LEAST_SHOT_S = 6;
/** Shortest and longest time a card stays, s. */
export const CARD_STAYS_S = { least: 2, most: 60 } as const;
/** Captions stay at least so long, and a new one so long where there is room, s. */
const CAPTION_S = { least: 3, usual: 5 } as const;
/** Speeds to choose from; sound keeps its pitch to 2. */
export const SPEEDS = [0.125, 0.25, 0.5, 1, 2, 4, 8, 15, 32] as const;

/** The film with an item at another place; the same film when it would leave the film. */
export function movedItem(film: Film, from: number, to: number): Film {
  if (to < 0 || to >= film.items.length || from === to) return film;
  const items = [...film.items];
  items.splice(to, 0, ...items.splice(from, 1));
  return { ...film, items };
}

/** The film without an item; what that hid stays hidden in other shots of the same seconds. */
export function withoutItem(film: Film, id: string): Film {
  return coveredAsBefore({ ...film, items: film.items.filter((item) => item.id !== id) }, film);
}

/** The film with one item changed; a shot's page of the thread follows its span. */
export function withItem(film: Film, changed: FilmItem): Film {
  const item = changed.type === "shot" ? withPage(changed) : changed;
  return { ...film, items: film.items.map((one) => (one.id === item.id ? item : one)) };
}

/** A shot whose page of the thread is that of its span. */
export function withPage(shot: Shot): Shot {
  const page = shotPage(shot.clock, shot.mediaStartS, shot.mediaEndS);
  return { ...shot, pageStartS: page.startS, pageEndS: page.endS };
}

/** A shot cut to a span of its clip, kept inside the clip and no shorter than 6 s of film. */
export function trimmed(shot: Shot, mediaStartS: number, mediaEndS: number, clipS: number): Shot {
  const leastS = Math.min(clipS, LEAST_SHOT_S * shot.speed);
  const moved = mediaStartS !== shot.mediaStartS;
  const startS = Math.max(0, Math.min(mediaStartS, moved ? shot.mediaEndS - leastS : clipS - leastS));
  const endS = Math.min(clipS, Math.max(mediaEndS, startS + leastS));
  return keptInPlace(shot, { ...shot, mediaStartS: startS, mediaEndS: endS });
}

/**
 * A shot after its cut, speed or holds changed, with its captions and drawings at the same instants of the clip as
 * before; each lasts as long on film as it did, so that it can be read. Where its instant is cut away, a caption stays at
 * that end of the shot, and a drawing goes: it would point at another picture.
 */
export function keptInPlace(before: Shot, after: Shot): Shot {
  const lengthS = shotLengthS(after);
  const movedS = (itemS: number): number => {
    const { mediaS, frozen } = mediaTimeIn(before, itemS);
    // So far into a hold as it was; where the hold is gone, at its picture.
    const heldS = frozen ? itemS - itemTimeAt(before, mediaS) : 0;
    return itemTimeAt(after, mediaS) + Math.min(heldS, holdAtS(after, mediaS));
  };
  const moved = <Shown extends { readonly startS: number; readonly endS: number }>(one: Shown): Shown => {
    const startS = movedS(one.startS);
    return { ...one, startS, endS: startS + one.endS - one.startS };
  };
  const captions = before.captions.map(moved).map((one): Caption => {
    const startS = Math.max(0, Math.min(one.startS, lengthS - CAPTION_S.least));
    return { ...one, startS, endS: Math.min(lengthS, Math.max(one.endS, startS + CAPTION_S.least)) };
  });
  return {
    ...after,
    captions: captions.map((one, at) => {
      const nextS = captions[at + 1]?.startS ?? Infinity;
      return nextS - one.startS >= CAPTION_S.least ? { ...one, endS: Math.min(one.endS, nextS) } : one;
    }),
    drawings: before.drawings.map(moved).flatMap((one) => {
      const startS = Math.max(0, one.startS);
      const endS = Math.min(lengthS, one.endS);
      return endS > startS ? [{ ...one, startS, endS }] : [];
    }),
  };
}

/** How long a shot holds at a clip time, s; 0: it does not. */
function holdAtS(shot: Shot, mediaS: number): number {
  return shot.freezes.find(({ atMediaS }) => atMediaS === mediaS)?.durationS ?? 0;
}

/** A shot at another speed; where it would get shorter than 6 s, more of the clip is taken at its end, then at its start. */
export function atSpeed(shot: Shot, speed: number, clipS: number): Shot {
  const needS = Math.max(0, LEAST_SHOT_S * speed - (shot.mediaEndS - shot.mediaStartS));
  const mediaEndS = Math.min(clipS, shot.mediaEndS + needS);
  const mediaStartS = Math.max(0, shot.mediaStartS - (needS - (mediaEndS - shot.mediaEndS)));
  return keptInPlace(shot, { ...shot, speed, mediaEndS, mediaStartS });
}

/** A shot that holds its picture for so long at an instant of the clip; 0 takes the hold away. Its first picture may have begun before the cut. */
export function frozenAt(shot: Shot, atMediaS: number, durationS: number): Shot {
  const others = shot.freezes.filter((freeze) => Math.abs(freeze.atMediaS - atMediaS) > 0.02);
  const standing = { atMediaS: Math.max(shot.mediaStartS, atMediaS), durationS };
  const freezes = durationS > 0 ? [...others, standing] : others;
  return keptInPlace(shot, { ...shot, freezes: freezes.sort((a, b) => a.atMediaS - b.atMediaS) });
}

/** A shot with a caption put in, changed or (empty text) taken out; captions stay at least 3 s and inside the shot. */
export function captioned(shot: Shot, index: number, caption: Caption): Shot {
  const lengthS = shotLengthS(shot);
  const startS = Math.max(0, Math.min(caption.startS, lengthS - 3));
  const endS = Math.min(lengthS, Math.max(caption.endS, startS + 3));
  const text = caption.text.trim();
  const captions = [...shot.captions];
  captions.splice(index, 1, ...(text === "" ? [] : [{ startS, endS, text }]));
  return { ...shot, captions: captions.sort((a, b) => a.startS - b.startS) };
}

/**
 * A shot with a new caption at a film time of the shot, s: one that stands there has its least time and then ends for
 * it; the next is left whole where there is room.
 */
export function withNewCaption(shot: Shot, atS: number, text: string): Shot {
  const tenth = (value: number) => Math.round(value * 10) / 10;
  const lengthS = shotLengthS(shot);
  const standing = shot.captions.find((one) => one.startS <= atS && one.endS > atS);
  const freeS = standing === undefined ? atS : Math.max(atS, standing.startS + CAPTION_S.least);
  const startS = tenth(Math.max(0, Math.min(freeS, lengthS - CAPTION_S.least)));
  const others = shot.captions.map((one) =>
    one.endS > startS && startS - one.startS >= CAPTION_S.least ? { ...one, endS: startS } : one,
  );
  const nextS = Math.min(lengthS, ...others.flatMap((one) => (one.startS > startS ? [one.startS] : [])));
  const endS = Math.min(lengthS, Math.max(startS + CAPTION_S.least, Math.min(startS + CAPTION_S.usual, nextS)));
  // First of those that begin with it: it is the one that shows.
  return { ...shot, captions: [{ startS, endS, text }, ...others].sort((a, b) => a.startS - b.startS) };
}

/** Index of the caption that shows in place of this one for a while, or null: the film shows one at a time, the first of those that stand. */
export function shownInstead(captions: readonly Caption[], index: number): number | null {
  const { startS, endS } = captions[index]!;
  const before = captions.findIndex((one, at) => at < index && one.startS < endS && one.endS > startS);
  return before < 0 ? null : before;
}
