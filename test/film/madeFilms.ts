// Films and clips of every kind, made up, for those who ask the film clock.
import fc from "fast-check";
import type { Caption, CardItem, Drawing, Film, FilmItem, Shot } from "../../main/contract/film.ts";
import type { Clip, Rational } from "../../main/contract/footage.ts";
import { holdForComments } from "../../main/film/holdForComments.ts";
import type { FilmClock, FilmInstant } from "../../overlay/instant/filmClock.ts";
import { madeClip } from "./madeReading.ts";

/** A clip of 60 s at a rate, in ticks as fine as cameras write them. */
function filmedClip(id: string, rate: Rational): Clip {
  const fine = rate.den === 1 ? 512 : 1;
  const count = Math.floor((60 * rate.num) / rate.den);
  return madeClip(id, (count * rate.den) / rate.num, {
    frameRate: rate,
    frames: {
      timescale: rate.num * fine,
      ticks: Float64Array.from({ length: count }, (_, k) => k * rate.den * fine),
      keyframes: Uint32Array.from({ length: Math.ceil(count / 15) }, (_, k) => 15 * k),
      endTicks: count * rate.den * fine,
    },
  });
}
/** The clips of the films. */
export const clips = [filmedClip("a", { num: 30_000, den: 1001 }), filmedClip("b", { num: 25, den: 1 })];

const time = (max: number) => fc.integer({ min: 0, max: max * 1000 }).map((ms) => ms / 1000);
const caption = fc
  .record({ startS: time(6), lastS: time(5), text: fc.constantFrom("Push on.", "Light gear.", "Here.") })
  .map(({ startS, lastS, text }): Caption => ({ startS, endS: startS + lastS, text }));
const drawing = fc
  .record({ startS: time(6), lastS: time(4) })
  .map(({ startS, lastS }): Drawing => ({ shape: "ring", points: [], text: null, startS, endS: startS + lastS }));
const spoken = fc.option(time(9), { nil: null });
const fade = fc.constantFrom(0, 0, 0.5, 1, 2);

const shot = fc
  .record({
    clip: fc.constantFrom(...clips),
    mediaStartS: time(25),
    lengthS: time(5).map((s) => s + 0.4),
    speed: fc.constantFrom(0.25, 0.5, 1, 1, 2, 4),
    freezes: fc.array(fc.record({ atShare: time(1), durationS: time(2) }), { maxLength: 3 }),
    captions: fc.array(caption, { maxLength: 3 }),
    drawings: fc.array(drawing, { maxLength: 2 }),
    commentS: spoken,
    crossfadeS: fade,
  })
  .map(({ clip, mediaStartS, lengthS, speed, freezes, commentS, ...rest }): Shot => {
    const mediaEndS = mediaStartS + lengthS * speed;
    return {
      ...rest,
      type: "shot",
      id: "",
      clipId: clip.id,
      mediaStartS,
      mediaEndS,
      speed,
      // A little past the end too: such a freeze is not on film.
      freezes: freezes.map(({ atShare, durationS }) => ({
        atMediaS: mediaStartS + 1.1 * atShare * lengthS * speed,
        durationS,
      })),
      pageStartS: mediaStartS,
      pageEndS: 100 + mediaEndS,
      clock: { offsetS: 100, rate: 1 },
      moment: null,
      riderName: null,
      why: "a test",
      commentPath: commentS === null ? null : "comments/one.wav",
      ...(commentS === null ? {} : { commentS }),
    };
  });
const card = fc
  .record({ durationS: time(4), commentS: spoken, crossfadeS: fade })
  .map(({ durationS, commentS, crossfadeS }): CardItem => ({
    type: "card",
    id: "",
    durationS,
    crossfadeS,
    card: { kind: "note", title: "A note", lines: ["one line"] },
    moment: null,
    why: "a test",
    commentPath: commentS === null ? null : "comments/two.wav",
    ...(commentS === null ? {} : { commentS }),
  }));
/** Films with speeds, holds, crossfades, captions, drawings and comments. */
export const films = fc
  .record({
    items: fc.array(fc.oneof({ weight: 3, arbitrary: shot }, { weight: 1, arbitrary: card }), {
      minLength: 1,
      maxLength: 5,
    }),
    frameRate: fc.constantFrom({ num: 25, den: 1 }, { num: 30_000, den: 1001 }, { num: 60, den: 1 }),
  })
  .map(({ items, frameRate }): Film => {
    const named = items.map((item, k): FilmItem => ({ ...item, id: `item ${k}` }));
    return holdForComments({ widthPx: 1280, heightPx: 720, frameRate, items: named, leftOut: [] });
  });

/** Frames worth asking: about every edge, and some between. */
export function instants(clock: FilmClock<FilmItem>): number[] {
  const edges = clock.spans.flatMap(({ startFrame, frames, crossfadeFrames }, index) => [
    startFrame,
    startFrame + Math.floor(crossfadeFrames / 2),
    startFrame + crossfadeFrames,
    startFrame + Math.floor(frames / 2),
    ...clock.runs(index).map(({ firstFrame }) => startFrame + firstFrame),
  ]);
  const near = edges.flatMap((frame) => [frame - 1, frame, frame + 1]);
  const spread = Array.from({ length: 12 }, (_, k) => Math.floor((k / 12) * clock.frames));
  return [...new Set([...near, ...spread])].filter((frame) => frame >= 0 && frame < clock.frames);
}

/** The picture of its clip that an item shows, by the clock: the last that has come. */
export function pictureOf(at: FilmInstant<FilmItem>["upper"], shown: number | null | undefined): number | null {
  const { item, mediaS } = at;
  if (item.type === "card" || mediaS === null) return null;
  const { ticks, timescale } = clips.find(({ id }) => id === item.clipId)!.frames;
  const last = (tick: number): number =>
    Math.max(
      0,
      ticks.findLastIndex((time) => time <= tick + 1e-3),
    );
  const tick = mediaS * timescale;
  // A picture that comes within a fifth of a millisecond of a frame may come one frame sooner or later.
  return [-3, 3].map((off) => last(tick + off)).find((one) => one === shown) ?? last(tick);
}

/**
 * The picture that the render may show there: in slowed footage the last that has come, else the nearest, the shot's
 * start and each hold moved by up to half a frame; of those the one that is `shown`.
 */
export function renderedPicture(
  at: FilmInstant<FilmItem>["upper"],
  shown: number | null | undefined,
  frameRate: Rational,
): number | null {
  const { item, mediaS } = at;
  if (item.type === "card" || mediaS === null || shown === null || shown === undefined) return pictureOf(at, shown);
  const clip = clips.find(({ id }) => id === item.clipId)!;
  const { ticks, timescale } = clip.frames;
  const intervalS = clip.frameRate.den / clip.frameRate.num;
  const stepS = (item.speed * frameRate.den) / frameRate.num;
  const soonerS = Math.min(intervalS, stepS) / 2;
  const slackS = intervalS / 2 + (item.freezes.length > 0 ? stepS / 2 : 0) + 1e-4;
  const comesS = ticks[shown]! / timescale - soonerS;
  const goesS = (ticks[shown + 1] ?? Infinity) / timescale - soonerS;
  return comesS <= mediaS + slackS && goesS >= mediaS - slackS ? shown : pictureOf(at, null);
}
