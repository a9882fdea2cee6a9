// Render, still, timeline file, captions, chapters and the preview are asked at the same instants of any film: each must
// show what the film clock says. What the clock says itself is checked in test/overlay/instant, and what ffmpeg makes of
// it, frame by frame, in test/render/exactness.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Caption, CardItem, Drawing, Film, FilmItem, Shot } from "../../main/contract/film.ts";
import type { Clip, Rational } from "../../main/contract/footage.ts";
import { holdForComments } from "../../main/film/holdForComments.ts";
import { filmCaptions, filmChapters } from "../../main/handover/filmText.ts";
import { timelineOtio } from "../../main/handover/timelineOtio.ts";
import { drawingPictures } from "../../main/render/drawingPictures.ts";
import { type PanelJob, pictureTimeUs } from "../../main/render/panelPictures.ts";
import { planFilm, planPart, type PartPlan } from "../../main/render/planFilm.ts";
import { partAround } from "../../main/render/planParts.ts";
import { lastAtOrBefore, shotFrames, wholeTicks } from "../../main/render/shotFrames.ts";
import { filmClock, type FilmClock, type ItemInstant } from "../../overlay/instant/filmClock.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { countingRide } from "../render/filmFixtures.ts";
import { madeClip } from "./madeReading.ts";

const words = debriefWords("en");
const columns = countingRide(400);

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
const clips = [filmedClip("a", { num: 30_000, den: 1001 }), filmedClip("b", { num: 25, den: 1 })];

