import type { Film, Shot } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { RideColumns } from "../../overlay/instant/columns.ts";
import { filmAt, filmTimeline, mediaTimeIn, type ItemInstant } from "../../overlay/instant/filmAt.ts";
import { panelValuesAt, type PanelValues } from "../../overlay/instant/panelValuesAt.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { stateKey } from "../../overlay/instant/stateKey.ts";
import { threadPageAt, turningPage, type PageSpan, type ThreadPage } from "../../overlay/instant/threadPageAt.ts";
import { shownFrames, threadStepFrames } from "../../overlay/instant/threadSteps.ts";
import type { PanelNotes } from "../../overlay/panels/paintPanels.ts";
import type { Part } from "./planParts.ts";
import { lastAtOrBefore, wholeTicks, type ShotFrames } from "./shotFrames.ts";

/** What the panels show from one frame of a part on. */
export interface PanelPicture {
  /** First frame of the part that must show it. */
  readonly frame: number;
  /** Null: nothing is shown (a card). */
  readonly shown: { readonly values: PanelValues; readonly page: ThreadPage; readonly notes: PanelNotes } | null;
  /** 0 to 1; below 1 only in crossfades, where the panels go out with their picture and come in with the next. */
  readonly opacity: number;
}

/** How the thread's page is chosen: a shot's own, or one that turns, for overlays over whole clips. */
export type Paging = "shot" | "turning";

export interface PanelJob {
  readonly film: Film;
  readonly clips: ReadonlyMap<string, Clip>;
  readonly columns: RideColumns;
  readonly threadStepsPerSecond: number;
  readonly paging: Paging;
  /** False where the layout has nothing to show. */
  readonly hasPanels: boolean;
}

/**
 * The pictures of a part, one for each change, in order; the first is for frame 0. Empty when no frame has panels.
 *
 * Each frame's numbers are the ride's at the presentation time of the source frame that is on the picture.
 *
 * @param sources for each piece of the part the source frame of every output frame; null for cards
 */
export function panelPictures(job: PanelJob, part: Part, sources: readonly (ShotFrames | null)[]): PanelPicture[] {
  const { film, columns } = job;
  if (!job.hasPanels) return [];
  const timeline = filmTimeline(film);
  const stepFrames = threadStepFrames(film.frameRate, job.threadStepsPerSecond);
  const pictures: PanelPicture[] = [];
  let lastKey = "";
  for (let frame = 0; frame < part.frames; frame += 1) {
    const instant = filmAt(film, part.startFrame + frame, timeline);
    if (instant === null) break;
    const uppermost: ItemInstant = instant.from !== null && instant.share < 0.5 ? instant.from : instant;
    const opacity = instant.from === null ? 1 : Math.abs(2 * instant.share - 1);
    const item = film.items[uppermost.index];
    if (item === undefined || item.type === "card") {
      if (lastKey !== "none") pictures.push({ frame, shown: null, opacity: 0 });
      lastKey = "none";
      continue;
    }
    const clip = job.clips.get(item.clipId) as Clip;
    const piece = part.pieces.findIndex((candidate) => candidate.item === uppermost.index);
    const first = part.pieces[piece]?.firstFrame ?? 0;
    const source = sources[piece]?.source;
    const rideSOf = (frameInItem: number): number =>
      rideTimeAt(item.clock, shownMediaS(film, item, clip, source, first, frameInItem));
    const shown = shownFrames(uppermost.frameInItem, stepFrames, item.speed);
    const threadS = rideSOf(shown.thread);
    const values = panelValuesAt(columns, shown.figures === shown.thread ? threadS : rideSOf(shown.figures));
    const notes = notesAt(item, uppermost.itemS);
    const span = pageOf(job.paging, item, clip, threadS);
    const key = [stateKey(values, threadS), span.startS, notes.caption, notes.rider, notes.speed, opacity].join("|");
    if (key !== lastKey)
      pictures.push({ frame, shown: { values, page: threadPageAt(columns, span, threadS), notes }, opacity });
    lastKey = key;
  }
  return pictures.some((picture) => picture.shown !== null) ? pictures : [];
}

/** Presentation time of the source frame on a film frame, s. */
function shownMediaS(
  film: Film,
  shot: Shot,
  clip: Clip,
  source: Uint32Array | undefined,
  firstFrame: number,
  frameInItem: number,
): number {
  const { ticks, timescale } = clip.frames;
  const known = source?.[frameInItem - firstFrame];
  if (known !== undefined) return ticks[known] / timescale;
  // A step of the thread that began before this part did.
  const { mediaS } = mediaTimeIn(shot, (frameInItem * film.frameRate.den) / film.frameRate.num);
  const at = lastAtOrBefore((index) => ticks[index], ticks.length, wholeTicks(mediaS * timescale));
  return ticks[at] / timescale;
}

function notesAt(shot: Shot, itemS: number): PanelNotes {
  const caption = shot.captions.find((candidate) => itemS >= candidate.startS && itemS < candidate.endS);
  return { caption: caption?.text ?? null, speed: shot.speed, rider: shot.riderName };
}

function pageOf(paging: Paging, shot: Shot, clip: Clip, rideS: number): PageSpan {
  if (paging === "shot") return { startS: shot.pageStartS, endS: shot.pageEndS };
  const firstTick = clip.frames.ticks[0] ?? 0;
  return turningPage(rideTimeAt(shot.clock, firstTick / clip.frames.timescale), rideS);
}

/** Far past any end: keeps the last picture standing until the film's own stream ends. */
export const SENTINEL_US = 1e5 * 1e6;

/**
 * When ffmpeg must have a picture, in microseconds from the part's first frame: half-way between the frame before and
 * its own, so that no rounding between time bases can move it to a neighbour.
 */
export function pictureTimeUs(frame: number, frameRate: { readonly num: number; readonly den: number }): number {
  return frame === 0 ? 0 : Math.round(((frame - 0.5) * frameRate.den * 1e6) / frameRate.num);
}
