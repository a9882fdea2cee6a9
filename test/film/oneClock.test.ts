// Render, still, timeline file, captions and chapters are asked at the same instants of any film, as the preview is in
// test/renderer/filmPlayhead: each must show what the film clock says. What the clock says itself is checked in test/overlay/instant, and what ffmpeg makes of
// it, frame by frame, in test/render/exactness.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Film, Shot } from "../../main/contract/film.ts";
import { holdForComments } from "../../main/film/holdForComments.ts";
import { filmCaptions, filmChapters } from "../../main/handover/filmText.ts";
import { timelineOtio } from "../../main/handover/timelineOtio.ts";
import { drawingPictures } from "../../main/render/drawingPictures.ts";
import { type PanelJob, pictureTimeUs } from "../../main/render/panelPictures.ts";
import { planPart, type PartPlan } from "../../main/render/planFilm.ts";
import { partAround, planParts } from "../../main/render/planParts.ts";
import { shotFrames } from "../../main/render/shotFrames.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { countingRide } from "../render/filmFixtures.ts";
import { clips, films, instants, renderedPicture } from "./madeFilms.ts";

const words = debriefWords("en");
const columns = countingRide(400);

const panelJob = (film: Film): PanelJob => ({
  film,
  clips: new Map(clips.map((clip) => [clip.id, clip])),
  columns,
  threadStepsPerSecond: 5,
  paging: "shot",
  hasPanels: true,
});

/** What a plan of a part has ready for each frame of the film. */
function planned(plan: PartPlan, film: Film) {
  const clock = filmClock(film);
  const pieces = plan.pieces.map(({ piece, source }) => ({
    piece,
    startFrame: clock.spans[piece.item]!.startFrame + piece.firstFrame,
    pictures:
      source.kind !== "shot"
        ? null
        : shotFrames(source.shot, source.clip, film.frameRate, piece.firstFrame, piece.frames).source,
  }));
  const drawn = drawingPictures(film, plan.part);
  return (frame: number) => {
    const inPart = frame - plan.part.startFrame;
    const shown = plan.panels.filter((panel) => panel.frame <= inPart).at(-1)?.shown ?? null;
    return {
      pictures: pieces
        .filter(({ piece, startFrame }) => frame >= startFrame && frame < startFrame + piece.frames)
        .map(({ piece, startFrame, pictures }) => ({
          index: piece.item,
          picture: pictures?.[frame - startFrame] ?? null,
        })),
      caption: shown?.notes.caption ?? null,
      page: shown?.page.key ?? null,
      opacity: shown === null ? null : plan.panels.filter((panel) => panel.frame <= inPart).at(-1)!.opacity,
      drawings: drawn.filter(({ timeUs }) => timeUs <= pictureTimeUs(inPart, film.frameRate)).at(-1)?.drawings ?? [],
    };
  };
}

type Node = Record<string, unknown>;
const value = (node: unknown, key: string): number => ((node as Node)[key] as Node)["value"] as number;

