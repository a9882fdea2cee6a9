import type { Film } from "../../contract/film.ts";
import type { Clip } from "../../contract/footage.ts";
import { type Lineup, rideClockOf } from "../../contract/lineup.ts";
import type { Moment } from "../../contract/reading.ts";

/** Frames of a clip that get a proxy in one piece. */
export interface ProxyPiece {
  readonly clip: Clip;
  readonly firstFrame: number;
  readonly frames: number;
}

/** Footage either side of a moment, s. */
const AROUND_S = 20;
/** Of a long moment its beginning, s. */
const MOMENT_MOST_S = 40;
/** So many moments, by rank. */
const MOMENTS_MOST = 24;
/** Of a shot of the film, s. */
const SHOT_MOST_S = 60;
/** A clip no longer than this is made whole, s. */
const WHOLE_UP_TO_S = 60;
/** A span that another covers but for so much is left out, s. */
const UNCOVERED_MOST_S = 2;

interface MediaSpan {
  readonly clip: Clip;
  readonly startS: number;
  readonly endS: number;
}

/** The pieces worth a proxy, the first needed first: around the moments by rank, then the shots of the film, then what is short anyway. */
export function proxyPlan(input: {
  readonly moments: readonly Moment[];
  readonly clips: readonly Clip[];
  readonly lineup: Lineup;
  readonly film: Film | null;
}): ProxyPiece[] {
  const { clips, lineup } = input;
  const wanted: MediaSpan[] = [];
  for (const moment of [...input.moments].sort((a, b) => a.rank - b.rank).slice(0, MOMENTS_MOST)) {
    const endS = Math.min(moment.endS, moment.startS + MOMENT_MOST_S) + AROUND_S;
    for (const { clipId, verdict } of lineup.clips) {
      const clock = rideClockOf(lineup, clipId);
      const clip = clips.find(({ id }) => id === clipId);
      if (clip === undefined || clock === null || verdict === "no match") continue;
      const mediaS = (rideS: number): number => (rideS - clock.offsetS) / clock.rate;
      wanted.push({ clip, startS: mediaS(moment.startS - AROUND_S), endS: mediaS(endS) });
    }
  }
  for (const item of input.film?.items ?? []) {
    const clip = item.type === "shot" ? clips.find(({ id }) => id === item.clipId) : undefined;
    if (item.type === "shot" && clip !== undefined)
      wanted.push({
        clip,
        startS: item.mediaStartS - 2,
        endS: Math.min(item.mediaEndS, item.mediaStartS + SHOT_MOST_S) + 2,
      });
  }
  // Short clips cost little: all of them, whatever they show.
  for (const clip of clips) if (clip.durationS <= WHOLE_UP_TO_S) wanted.push({ clip, startS: 0, endS: clip.durationS });
  const planned: MediaSpan[] = [];
  for (const span of wanted) {
    const { clip } = span;
    const whole = clip.durationS <= WHOLE_UP_TO_S;
    const startS = whole ? 0 : Math.max(0, span.startS);
    const endS = whole ? clip.durationS : Math.min(clip.durationS, span.endS);
    if (endS - startS <= 0 || span.endS <= 0 || span.startS >= clip.durationS) continue;
    const covered = planned.some(
      (one) => one.clip === clip && one.startS <= startS + UNCOVERED_MOST_S && one.endS >= endS - UNCOVERED_MOST_S,
    );
    if (!covered) planned.push({ clip, startS, endS });
  }
  return planned.map(({ clip, startS, endS }) => pieceOf(clip, startS, endS));
}

/** The frames shown in a span of clip time. */
export function pieceOf(clip: Clip, startS: number, endS: number): ProxyPiece {
  const { ticks, timescale } = clip.frames;
  let firstFrame = 0;
  while (firstFrame + 1 < ticks.length && ticks[firstFrame + 1]! <= startS * timescale) firstFrame++;
  let end = firstFrame + 1;
  while (end < ticks.length && ticks[end]! < endS * timescale) end++;
  return { clip, firstFrame, frames: end - firstFrame };
}

/** The span of clip time in which a piece's frames are shown. */
export function spanOf({ clip, firstFrame, frames }: ProxyPiece): { startS: number; endS: number } {
  const { ticks, timescale, endTicks } = clip.frames;
  const end = firstFrame + frames < ticks.length ? ticks[firstFrame + frames]! : endTicks;
  return { startS: ticks[firstFrame]! / timescale, endS: end / timescale };
}
