import { threadPageAt } from "../../overlay/instant/threadPageAt.ts";
import { typeScale } from "../../overlay/layout/typeScale.ts";
import { lightInk } from "../../overlay/theme.ts";
import { NEEDLE_LENGTH } from "../../overlay/thread/needle.ts";
import { paintStandingThread } from "../../overlay/thread/paintStandingThread.ts";
import { RoadLine } from "../../overlay/thread/roadLine.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { reducedRide } from "./reducedRide.ts";
import { inside, type Pen } from "./stripPen.ts";

/** Width of a cell of the thread, px: narrower than its line, a break could not be told from the line. */
const CELL_PX = 3;
/** Room that the thread keeps at its ends, in units of its type scale (as the thread's own). */
const THREAD_PAD = 10;

/** Draws the thread on the road. Gives the height of the road at a ride time, px. */
export function drawThread(pen: Pen, columns: WindowColumns): (rideS: number) => number {
  const { context, view, rooms, span } = pen;
  const type = typeScale(view.textPx / 17);
  const unit = type.unitPx;
  const cells = Math.floor((rooms.right - rooms.left) / CELL_PX);
  const reduced = reducedRide(columns, span, cells);
  const page = threadPageAt(reduced, { startS: 0, endS: reduced.seconds }, reduced.seconds);
  const width = rooms.right - rooms.left;
  // The thread's own room at its ends lies outside, so that it shares the lanes' axis; its needle is the cursor's.
  const rect = {
    x: Math.round(rooms.left - THREAD_PAD * unit),
    y: rooms.thread.top,
    width: Math.round(width + (2 * THREAD_PAD + NEEDLE_LENGTH) * unit),
    height: rooms.thread.bottom - rooms.thread.top,
  };
  const line = new RoadLine(rect, page, type);
  if (columns.altitudeM !== null && columns.setting !== "trainer") {
    context.beginPath();
    context.moveTo(rooms.left, rooms.thread.bottom);
    const corners = line.corners(rooms.left, rooms.right);
    for (let k = 0; k < corners.length; k += 2) context.lineTo(inside(pen, corners[k]!), corners[k + 1]!);
    context.lineTo(rooms.right, rooms.thread.bottom);
    context.closePath();
    context.fillStyle = view.colours.band;
    context.globalAlpha = 0.55;
    context.fill();
    context.globalAlpha = 1;
  }
  context.save();
  context.beginPath();
  context.rect(rooms.left - 2, rooms.thread.top, width + 4, rect.height);
  context.clip();
  const { ink, ground, above, off } = view.colours;
  paintStandingThread(context, rect, page, type, { ...lightInk, ink, halo: ground, haloAlpha: 1, above, off });
  context.restore();
  return (rideS) => line.y((rideS - span.fromS) / (span.toS - span.fromS));
}
