import type { ReadingView, RoadView } from "../../main/contract/debriefApi.ts";
import { hourText, clockText } from "../../overlay/words/numbers.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
import type { PlannedBlock } from "../../main/contract/plan.ts";
import type { CanvasView } from "../look/useCanvas.ts";
import { laneNames, namesWidthPx, writeNames } from "./laneNames.ts";
import { drawMoments } from "./momentsLane.ts";
import { FONT, inside, type Pen, penFor, text } from "./stripPen.ts";
import { type StripRooms, stripRooms } from "./stripRooms.ts";
import type { StripSpan } from "./stripSpan.ts";
import { drawThread } from "./threadLane.ts";
import { drawHeart, drawPower, drawSpeed } from "./traceLanes.ts";

/** Where footage lies in the ride. */
interface Coverage {
  readonly clipId: string;
  readonly name: string;
  readonly startS: number;
  readonly endS: number;
  readonly sure: boolean;
}

/** A moment as it stands on the strip. */
export interface StripMoment {
  /** Index in the reading's list. */
  readonly index: number;
  readonly startS: number;
  readonly endS: number;
  readonly keep: boolean | null;
  /** A part of the film shows it. */
  readonly inFilm: boolean;
  readonly words: string;
}

/** What the plan asks for besides the band of power: a range of heart rate, and blocks with bands of their own. */
export interface StripAsked {
  readonly heartBpm: { readonly low: number; readonly high: number } | null;
  readonly blocks: readonly PlannedBlock[];
}

/** All that the strip draws of a debrief. */
export interface StripContent {
  readonly columns: WindowColumns;
  readonly reading: ReadingView;
  readonly asked: StripAsked;
  readonly units: UnitSystem;
  readonly coverage: readonly Coverage[];
  /** Roads of one other ride. */
  readonly roads: readonly RoadView[];
  readonly moments: readonly StripMoment[];
  readonly selected: number | null;
}

/** What was drawn where, for pointer, cursor and handles. */
export interface DrawnStrip {
  readonly rooms: StripRooms;
  /** Height of the road at a ride time, px. */
  readonly roadY: (rideS: number) => number;
}

/** The part of the strip that stands still while moments are chosen, kept and dropped. */
export type RideContent = Pick<StripContent, "columns" | "reading" | "asked" | "coverage" | "roads" | "units">;

/** Draws the lanes of the ride; the cost depends on the strip's width, not on the ride's length. */
export function paintRide(
  context: CanvasRenderingContext2D,
  view: CanvasView,
  { columns, reading, asked, coverage, roads, units }: RideContent,
  span: StripSpan,
): DrawnStrip {
  const has = {
    power: columns.power30sW !== null,
    heart: columns.heartRate !== null,
    speed: columns.speed !== null,
    footage: coverage.length > 0,
  };
  const names = laneNames(columns, asked, units);
  const rooms = stripRooms({ ...view, namesPx: namesWidthPx(context, view.textPx, names) }, has);
  const pen = penFor(context, view, rooms, span);
  context.clearRect(0, 0, view.widthPx, view.heightPx);
  drawCounted(pen, reading);
  drawAxis(pen);
  const roadY = drawThread(pen, columns, roads);
  if (has.power) drawPower(pen, columns, asked);
  if (has.heart) drawHeart(pen, columns, reading, asked);
  if (has.speed) drawSpeed(pen, columns, units);
  if (has.footage) drawFootage(pen, coverage);
  writeNames(pen, names);
  return { rooms, roadY };
}

/** Draws the moments over the lanes of the ride. */
export function paintMoments(
  context: CanvasRenderingContext2D,
  view: CanvasView,
  content: Pick<StripContent, "moments" | "selected">,
  span: StripSpan,
  rooms: StripRooms,
): void {
  drawMoments(penFor(context, view, rooms, span), content);
}

/** What is not counted is shaded, so that the counted part stands out. */
export function drawCounted(pen: Pen, reading: ReadingView): void {
  const { context, view, rooms } = pen;
  context.fillStyle = view.colours.sunk;
  const top = rooms.thread.top;
  const height = rooms.speed.bottom - top;
  const from = inside(pen, pen.x(reading.counted.startS));
  const to = inside(pen, pen.x(reading.counted.endS));
  context.fillRect(rooms.left, top, from - rooms.left, height);
  context.fillRect(to, top, rooms.right - to, height);
}

const STEPS_S = [5, 10, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400];

/** Lines at round times, with their figures below. */
export function drawAxis(pen: Pen): void {
  const { context, view, rooms, span } = pen;
  const least = ((span.toS - span.fromS) / (rooms.right - rooms.left)) * view.textPx * 6;
  const stepS = STEPS_S.find((one) => one >= least) ?? 21_600;
  const middle = (rooms.axis.top + rooms.axis.bottom) / 2;
  for (let atS = Math.ceil(span.fromS / stepS) * stepS; atS <= span.toS; atS += stepS) {
    const x = Math.round(pen.x(atS)) + 0.5;
    context.strokeStyle = view.colours.line;
    context.lineWidth = 1;
    context.beginPath();
    context.moveTo(x, rooms.thread.top);
    context.lineTo(x, rooms.footage.bottom + 3);
    context.stroke();
    const said = stepS >= 60 ? hourText(atS) : clockText(atS);
    context.font = `500 ${view.textPx}px ${FONT}`;
    const half = context.measureText(said).width / 2;
    text(pen, said, Math.max(rooms.left + half, Math.min(rooms.right - half, x)), middle, { align: "center" });
  }
}

function drawFootage(pen: Pen, coverage: readonly Coverage[]): void {
  const { context, view, rooms } = pen;
  const lane = rooms.footage;
  const height = Math.max(4, (lane.bottom - lane.top) * 0.62);
  const top = (lane.top + lane.bottom - height) / 2;
  for (const { startS, endS, sure, name: clip } of coverage) {
    const from = inside(pen, pen.x(startS));
    const to = inside(pen, pen.x(endS));
    if (to - from < 1 && (pen.x(endS) < rooms.left || pen.x(startS) > rooms.right)) continue;
    const width = Math.max(3, to - from - 1);
    context.fillStyle = view.colours.quiet;
    if (sure) context.fillRect(from, top, width, height);
    else for (let x = from; x < from + width; x += 7) context.fillRect(x, top, Math.min(4, from + width - x), height);
    context.font = `500 ${view.textPx * 0.82}px ${FONT}`;
    if (sure && context.measureText(clip).width < width - 12)
      text(pen, clip, from + 5, (lane.top + lane.bottom) / 2, { colour: view.colours.ground, share: 0.82 });
  }
}
