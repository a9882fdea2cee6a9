import type { Caption, MomentKey, Shot } from "../contract/film.ts";
import type { Rational } from "../contract/footage.ts";
import type { Span } from "../contract/ride.ts";
import { PressureState, type Moment, type Reading } from "../contract/reading.ts";
import { type PlacedClip, type WantedSpan, clipFor } from "./filmedSpan.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { shotPage } from "../../overlay/instant/threadPageAt.ts";
import { textMark } from "../maths/textMark.ts";
import { CLIMB_S, coastStartS } from "./momentFacts.ts";

/** No shot is shorter on film, s. */
export const LEAST_SHOT_S = 6;
/** One shot says one thing: longer, and the next is forgotten; common practice, no source. */
const LONGEST_SHOT_S = 24;
/** Kinds of which a few seconds tell all there is to see, s; common practice, no source. */
const LONGEST_OF_KIND: Readonly<Record<string, number>> = { driftOnset: 12, marked: 10, turn: 10, oddHeart: 12 };
const HANDLE_BEFORE_S = 4;
const HANDLE_AFTER_S = 3;
/** A stretch worth showing as one that held, s; common practice, no source. */
const LEAST_HOLD_S = 15;
const CAPTION_LEAST_S = 3;
const CAPTION_MOST_S = 9;
/** Enough to read a caption twice, s; common practice, no source. */
const CAPTION_READ_S = 5;
/** How fast a kind may run: a long steady or broken stretch is told better sped up, a single slip is not. */
const MOST_SPEED: Readonly<Record<string, number>> = {
  steadyStretch: 8,
  breakRun: 8,
  lapse: 4,
  riseThenOff: 4,
  surge: 4,
  cadenceBlock: 8,
  effortShort: 4,
};

/** Where a moment is filmed, and what of the ride its shot should show. */
export interface FilmedMoment {
  readonly clip: PlacedClip;
  readonly wanted: WantedSpan;
}

export interface ShotOrder {
  readonly id: string;
  readonly kind: string;
  /** Index in the reading's list and key of the moment; null where it shows none of them. */
  readonly about: { readonly index: number; readonly key: MomentKey } | null;
  readonly place: FilmedMoment;
  readonly wishedS: number;
  readonly frameRate: Rational;
  readonly captions: readonly string[];
  readonly riderName: string | null;
  readonly why: string;
}

/** When the climb of the heart began: one ride tells it to some minutes, so that any of them shows it. Ride times, s. */
export interface OnsetSpan {
  readonly atS: number;
  readonly lowS: number;
  readonly highS: number;
}

/** From the reading's drift; null where no beginning is claimed. */
export function onsetSpan({ onsetS, onsetLowS, onsetHighS }: Reading["drift"]): OnsetSpan | null {
  return onsetS === null ? null : { atS: onsetS, lowS: onsetLowS ?? onsetS, highS: onsetHighS ?? onsetS };
}

/** The filmed instant nearest to the onset, within what the ride can tell; the onset itself where nothing was filmed. */
function filmedNear(onset: OnsetSpan, placed: readonly PlacedClip[]): number {
  const near = placed.flatMap((clip) => {
    const fromS = Math.max(clip.startS, onset.lowS);
    const toS = Math.min(clip.endS, onset.highS) - 1;
    return toS > fromS ? [Math.max(fromS, Math.min(onset.atS, toS))] : [];
  });
  return near.reduce(
    (best, one) => (Math.abs(one - onset.atS) < Math.abs(best - onset.atS) ? one : best),
    near[0] ?? onset.atS,
  );
}

/**
 * The longest filmed stretch at the plan without a break; null where there is none of 15 s.
 * @param avoid ride that other shots show
 */
