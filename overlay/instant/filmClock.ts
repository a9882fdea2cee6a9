import { type Drawing, drawingShows } from "../../main/contract/drawing.ts";
import type { Caption, CardItem, Film, Shot } from "../../main/contract/film.ts";
import { type Hold, holdsIn, itemTimeAt, mediaTimeIn, shotLengthS, type ShotSpan } from "./shotTime.ts";
import type { PageSpan } from "./threadPageAt.ts";

/** What the clock needs of a film. */
export interface FilmLike<Item extends FilmItemLike = FilmItemLike> extends Pick<Film, "frameRate"> {
  readonly items: readonly Item[];
}

export type FilmItemLike = ShotLike | CardLike;

type ShotLike = ShotSpan &
  Pick<Shot, "type" | "crossfadeS" | "captions" | "drawings" | "pageStartS" | "pageEndS" | "commentPath">;

interface CardLike extends Pick<CardItem, "type" | "durationS" | "crossfadeS" | "commentPath"> {
  /** A pair begins and ends by a cut. */
  readonly card?: Pick<CardItem["card"], "kind">;
}

/** Where an item stands on film, in whole frames. */
export interface ItemSpan {
  readonly startFrame: number;
  /** Frames in which it is seen, those of both crossfades included. */
  readonly frames: number;
  /** Frames at its beginning that it shares with the item before. */
  readonly crossfadeFrames: number;
}

/** One item's part in a film frame. */
interface ItemInstant<Item extends FilmItemLike = FilmItemLike> {
  readonly index: number;
  readonly item: Item;
  /** Frames since the item's first. */
  readonly frameInItem: number;
  /** Film time since the item's start, s. */
  readonly itemS: number;
  /** Clip time, s; null on a card. */
  readonly mediaS: number | null;
  /** True while a freeze holds the picture. */
  readonly frozen: boolean;
}

/** What is on film at a frame. */
export interface FilmInstant<Item extends FilmItemLike = FilmItemLike> extends ItemInstant<Item> {
  /** The item that fades out beneath, during a crossfade; else null. */
  readonly from: ItemInstant<Item> | null;
  /** Share of this item in the picture, 0 to 1; 1 outside crossfades. */
  readonly share: number;
  /** Whose numbers, caption and drawings stand on the picture: the item with the larger share. */
  readonly upper: ItemInstant<Item>;
  /** How much of the numbers is seen, 0 to 1: in a crossfade they go out with their picture and come in with the next. */
  readonly panelOpacity: number;
  /** The caption that stands on the picture: the first of those whose time it is. */
  readonly caption: Caption | null;
  /** The part of the ride that the thread's page stands for; null on a card. */
  readonly page: PageSpan | null;
  readonly drawings: readonly Drawing[];
  /** The spoken comment of the item under way, once it has begun, and the s since then. */
  readonly comment: { readonly path: string; readonly sinceS: number } | null;
}

/** A stretch of a shot in which the picture runs, or stands. */
interface ItemRun {
  /** Counted from the item's first frame. */
  readonly firstFrame: number;
  readonly frames: number;
  /** Clip time at its first frame, s. */
  readonly mediaS: number;
  readonly frozen: boolean;
}

/** Sums of binary fractions may fall this far short of the frame that they stand for, frames. */
const ROUNDING_FRAMES = 1e-6;

/**
 * The one clock of a film: which item, clip time, freeze, crossfade, caption, page, drawings and comment belong to which
 * frame. Preview, render, stills, timeline, captions and chapters all ask it and reckon nothing by themselves.
 */
export interface FilmClock<Item extends FilmItemLike = FilmItemLike> {
  /** Start and length of every item in whole frames. */
  readonly spans: readonly ItemSpan[];
  /** Frames of the whole film. */
  readonly frames: number;
  /** Length of the whole film, s. */
  readonly lengthS: number;
  /** What a film frame shows; null outside the film. */
  at(frame: number): FilmInstant<Item> | null;
  /** What an item shows by itself at a frame counted from its first: no crossfade; past its ends the footage runs on. */
  within(index: number, frameInItem: number): FilmInstant<Item> | null;
  /** The holds of a shot in order; none on a card. */
  holdsOf(index: number): readonly Hold[];
  /** Film time at which a frame begins, s; the same for frames counted from an item's first. */
  timeOf(frame: number): number;
  /** The frame that stands at a film time; the same for times since an item's start. */
  frameAt(filmS: number): number;
  /** The frame of a shot, counted from its first, that shows a clip time first. */
  frameShowing(index: number, mediaS: number): number;
  /** Runs and holds of a shot in order; their frames add up to its own. A card is one run at clip time 0. */
  runs(index: number): ItemRun[];
  /** An item's spoken comment and the frame of the item that it begins at: when the item before has faded out. */
  commentOf(index: number): { readonly path: string; readonly startFrame: number } | null;
}

/** Length of an item on film, s. */
export function itemLengthS(item: FilmItemLike): number {
  return item.type === "card" ? item.durationS : shotLengthS(item);
}

