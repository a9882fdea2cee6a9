/** What `filmAt` needs of a film; the film of the contract fits. */
export interface FilmLike<Item extends FilmItemLike = FilmItemLike> {
  readonly frameRate: { readonly num: number; readonly den: number };
  readonly items: readonly Item[];
}

export type FilmItemLike = ShotLike | CardLike;

export interface ShotLike {
  readonly type: "shot";
  readonly mediaStartS: number;
  readonly mediaEndS: number;
  readonly speed: number;
  readonly freezes: readonly { readonly atMediaS: number; readonly durationS: number }[];
  readonly crossfadeS: number;
}

export interface CardLike {
  readonly type: "card";
  readonly durationS: number;
  readonly crossfadeS: number;
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
export interface ItemInstant {
  readonly index: number;
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
export interface FilmInstant extends ItemInstant {
  /** The item that fades out beneath, during a crossfade; else null. */
  readonly from: ItemInstant | null;
  /** Share of this item in the picture, 0 to 1; 1 outside crossfades. */
  readonly share: number;
}

/** Length on film, s: footage at its speed plus what freezes add, or a card's own. */
export function itemDurationS(item: FilmItemLike): number {
  if (item.type === "card") return item.durationS;
  const held = freezesOf(item).reduce((sum, freeze) => sum + freeze.durationS, 0);
  return (item.mediaEndS - item.mediaStartS) / item.speed + held;
}

/** Start and length of every item in whole frames. An item is at least one frame; a crossfade at most half of each neighbour. */
export function filmTimeline(film: FilmLike): ItemSpan[] {
  const perSecond = film.frameRate.num / film.frameRate.den;
  const lengths = film.items.map((item) => Math.max(1, Math.round(itemDurationS(item) * perSecond)));
  const spans: ItemSpan[] = [];
  let end = 0;
  film.items.forEach((item, index) => {
    const frames = lengths[index];
    const before = index === 0 ? 0 : lengths[index - 1];
    const wished = index === 0 ? 0 : Math.round(item.crossfadeS * perSecond);
    const crossfadeFrames = Math.max(0, Math.min(wished, Math.floor(frames / 2), Math.floor(before / 2)));
    const startFrame = end - crossfadeFrames;
    spans.push({ startFrame, frames, crossfadeFrames });
    end = startFrame + frames;
  });
  return spans;
}

/** Frames of the whole film. */
export function filmFrames(film: FilmLike): number {
  const last = filmTimeline(film).at(-1);
  return last === undefined ? 0 : last.startFrame + last.frames;
}

/**
 * What a film frame shows: item, clip time (speed and freezes counted), crossfade.
 *
 * @param frame whole frames from the film's first; null is returned outside the film
 * @param timeline `filmTimeline(film)`, where the caller already has it
 */
export function filmAt(
  film: FilmLike,
  frame: number,
  timeline: readonly ItemSpan[] = filmTimeline(film),
): FilmInstant | null {
  let index = timeline.length - 1;
  while (index >= 0 && frame < timeline[index].startFrame) index -= 1;
  const span = timeline[index];
  if (span === undefined || frame >= span.startFrame + span.frames) return null;
  const inItem = frame - span.startFrame;
  const fading = inItem < span.crossfadeFrames;
  return {
    ...instantIn(film, timeline, index, frame),
    from: fading ? instantIn(film, timeline, index - 1, frame) : null,
    share: fading ? (inItem + 1) / (span.crossfadeFrames + 1) : 1,
  };
}

function instantIn(film: FilmLike, timeline: readonly ItemSpan[], index: number, frame: number): ItemInstant {
  const item = film.items[index];
  const frameInItem = frame - timeline[index].startFrame;
  const itemS = (frameInItem * film.frameRate.den) / film.frameRate.num;
  if (item.type === "card") return { index, frameInItem, itemS, mediaS: null, frozen: false };
  return { index, frameInItem, itemS, ...mediaTimeIn(item, itemS) };
}

/** Clip time at a film time within a shot, s, and whether a freeze holds it. */
export function mediaTimeIn(shot: ShotLike, itemS: number): { readonly mediaS: number; readonly frozen: boolean } {
  let heldS = 0;
  for (const freeze of freezesOf(shot)) {
    const reachedS = (freeze.atMediaS - shot.mediaStartS) / shot.speed + heldS;
    if (itemS < reachedS) break;
    if (itemS < reachedS + freeze.durationS) return { mediaS: freeze.atMediaS, frozen: true };
    heldS += freeze.durationS;
  }
  return { mediaS: shot.mediaStartS + (itemS - heldS) * shot.speed, frozen: false };
}

/** The freezes that lie within the shot, in order. */
function freezesOf(shot: ShotLike): { readonly atMediaS: number; readonly durationS: number }[] {
  return shot.freezes
    .filter((freeze) => freeze.atMediaS >= shot.mediaStartS && freeze.atMediaS < shot.mediaEndS && freeze.durationS > 0)
    .sort((a, b) => a.atMediaS - b.atMediaS);
}