export function filmedHold(
  placed: readonly PlacedClip[],
  states: Uint8Array,
  avoid: readonly Span[],
): FilmedMoment | null {
  let best: { readonly clip: PlacedClip; readonly startS: number; readonly endS: number } | null = null;
  const held = (s: number): boolean =>
    states[s] === PressureState.in && !avoid.some((span) => s >= span.startS && s < span.endS);
  for (const clip of placed) {
    const endS = Math.min(states.length, Math.floor(clip.endS));
    for (let fromS = Math.max(0, Math.ceil(clip.startS)), s = fromS; s <= endS; s++) {
      if (s < endS && held(s)) continue;
      if (s - fromS >= LEAST_HOLD_S && s - fromS > (best === null ? 0 : best.endS - best.startS))
        best = { clip, startS: fromS, endS: s };
      fromS = s + 1;
    }
  }
  if (best === null) return null;
  const { startS, endS } = best;
  return { clip: { ...best.clip, startS, endS }, wanted: { startS, endS, focusS: startS } };
}

/** What the picture must show; the focus is where the thing happens, and a moment whose focus is not filmed is a chart. */
function wantedSpan(moment: Moment, onset: OnsetSpan | null, placed: readonly PlacedClip[]): WantedSpan {
  if (moment.kind === "driftOnset" && onset !== null) {
    const focusS = filmedNear(onset, placed);
    return { startS: focusS, endS: focusS + 1, focusS };
  }
  if (moment.kind === "riseThenOff") {
    const focusS = coastStartS(moment);
    return { startS: Math.max(moment.startS, focusS - CLIMB_S), endS: moment.endS + HANDLE_AFTER_S, focusS };
  }
  return { startS: moment.startS - HANDLE_BEFORE_S, endS: moment.endS + HANDLE_AFTER_S, focusS: moment.startS };
}

/** The clip that shows a moment. Of a steady stretch any part tells it, and nothing else may be in the shot. */
export function filmed(placed: readonly PlacedClip[], moment: Moment, onset: OnsetSpan | null): FilmedMoment | null {
  // A whole frame more than the least, since a shot is whole frames.
  const long = (clip: PlacedClip): boolean => (clip.endS - clip.startS) / clip.clock.rate >= LEAST_SHOT_S + 0.1;
  if (moment.kind === "steadyStretch") {
    const inside = placed
      .map((clip) => ({
        ...clip,
        startS: Math.max(clip.startS, moment.startS),
        endS: Math.min(clip.endS, moment.endS),
      }))
      .filter(long)
      .sort((one, other) => other.endS - other.startS - (one.endS - one.startS))[0];
    if (inside === undefined) return null;
    return { clip: inside, wanted: { startS: inside.startS, endS: inside.endS, focusS: inside.startS } };
  }
  const wanted = wantedSpan(moment, onset, placed.filter(long));
  const clip = clipFor(placed.filter(long), wanted);
  return clip === null ? null : { clip, wanted };
}

/** The lowest of 1, 2, 4, 8 at which the wanted span fits, within what the kind bears and the clip holds. */
function speedFor(wanted: WantedSpan, filmS: number, clip: PlacedClip, most: number): number {
  const clipS = clip.endS - clip.startS;
  let speed = 1;
  while (speed < most && (wanted.endS - wanted.startS) / speed > filmS && clipS >= filmS * speed * 2) speed *= 2;
  return speed;
}

/**
 * At most three captions, each 3 to 9 s, one after the other, the first (where `second`, the second) not before the thing
 * itself is on the picture, as far as 3 s for each leave room.
 */
function captionsOver(texts: readonly string[], filmS: number, focusS: number, second: boolean): Caption[] {
  const count = Math.min(texts.length, 3, Math.floor(filmS / CAPTION_LEAST_S));
  if (count === 0) return [];
  if (count === 3) {
    // The third takes over when the second was read.
    const lastS = Math.max(
      2 * CAPTION_LEAST_S,
      Math.min(filmS - CAPTION_LEAST_S, (second ? focusS : filmS / 3) + CAPTION_READ_S),
    );
    const before = captionsOver(texts.slice(0, 2), lastS, focusS, second);
    return [...before, { startS: lastS, endS: Math.min(filmS, lastS + CAPTION_MOST_S), text: texts[2]! }];
  }
  const latestS = filmS - CAPTION_LEAST_S;
  if (count === 1) {
    const startS = Math.max(0, Math.min(focusS, latestS));
    return [{ startS, endS: Math.min(filmS, startS + CAPTION_MOST_S), text: texts[0]! }];
  }
  const firstS = second ? 0 : Math.max(0, Math.min(focusS, latestS - CAPTION_LEAST_S));
  const thenS = second
    ? Math.max(CAPTION_LEAST_S, Math.min(focusS, latestS))
    : Math.min(latestS, firstS + Math.min(CAPTION_MOST_S, (filmS - firstS) / 2));
  return [
    { startS: firstS, endS: Math.min(thenS, firstS + CAPTION_MOST_S), text: texts[0]! },
    { startS: thenS, endS: Math.min(filmS, thenS + CAPTION_MOST_S), text: texts[1]! },
  ];
}

