import type { Film, Shot } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { RideColumns } from "../contract/rideColumns.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { threadBeside, withBeside } from "../../overlay/instant/besideAt.ts";
import { panelValuesAt, type PanelValues } from "../../overlay/instant/panelValuesAt.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { stateKey } from "../../overlay/instant/stateKey.ts";
import { threadPageAt, turningPage, type PageSpan, type ThreadPage } from "../../overlay/instant/threadPageAt.ts";
import { threadFrame, threadStepFrames } from "../../overlay/instant/threadSteps.ts";
import type { PanelNotes } from "../../overlay/panels/paintPanels.ts";
import type { Part } from "./planParts.ts";
import type { ShotFrames } from "./shotFrames.ts";

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
  const clock = filmClock(film);
  const stepFrames = threadStepFrames(film.frameRate, job.threadStepsPerSecond);
  const pictures: PanelPicture[] = [];
  let lastKey = "";
  for (let frame = 0; frame < part.frames; frame += 1) {
    const instant = clock.at(part.startFrame + frame);
    if (instant === null) break;
    const { upper, panelOpacity: opacity } = instant;
    const { item } = upper;
    if (item.type === "card" || instant.page === null) {
      if (lastKey !== "none") pictures.push({ frame, shown: null, opacity: 0 });
      lastKey = "none";
      continue;
    }
    const clip = job.clips.get(item.clipId) as Clip;
    const piece = part.pieces.findIndex((candidate) => candidate.item === upper.index);
    const shownFrom = sources[piece]?.sourceFromStart;
    // Presentation time of the source frame on a film frame of the shot.
    const rideSOf = (frameInItem: number): number =>
      rideTimeAt(item.clock, clip.frames.ticks[shownFrom?.[frameInItem] ?? 0]! / clip.frames.timescale);
    const threadS = rideSOf(threadFrame(upper.frameInItem, stepFrames, item.speed));
    const shownS = rideSOf(upper.frameInItem);
    const values = withBeside(columns, panelValuesAt(columns, shownS), item.beside, shownS);
    const notes = {
      caption: instant.caption?.text ?? null,
      speed: item.speed,
      rider: item.riderName,
      beside: item.beside?.name ?? null,
      otherRider: item.beside?.oneRider === false,
    };
    const span = job.paging === "shot" ? instant.page : turningPageOf(item, clip, threadS);
    const key = [
      stateKey(values, threadS),
      span.startS,
      notes.caption,
      notes.rider,
      notes.speed,
      notes.beside,
      notes.otherRider,
      opacity,
    ].join("|");
    if (key !== lastKey)
      pictures.push({
        frame,
        shown: { values, page: threadPageAt(columns, span, threadS, threadBeside(item.beside, threadS)), notes },
        opacity,
      });
    lastKey = key;
  }
  return pictures.some((picture) => picture.shown !== null) ? pictures : [];
}

function turningPageOf(shot: Shot, clip: Clip, rideS: number): PageSpan {
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
