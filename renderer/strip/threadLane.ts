import type { RoadView } from "../../main/contract/debriefApi.ts";
import { threadPageAt } from "../../overlay/instant/threadPageAt.ts";
import { typeScale } from "../../overlay/layout/typeScale.ts";
import { lightInk } from "../../overlay/theme.ts";
import { NEEDLE_LENGTH } from "../../overlay/thread/needle.ts";
import { paintStandingThread } from "../../overlay/thread/paintStandingThread.ts";
import { RoadLine } from "../../overlay/thread/roadLine.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { reducedRide } from "./reducedRide.ts";
import { inside, type Pen, text } from "./stripPen.ts";

/** Width of a cell of the thread, px: narrower than its line, a break could not be told from the line. */
const CELL_PX = 3;
/** Room that the thread keeps at its ends, in units of its type scale (as the thread's own). */
const THREAD_PAD = 10;

/** Another ride's thread below this one's: so far in heights of the letters, and so much finer. */
const BESIDE_DOWN = 0.95;
const BESIDE_FINE = 0.62;

/** The other ride's states at the spots of this one's seconds, of those of its roads that it rode. */
function statesBeside(columns: WindowColumns, roads: readonly RoadView[]): Uint8Array {
  const states = new Uint8Array(columns.seconds);
  for (const { pressure, endS } of roads)
    pressure.forEach(({ fromS, state }, k) => states.fill(state, fromS, pressure[k + 1]?.fromS ?? endS));
  return states;
}

/**
 * Draws the thread on the road, and below it another ride's, finer. Gives the height of the road at a ride time, px.
 *
 * @param roads of one other ride
 */
export function drawThread(pen: Pen, columns: WindowColumns, roads: readonly RoadView[]): (rideS: number) => number {
  const { context, view, rooms, span } = pen;
  const type = typeScale(view.textPx / 17);
  const unit = type.unitPx;
  const cells = Math.floor((rooms.right - rooms.left) / CELL_PX);
  const reduced = reducedRide(columns, span, cells);
  const page = threadPageAt(reduced, { startS: 0, endS: reduced.seconds }, reduced.seconds);
  const width = rooms.right - rooms.left;
  const downPx = roads.length === 0 ? 0 : BESIDE_DOWN * view.textPx;
  // The thread's own room at its ends lies outside, so that it shares the lanes' axis; its needle is the cursor's.
  const rect = {
    x: Math.round(rooms.left - THREAD_PAD * unit),
    y: rooms.thread.top,
    width: Math.round(width + (2 * THREAD_PAD + NEEDLE_LENGTH) * unit),
    height: rooms.thread.bottom - rooms.thread.top - downPx,
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
  context.rect(rooms.left - 2, rooms.thread.top, width + 4, rect.height + downPx);
  context.clip();
  const { ink, ground, above, off } = view.colours;
  paintStandingThread(context, rect, page, type, { ...lightInk, ink, halo: ground, haloAlpha: 1, above, off });
  if (roads.length > 0) {
    const beside = reducedRide({ ...columns, pressureState: statesBeside(columns, roads) }, span, cells);
    const other = threadPageAt(beside, { startS: 0, endS: beside.seconds }, beside.seconds);
    const { quiet } = view.colours;
    const fine = typeScale((view.textPx / 17) * BESIDE_FINE);
    // Its road is the first's, drawn so much lower: the room about it is measured by the first's type.
    const low = { ...rect, x: rect.x + THREAD_PAD * (unit - fine.unitPx), y: rect.y + downPx };
    const width = rect.width - (2 * THREAD_PAD + NEEDLE_LENGTH) * (unit - fine.unitPx);
    paintStandingThread(context, { ...low, width }, other, fine, {
      ...lightInk,
      ink: quiet,
      halo: ground,
      haloAlpha: 1,
      above: quiet,
      off,
    });
  }
  context.restore();
  if (roads.length > 0)
    text(pen, roads[0]!.name, rooms.left + 4, rooms.thread.top + view.textPx * 0.5, { share: 0.82 });
  return (rideS) => line.y((rideS - span.fromS) / (span.toS - span.fromS));
}