/** One for the beginning, a half for each hold. */
const TICKS = 3;

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
const films = fc
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
function instants(clock: FilmClock): number[] {
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

const panelJob = (film: Film): PanelJob => ({
  film,
  clips: new Map(clips.map((clip) => [clip.id, clip])),
  columns,
  threadStepsPerSecond: 5,
  paging: "shot",
  hasPanels: true,
});

/**
 * The picture of its clip that an item shows, by the clock. ffmpeg counts the beginning and each hold in whole ticks of
 * the clip, so that a picture which comes within a few ticks of a frame (a fifth of a millisecond) may come one frame
 * sooner or later: of those the one that is `shown`.
 */
function pictureOf(at: ItemInstant<FilmItem>, shown: number | null | undefined): number | null {
  const { item, mediaS } = at;
  if (item.type === "card" || mediaS === null) return null;
  const { ticks, timescale } = clips.find(({ id }) => id === item.clipId)!.frames;
  const last = (tick: number): number => lastAtOrBefore((k) => ticks[k], ticks.length, tick);
  const tick = wholeTicks(mediaS * timescale);
  return [-TICKS, TICKS].map((off) => last(tick + off)).find((one) => one === shown) ?? last(tick);
}

/** What a plan of a part has ready for a frame of the film. */
function planned(plan: PartPlan, film: Film, frame: number) {
  const inPart = frame - plan.part.startFrame;
  const clock = filmClock(film);
  const pictures = plan.pieces.flatMap(({ piece, source }): { index: number; picture: number | null }[] => {
    const inPiece = frame - clock.spans[piece.item].startFrame - piece.firstFrame;
    if (inPiece < 0 || inPiece >= piece.frames) return [];
    if (source.kind === "card") return [{ index: piece.item, picture: null }];
    const { source: frames } = shotFrames(source.shot, source.clip, film.frameRate, piece.firstFrame, piece.frames);
    return [{ index: piece.item, picture: frames[inPiece] }];
  });
  const shown = plan.panels.filter((panel) => panel.frame <= inPart).at(-1);
  const drawn = drawingPictures(film, plan.part).filter(
    ({ timeUs }) => timeUs <= pictureTimeUs(inPart, film.frameRate),
  );
  return {
    pictures,
    caption: shown?.shown?.notes.caption ?? null,
    page: shown?.shown?.page.key ?? null,
    opacity: shown?.shown ? shown.opacity : null,
    drawings: drawn.at(-1)?.drawings ?? [],
  };
}

type Node = Record<string, unknown>;
const value = (node: unknown, key: string): number => ((node as Node)[key] as Node)["value"] as number;

/** What an editing program shows at each frame of the timeline file: item and clip time, in film frames. */
function timelineFrames(film: Film): { readonly id: string; readonly mediaFrame: number; readonly frozen: boolean }[] {
  const timeline = JSON.parse(timelineOtio(film, clips, [], words, "A film", new Map())) as Node;
  const [track] = (timeline["tracks"] as Node)["children"] as Node[];
  return (track["children"] as Node[]).flatMap((clip) => {
    const { id } = (clip["metadata"] as Record<string, { id: string }>)["followcar"];
    const [effect] = clip["effects"] as { OTIO_SCHEMA: string; time_scalar: number }[];
    const start = value(clip["source_range"], "start_time");
    return Array.from({ length: value(clip["source_range"], "duration") }, (_, k) => ({
      id,
      mediaFrame: start + k * (effect?.time_scalar ?? 1),
      frozen: effect?.OTIO_SCHEMA === "FreezeFrame.1",
    }));
  });
}

describe("all who show a film ask one clock", () => {
  test("the render and a still have the pictures, caption, page, drawings and comment of the clock", () => {
    fc.assert(
      fc.property(films, (film) => {
        const clock = filmClock(film);
        const parts = [...planFilm(panelJob(film))];
        for (const [k, frame] of instants(clock).entries()) {
          const at = clock.at(frame)!;
          const said = ({ pictures }: ReturnType<typeof planned>) => ({
            pictures: [...(at.from === null ? [] : [at.from]), at].map((one, k) => ({
              index: one.index,
              picture: pictureOf(one, pictures[k]?.picture),
            })),
            caption: at.caption?.text ?? null,
            page: at.page === null ? null : `${at.page.startS}/${at.page.endS}`,
            opacity: at.page === null ? null : at.panelOpacity,
            drawings: at.drawings,
          });
          const part = parts.find(
            ({ part: { startFrame, frames } }) => frame >= startFrame && frame < startFrame + frames,
          )!;
          const rendered = planned(part, film, frame);
          expect(rendered, `render, frame ${frame}`).toEqual(said(rendered));
          const comment = part.pieces.find(({ piece }) => piece.item === at.index)!.comment;
          const begun = comment === null ? -1 : at.frameInItem - comment.startFrame;
          expect(begun < 0 ? null : { path: comment!.path, sinceS: clock.timeOf(begun) }).toEqual(at.comment);
          if (k % 4 > 0) continue;
          const still = partAround(film, clock.timeOf(frame + 0.5));
          expect(still.frame).toBe(frame);
          const stood = planned(planPart(panelJob(film), still.part), film, frame);
          expect(stood, `still, frame ${frame}`).toEqual(said(stood));
        }
      }),
      { numRuns: 25 },
    );
  });

  test("captions and chapters name what stands there, to the frame", () => {
    fc.assert(
      fc.property(films, (film) => {
        const clock = filmClock(film);
        const captions = filmCaptions(film);
        const chapters = filmChapters(film, [], words);
        for (const frame of instants(clock)) {
          const at = clock.at(frame)!;
          const middleS = clock.timeOf(frame + 0.5);
          const seen = captions.filter(({ startS, endS }) => middleS >= startS && middleS < endS);
          const cards = [at.from, at].filter((one) => one?.item.type === "card").map(() => "A note\none line");
          expect(seen.map(({ text }) => text).sort()).toEqual(
            [...cards, ...(at.caption === null ? [] : [at.caption.text])].sort(),
          );
          expect(chapters.findIndex(({ startS, endS }) => middleS >= startS && middleS < endS)).toBe(at.index);
        }
      }),
      { numRuns: 100 },
    );
  });

  test("the timeline file has the clock's item and clip time at every frame", () => {
    fc.assert(
      fc.property(films, (film) => {
        const clock = filmClock(film);
        const perSecond = film.frameRate.num / film.frameRate.den;
        const frames = timelineFrames(film);
        expect(frames).toHaveLength(clock.frames);
        for (const frame of instants(clock)) {
          const at = clock.at(frame)!;
          // A crossfade is cut in its middle.
          const own = at.from !== null && at.frameInItem < Math.floor(clock.spans[at.index].crossfadeFrames / 2);
          const { item, mediaS, frozen } = own ? at.from! : at;
          expect(frames[frame].id, `frame ${frame}`).toBe(item.id);
          if (item.type === "card" || mediaS === null) continue;
          expect(frames[frame].frozen, `frame ${frame}`).toBe(frozen);
          // The file counts in whole film frames of the clip.
          expect(Math.abs(frames[frame].mediaFrame - mediaS * perSecond)).toBeLessThanOrEqual(0.5 + 1e-6);
        }
      }),
      { numRuns: 100 },
    );
  });
});

test("a hold that the cut has left behind does not count towards a comment", () => {
  const [clip] = clips;
  const item: Shot = {
    type: "shot",
    id: "one",
    clipId: clip.id,
    mediaStartS: 10,
    mediaEndS: 14,
    speed: 1,
    freezes: [{ atMediaS: 20, durationS: 8 }],
    captions: [],
    drawings: [],
    pageStartS: 50,
    pageEndS: 114,
    clock: { offsetS: 100, rate: 1 },
    moment: null,
    riderName: null,
    why: "a test",
    commentPath: "comments/one.wav",
    commentS: 9,
    crossfadeS: 0,
  };
  const film: Film = { widthPx: 1280, heightPx: 720, frameRate: { num: 25, den: 1 }, items: [item], leftOut: [] };
  expect(filmClock(holdForComments(film)).lengthS).toBeGreaterThanOrEqual(9);
});
