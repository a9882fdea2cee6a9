import { useCallback } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import { type CanvasView, useCanvas } from "../look/useCanvas.ts";
import { askedOnStrip } from "../strip/askedOnStrip.ts";
import { drawAxis, drawCounted } from "../strip/paintStrip.ts";
import { penFor } from "../strip/stripPen.ts";
import type { StripRooms } from "../strip/stripRooms.ts";
import { drawHeart } from "../strip/traceLanes.ts";
import { told as words } from "../words/told.ts";

interface Props {
  readonly columns: WindowColumns;
  readonly debrief: DebriefView;
}

/** Heart rate over the ride with its two readings and when the drift began, drawn as on the strip. */
export function HeartChart({ columns, debrief }: Props) {
  const reading = debrief.reading!;
  const { plan } = debrief.document;
  const { plannedBlocks } = debrief;
  const draw = useCallback(
    (context: CanvasRenderingContext2D, view: CanvasView) => {
      const rooms = heartRooms(view);
      const pen = penFor(context, view, rooms, { fromS: 0, toS: columns.seconds });
      context.clearRect(0, 0, view.widthPx, view.heightPx);
      drawCounted(pen, reading);
      drawAxis(pen);
      drawHeart(pen, columns, reading, askedOnStrip(plan, plannedBlocks));
    },
    [columns, reading, plan, plannedBlocks],
  );
  const canvas = useCanvas(draw);
  const began = reading.drift.onsetLowS !== null;
  return (
    <figure className="told-chart">
      <canvas ref={canvas} role="img" aria-label={words.chart} />
      <figcaption className="small quiet">{began ? words.chartKey : words.chartKey.split(". ")[0]}</figcaption>
    </figure>
  );
}

/** The heart's lane alone, over its axis. */
function heartRooms({ widthPx, heightPx, textPx }: CanvasView): StripRooms {
  const bottom = Math.round(heightPx - 1.5 * textPx);
  const nothing = { top: 0, bottom: 0 };
  return {
    left: 1,
    right: widthPx - 1,
    moments: nothing,
    thread: { top: 0, bottom },
    power: nothing,
    heart: { top: 0, bottom },
    speed: nothing,
    footage: { top: bottom, bottom },
    axis: { top: bottom, bottom: heightPx },
  };
}
