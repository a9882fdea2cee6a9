import { useCallback } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { Film, FilmItem } from "../../main/contract/film.ts";
import type { FilmClock } from "../../overlay/instant/filmClock.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { threadPageAt } from "../../overlay/instant/threadPageAt.ts";
import { typeScale } from "../../overlay/layout/typeScale.ts";
import { lightInk } from "../../overlay/theme.ts";
import { NEEDLE_LENGTH } from "../../overlay/thread/needle.ts";
import { paintStandingThread } from "../../overlay/thread/paintStandingThread.ts";
import { type CanvasView, useCanvas } from "../look/useCanvas.ts";

interface Props {
  readonly film: Film;
  readonly index: number;
  readonly clock: FilmClock<FilmItem>;
  readonly columns: WindowColumns;
  readonly pxPerS: number;
}

/** Room that the thread keeps at its ends, in units of its type scale (as the thread's own). */
const THREAD_PAD = 10;
/** Height of the thread's letters' scale in the lane, as a share of the window's letters. */
const UNIT_SHARE = 1 / 17;

/** The ride's pressure under a shot of the lane: unbroken where it was steady. While the picture holds there is none. */
export function ShotThread({ film, index, clock, columns, pxPerS }: Props) {
  const draw = useCallback(
    (context: CanvasRenderingContext2D, view: CanvasView) => {
      const item = film.items[index];
      if (item?.type !== "shot") return;
      context.clearRect(0, 0, view.widthPx, view.heightPx);
      for (const run of clock.runs(index)) {
        if (run.frozen) continue;
        const fromS = clock.timeOf(run.firstFrame);
        const lastsS = clock.timeOf(run.frames);
        const startS = rideTimeAt(item.clock, run.mediaS);
        const endS = rideTimeAt(item.clock, run.mediaS + lastsS * item.speed);
        drawRun(context, view, columns, { startS, endS }, fromS * pxPerS, lastsS * pxPerS);
      }
    },
    [film, index, clock, columns, pxPerS],
  );
  return <canvas ref={useCanvas(draw)} className="lane-thread" aria-hidden="true" />;
}

function drawRun(
  context: CanvasRenderingContext2D,
  { heightPx, colours, textPx }: CanvasView,
  columns: WindowColumns,
  span: { readonly startS: number; readonly endS: number },
  leftPx: number,
  widthPx: number,
): void {
  const type = typeScale(textPx * UNIT_SHARE);
  const unit = type.unitPx;
  const page = threadPageAt(columns, span, span.endS);
  // The thread's own room at its ends lies outside; its needle is the playhead's.
  const rect = {
    x: leftPx - THREAD_PAD * unit,
    y: 0,
    width: widthPx + (2 * THREAD_PAD + NEEDLE_LENGTH) * unit,
    height: heightPx,
  };
  context.save();
  context.beginPath();
  context.rect(leftPx, 0, widthPx, heightPx);
  context.clip();
  const { ink, sunk, above, off } = colours;
  paintStandingThread(context, rect, page, type, { ...lightInk, ink, halo: sunk, haloAlpha: 1, above, off });
  context.restore();
}