/** Mark of a shot's captions by their words; moving one does not change it. */
export function captionsMark(captions: readonly Caption[]): string {
  return textMark(captions.map(({ text }) => text).join("\n"));
}

/** Captions at their times with other words, and their mark; those without words go. */
export function captionsSaying(
  captions: readonly Caption[],
  texts: readonly string[],
): { readonly captions: readonly Caption[]; readonly made: string } {
  const said = captions.flatMap((caption, at) => (texts[at] === undefined ? [] : [{ ...caption, text: texts[at] }]));
  return { captions: said, made: captionsMark(said) };
}

/** Ride time of a shot's first and last picture, s. */
export function rideSpan({
  clock,
  mediaStartS,
  mediaEndS,
}: Pick<Shot, "clock" | "mediaStartS" | "mediaEndS">): [number, number] {
  return [rideTimeAt(clock, mediaStartS), rideTimeAt(clock, mediaEndS)];
}

/** A shot of a moment, `wishedS` long where its clip allows, on whole frames. */
export function makeShot(order: ShotOrder): Shot {
  const { kind, about, frameRate: rate, wishedS } = order;
  const { clip, wanted } = order.place;
  const most = MOST_SPEED[kind] ?? 1;
  const clipS = (clip.endS - clip.startS) / clip.clock.rate;
  const perSecond = rate.num / rate.den;
  const leastFrames = Math.ceil(LEAST_SHOT_S * perSecond - 1e-9);
  const filmS = Math.max(leastFrames, Math.floor(Math.min(wishedS, clipS) * perSecond)) / perSecond;
  const speed = speedFor(wanted, filmS, clip, most);
  const spanS = filmS * speed * clip.clock.rate;
  const wantedS = wanted.endS - wanted.startS;
  // Spare time is shared out around what is wanted; where it does not fit, a stretch keeps its middle, a slip its start.
  const spareS = spanS - wantedS;
  const centred = kind === "steadyStretch" || kind === "driftOnset";
  let startS = wanted.startS - (spareS > 0 || centred ? spareS / 2 : 0);
  startS = Math.max(clip.startS, Math.min(startS, clip.endS - spanS));
  const captions = captionsOver(
    order.captions,
    filmS,
    kind === "driftOnset" ? 0 : (wanted.focusS - startS) / clip.clock.rate / speed,
    kind === "riseThenOff",
  );
  const mediaStartS = Math.max(0, (startS - clip.clock.offsetS) / clip.clock.rate);
  const mediaEndS = mediaStartS + filmS * speed;
  const page = shotPage(clip.clock, mediaStartS, mediaEndS);
  return {
    type: "shot",
    id: order.id,
    clipId: clip.clip.id,
    mediaStartS,
    mediaEndS,
    speed,
    freezes: [],
    captions,
    drawings: [],
    pageStartS: page.startS,
    pageEndS: page.endS,
    clock: clip.clock,
    ...(clip.leadS === undefined ? {} : { leadS: clip.leadS }),
    moment: about?.index ?? null,
    riderName: order.riderName,
    why: order.why,
    commentPath: null,
    crossfadeS: 0,
    ...(about === null ? {} : { momentKey: about.key }),
    made: captionsMark(captions),
  };
}

/** A shot is no longer than its clip (or the part of it that may be shown), nor than one thing takes to say. */
export function mostShotS({ clip }: FilmedMoment, kind: string): number {
  return Math.max(
    LEAST_SHOT_S,
    Math.min(LONGEST_OF_KIND[kind] ?? LONGEST_SHOT_S, (clip.endS - clip.startS) / clip.clock.rate),
  );
}
