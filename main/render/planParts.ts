import type { Film } from "../contract/film.ts";
import { filmClock, type ItemSpan } from "../../overlay/instant/filmClock.ts";

/** An item's share of a part. */
export interface Piece {
  /** Index into the film's items. */
  readonly item: number;
  /** First frame shown, counted from the item's own first. */
  readonly firstFrame: number;
  readonly frames: number;
  /** Frames at its beginning that fade in over the piece before, in the same part. */
  readonly crossfadeFrames: number;
}

/** A run between hard cuts that is rendered, named and kept on its own. */
export interface Part {
  readonly startFrame: number;
  readonly frames: number;
  readonly pieces: readonly Piece[];
}

/** Longest part, s, so that little is lost when a render is broken off. */
const LONGEST_PART_S = 60;

/** The film in parts: cut at every hard cut, and within long shots at whole steps so that a cut changes no picture. */
export function planParts(film: Film): Part[] {
  const timeline = filmClock(film).spans;
  const parts: Part[] = [];
  let from = 0;
  while (from < timeline.length) {
    let until = from + 1;
    while (until < timeline.length && timeline[until]!.crossfadeFrames > 0) until += 1;
    parts.push(...cutRun(film, timeline, from, until));
    from = until;
  }
  return parts;
}

/**
 * The frame at a film time, in a part of its own: with the whole crossfade where it lies in one. A time past either end
 * takes the nearest frame.
 */
export function partAround(film: Film, atS: number): { readonly part: Part; readonly frame: number } {
  const clock = filmClock(film);
  const frame = Math.max(0, Math.min(clock.frames - 1, clock.frameAt(atS)));
  const instant = clock.at(frame);
  const span = instant?.from ? clock.spans[instant.index] : undefined;
  const [start, stop] = span ? [span.startFrame, span.startFrame + span.crossfadeFrames] : [frame, frame + 1];
  return { part: partOf(clock.spans, 0, clock.spans.length, start, stop), frame };
}

function cutRun(film: Film, timeline: readonly ItemSpan[], from: number, until: number): Part[] {
  const { num, den } = film.frameRate;
  // A whole number of seconds' worth of frames: their sound is a whole number of samples too.
  const step = Math.round(num / den) * 6;
  const longest = Math.max(step, Math.floor((LONGEST_PART_S * num) / den / step) * step);
  const first = timeline[from]!;
  const last = timeline[until - 1]!;
  const end = last.startFrame + last.frames;
  const parts: Part[] = [];
  for (let start = first.startFrame; start < end;) {
    const stop = end - start <= longest ? end : cutBefore(timeline, start, start + longest, step);
    parts.push(partOf(timeline, from, until, start, stop));
    start = stop;
  }
  return parts;
}

/** The last place at or before `wished` that is a whole step into its item and in no crossfade; `wished` where there is none. */
function cutBefore(timeline: readonly ItemSpan[], start: number, wished: number, step: number): number {
  for (let cut = wished; cut > start; cut -= 1) {
    const at = timeline.filter((span) => cut > span.startFrame && cut < span.startFrame + span.frames);
    const only = at.length === 1 ? at[0]! : null;
    if (only !== null && (cut - only.startFrame) % step === 0) return cut;
  }
  return wished;
}

function partOf(timeline: readonly ItemSpan[], from: number, until: number, start: number, stop: number): Part {
  const pieces: Piece[] = [];
  for (let item = from; item < until; item += 1) {
    const span = timeline[item]!;
    const firstFrame = Math.max(0, start - span.startFrame);
    const endFrame = Math.min(span.frames, stop - span.startFrame);
    if (endFrame <= firstFrame) continue;
    const fading = pieces.length > 0 ? Math.max(0, span.crossfadeFrames - firstFrame) : 0;
    pieces.push({ item, firstFrame, frames: endFrame - firstFrame, crossfadeFrames: fading });
  }
  return { startFrame: start, frames: stop - start, pieces };
}