/** The clock of a film. A film is never changed, so it may be kept as long as the film is. */
export function filmClock<Item extends FilmItemLike>(film: FilmLike<Item>): FilmClock<Item> {
  const { num, den } = film.frameRate;
  const spans = spansOf(film);
  const last = spans.at(-1);
  const frames = last === undefined ? 0 : last.startFrame + last.frames;
  const holds = film.items.map((item): readonly Hold[] => (item.type === "card" ? [] : holdsIn(item)));
  const timeOf = (frame: number): number => (frame * den) / num;
  const frameAt = (filmS: number): number => Math.floor((filmS * num) / den + ROUNDING_FRAMES);

  const itemAt = (index: number, frameInItem: number): ItemInstant<Item> => {
    const item = film.items[index]!;
    const itemS = timeOf(frameInItem);
    const media = item.type === "card" ? { mediaS: null, frozen: false } : mediaTimeIn(item, itemS, holds[index]);
    return { index, item, frameInItem, itemS, ...media };
  };
  const commentOf = (index: number): { path: string; startFrame: number } | null => {
    const path = film.items[index]?.commentPath ?? null;
    return path === null ? null : { path, startFrame: spans[index]!.crossfadeFrames };
  };
  const instantOf = (index: number, frameInItem: number, fading: boolean): FilmInstant<Item> => {
    const { startFrame, crossfadeFrames } = spans[index]!;
    const now = itemAt(index, frameInItem);
    const share = fading ? (frameInItem + 1) / (crossfadeFrames + 1) : 1;
    const from = fading ? itemAt(index - 1, startFrame + frameInItem - spans[index - 1]!.startFrame) : null;
    const upper = from !== null && share < 0.5 ? from : now;
    const comment = commentOf(index);
    return {
      ...now,
      from,
      share,
      upper,
      panelOpacity: fading ? Math.abs(2 * share - 1) : 1,
      ...shownOver(upper),
      comment:
        comment === null || frameInItem < comment.startFrame
          ? null
          : { path: comment.path, sinceS: timeOf(frameInItem - comment.startFrame) },
    };
  };

  return {
    spans,
    frames,
    lengthS: timeOf(frames),
    at(frame) {
      if (!(frame < frames)) return null;
      let index = spans.length - 1;
      while (index >= 0 && frame < spans[index]!.startFrame) index -= 1;
      if (index < 0) return null;
      const frameInItem = frame - spans[index]!.startFrame;
      return instantOf(index, frameInItem, frameInItem < spans[index]!.crossfadeFrames);
    },
    within: (index, frameInItem) => (spans[index] === undefined ? null : instantOf(index, frameInItem, false)),
    holdsOf: (index) => holds[index] ?? [],
    timeOf,
    frameAt,
    frameShowing(index, mediaS) {
      const item = film.items[index];
      if (item === undefined || item.type === "card") return 0;
      return Math.max(0, Math.ceil((itemTimeAt(item, mediaS, holds[index]) * num) / den - ROUNDING_FRAMES));
    },
    runs(index) {
      // Where the picture changes from running to standing, as the frames themselves see it.
      const firstFrom = (itemS: number): number => {
        let frame = Math.max(0, frameAt(itemS));
        while (frame > 0 && timeOf(frame - 1) >= itemS) frame -= 1;
        while (timeOf(frame) < itemS) frame += 1;
        return Math.min(frame, spans[index]!.frames);
      };
      const edges = [0, ...holds[index]!.flatMap(({ startS, endS }) => [firstFrom(startS), firstFrom(endS)])];
      return edges.flatMap((firstFrame, k): ItemRun[] => {
        const length = (edges[k + 1] ?? spans[index]!.frames) - firstFrame;
        if (length <= 0) return [];
        const { mediaS, frozen } = itemAt(index, firstFrame);
        return [{ firstFrame, frames: length, mediaS: mediaS ?? 0, frozen }];
      });
    },
    commentOf,
  };
}

/** An item is at least one frame; a crossfade at most half of each neighbour. */
function spansOf(film: FilmLike): ItemSpan[] {
  const perSecond = film.frameRate.num / film.frameRate.den;
  const lengths = film.items.map((item) => Math.max(1, Math.round(itemLengthS(item) * perSecond)));
  const spans: ItemSpan[] = [];
  let end = 0;
  film.items.forEach((item, index) => {
    const frames = lengths[index]!;
    const before = index === 0 ? 0 : lengths[index - 1]!;
    const cut = index === 0 || isPair(item) || isPair(film.items[index - 1]!);
    const wished = cut ? 0 : Math.round(item.crossfadeS * perSecond);
    const crossfadeFrames = Math.max(0, Math.min(wished, Math.floor(frames / 2), Math.floor(before / 2)));
    const startFrame = end - crossfadeFrames;
    spans.push({ startFrame, frames, crossfadeFrames });
    end = startFrame + frames;
  });
  return spans;
}

function isPair(item: FilmItemLike): boolean {
  return item.type === "card" && item.card?.kind === "pair";
}

function shownOver({ item, itemS }: ItemInstant): Pick<FilmInstant, "caption" | "page" | "drawings"> {
  if (item.type === "card") return { caption: null, page: null, drawings: [] };
  return {
    caption: item.captions.find((caption) => itemS >= caption.startS && itemS < caption.endS) ?? null,
    page: { startS: item.pageStartS, endS: item.pageEndS },
    drawings: item.drawings.filter((drawing) => drawingShows(drawing, itemS)),
  };
}