/** What an editing program shows at each frame of the timeline file: item and clip time, in film frames. */
function timelineFrames(film: Film): { readonly id: string; readonly mediaFrame: number; readonly frozen: boolean }[] {
  const timeline = JSON.parse(timelineOtio(film, clips, [], words, "A film", new Map())) as Node;
  const [track] = (timeline["tracks"] as Node)["children"] as Node[];
  return (track!["children"] as Node[]).flatMap((clip) => {
    const { id } = (clip["metadata"] as Record<string, { id: string }>)["followcar"]!;
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
        const job = panelJob(film);
        const parts = planParts(film)
          .map((part) => planPart(job, part))
          .map((plan) => ({ ...plan, ready: planned(plan, film) }));
        for (const [k, frame] of instants(clock).entries()) {
          const at = clock.at(frame)!;
          const said = ({ pictures }: ReturnType<ReturnType<typeof planned>>) => ({
            pictures: [...(at.from === null ? [] : [at.from]), at].map((one, k) => ({
              index: one.index,
              picture: renderedPicture(one, pictures[k]?.picture, film.frameRate),
            })),
            caption: at.caption?.text ?? null,
            page: at.page === null ? null : `${at.page.startS}/${at.page.endS}`,
            opacity: at.page === null ? null : at.panelOpacity,
            drawings: at.drawings,
          });
          const part = parts.find(
            ({ part: { startFrame, frames } }) => frame >= startFrame && frame < startFrame + frames,
          )!;
          const rendered = part.ready(frame);
          expect(rendered, `render, frame ${frame}`).toEqual(said(rendered));
          const comment = part.pieces.find(({ piece }) => piece.item === at.index)!.comment;
          const begun = comment === null ? -1 : at.frameInItem - comment.startFrame;
          expect(begun < 0 ? null : { path: comment!.path, sinceS: clock.timeOf(begun) }).toEqual(at.comment);
          if (k % 6 > 0) continue;
          const still = partAround(film, clock.timeOf(frame + 0.5));
          expect(still.frame).toBe(frame);
          const stood = planned(planPart(panelJob(film), still.part), film)(frame);
          expect(stood, `still, frame ${frame}`).toEqual(said(stood));
        }
      }),
      { numRuns: 20 },
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
          const own = at.from !== null && at.frameInItem < Math.floor(clock.spans[at.index]!.crossfadeFrames / 2);
          const { item, mediaS, frozen } = own ? at.from : at;
          expect(frames[frame]!.id, `frame ${frame}`).toBe(item.id);
          if (item.type === "card" || mediaS === null) continue;
          expect(frames[frame]!.frozen, `frame ${frame}`).toBe(frozen);
          // The file counts in whole film frames of the clip.
          expect(Math.abs(frames[frame]!.mediaFrame - mediaS * perSecond)).toBeLessThanOrEqual(0.5 + 1e-6);
        }
      }),
      { numRuns: 100 },
    );
  });
});

/** A shot of the first clip, in the main as given. */
const oneShot = (given: Partial<Shot>): Shot => ({
  type: "shot",
  id: "one",
  clipId: clips[0]!.id,
  mediaStartS: 10,
  mediaEndS: 14,
  speed: 1,
  freezes: [],
  captions: [],
  drawings: [],
  pageStartS: 50,
  pageEndS: 114,
  clock: { offsetS: 100, rate: 1 },
  moment: null,
  riderName: null,
  why: "a test",
  commentPath: null,
  crossfadeS: 0,
  ...given,
});

test("holds whose ends fall between film frames do not add up", () => {
  // Found by the property above: two holds took 0.76 of a film frame, at 4 times the speed three pictures of the clip.
  const [clip] = clips;
  const frameRate = { num: 30_000, den: 1001 };
  const freezes = [
    { atMediaS: 0, durationS: 0.043 },
    { atMediaS: 0.42944, durationS: 0.316 },
  ];
  const shot = oneShot({ mediaStartS: 0, mediaEndS: 1.6, speed: 4, freezes });
  const { source } = shotFrames(shot, clip!, frameRate, 0, 20);
  // Of 20 film frames 10.76 are held: 11, so that the others show every fourth picture of the clip.
  expect([...source].filter((picture, frame) => picture !== source[frame - 1])).toEqual([
    0, 4, 8, 12, 13, 16, 20, 24, 28, 32,
  ]);
  expect(source.indexOf(16)).toBe(15);
});

test("a hold that the cut has left behind does not count towards a comment", () => {
  const item = oneShot({ freezes: [{ atMediaS: 20, durationS: 8 }], commentPath: "comments/one.wav", commentS: 9 });
  const film: Film = { widthPx: 1280, heightPx: 720, frameRate: { num: 25, den: 1 }, items: [item], leftOut: [] };
  expect(filmClock(holdForComments(film)).lengthS).toBeGreaterThanOrEqual(9);
});
