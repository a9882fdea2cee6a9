import type { ReadingView } from "../../main/contract/debriefApi.ts";
import { threadPageAt } from "../../overlay/instant/threadPageAt.ts";
import { typeScale } from "../../overlay/layout/typeScale.ts";
import { lightInk } from "../../overlay/theme.ts";
import { NEEDLE_LENGTH } from "../../overlay/thread/needle.ts";
import { paintStandingThread } from "../../overlay/thread/paintStandingThread.ts";
import { RoadLine } from "../../overlay/thread/roadLine.ts";
import { hourText, clockText, wholeText } from "../../overlay/words/numbers.ts";
import type { WindowColumns } from "../desk/columns.ts";
import { type Extremes, perPixel } from "../lineup/perPixel.ts";
import type { CanvasView } from "../look/useCanvas.ts";
import { strip as words } from "../words/strip.ts";
import { reducedRide } from "./reducedRide.ts";
import { type Lane, type StripRooms, stripRooms } from "./stripRooms.ts";
import type { StripSpan } from "./stripSpan.ts";

/** Where footage lies in the ride. */
export interface Coverage {
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
  readonly words: string;
}

/** All that the strip draws of a debrief. */
export interface StripContent {
  readonly columns: WindowColumns;
  readonly reading: ReadingView;
  readonly coverage: readonly Coverage[];
  readonly moments: readonly StripMoment[];
  readonly selected: number | null;
}

/** What was drawn where, for pointer, cursor and handles. */
export interface DrawnStrip {
  readonly rooms: StripRooms;
  /** Height of the road at a ride time, px. */
  readonly roadY: (rideS: number) => number;
}

/** Width of a cell of the thread, px: narrower than its line, a break could not be told from the line. */
const CELL_PX = 3;
/** Room that the thread keeps at its ends, in units of its type scale (as the thread's own). */
const THREAD_PAD = 10;

/** Room that the strip's buttons take at the top right, in heights of its letters. */
const TOOLS = 20;

const FONT = '"Barlow Semi Condensed", sans-serif';

/** The part of the strip that stands still while moments are chosen, kept and dropped. */
export type RideContent = Pick<StripContent, "columns" | "reading" | "coverage">;

/** Draws the lanes of the ride; the cost depends on the strip's width, not on the ride's length. */
export function paintRide(context: CanvasRenderingContext2D, view: CanvasView, { columns, reading, coverage }: RideContent, span: StripSpan): DrawnStrip {
  const has = { power: columns.power30sW !== null, heart: columns.heartRate !== null, footage: coverage.length > 0 };
  const rooms = stripRooms(view.widthPx, view.heightPx, view.textPx, has);
  const pen = penFor(context, view, rooms, span);
  context.clearRect(0, 0, view.widthPx, view.heightPx);
  drawCounted(pen, reading);
  drawAxis(pen);
  const roadY = drawThread(pen, columns);
  if (has.power) drawPower(pen, columns);
  if (has.heart) drawHeart(pen, columns, reading);
  if (has.footage) drawFootage(pen, coverage);
  return { rooms, roadY };
}

/** Draws the moments over the lanes of the ride. */
export function paintMoments(context: CanvasRenderingContext2D, view: CanvasView, content: Pick<StripContent, "moments" | "selected">, span: StripSpan, rooms: StripRooms): void {
  drawMoments(penFor(context, view, rooms, span), content);
}

interface Pen {
  readonly context: CanvasRenderingContext2D;
  readonly view: CanvasView;
  readonly rooms: StripRooms;
  readonly span: StripSpan;
  readonly x: (rideS: number) => number;
}

function penFor(context: CanvasRenderingContext2D, view: CanvasView, rooms: StripRooms, span: StripSpan): Pen {
  return { context, view, rooms, span, x: (rideS) => rooms.left + ((rideS - span.fromS) / (span.toS - span.fromS)) * (rooms.right - rooms.left) };
}

function inside({ rooms }: Pen, x: number): number {
  return Math.max(rooms.left, Math.min(rooms.right, x));
}

function text(pen: Pen, said: string, x: number, y: number, options: { readonly align?: CanvasTextAlign; readonly colour?: string; readonly strong?: boolean; readonly share?: number } = {}): void {
  const { context, view } = pen;
  context.font = `${options.strong === true ? 600 : 500} ${view.textPx * (options.share ?? 1)}px ${FONT}`;
  context.textAlign = options.align ?? "left";
  context.textBaseline = "middle";
  context.fillStyle = options.colour ?? view.colours.quiet;
  context.fillText(said, x, y);
}

function name(pen: Pen, said: string, lane: Lane, more = ""): void {
  const middle = (lane.top + lane.bottom) / 2;
  const gap = more === "" ? 0 : pen.view.textPx * 0.6;
  text(pen, said, 2, middle - gap, { colour: pen.view.colours.ink, strong: true });
  if (more !== "") text(pen, more, 2, middle + gap, { share: 0.9 });
}

/** What is not counted is shaded, so that the counted part stands out. */
function drawCounted(pen: Pen, reading: ReadingView): void {
  const { context, view, rooms } = pen;
  context.fillStyle = view.colours.sunk;
  const top = rooms.thread.top;
  const height = rooms.heart.bottom - top;
  const from = inside(pen, pen.x(reading.counted.startS));
  const to = inside(pen, pen.x(reading.counted.endS));
  context.fillRect(rooms.left, top, from - rooms.left, height);
  context.fillRect(to, top, rooms.right - to, height);
}

const STEPS_S = [5, 10, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400];

function drawAxis(pen: Pen): void {
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

function drawThread(pen: Pen, columns: WindowColumns): (rideS: number) => number {
  const { context, view, rooms, span } = pen;
  const type = typeScale(view.textPx / 17);
  const unit = type.unitPx;
  const cells = Math.floor((rooms.right - rooms.left) / CELL_PX);
  const reduced = reducedRide(columns, span, cells);
  const page = threadPageAt(reduced, { startS: 0, endS: reduced.seconds }, reduced.seconds);
  const width = rooms.right - rooms.left;
  // The thread's own room at its ends lies outside, so that it shares the lanes' axis; its needle is the cursor's.
  const rect = { x: Math.round(rooms.left - THREAD_PAD * unit), y: rooms.thread.top, width: Math.round(width + (2 * THREAD_PAD + NEEDLE_LENGTH) * unit), height: rooms.thread.bottom - rooms.thread.top };
  const line = new RoadLine(rect, page, type);
  if (columns.altitudeM !== null && columns.setting !== "trainer") {
    context.beginPath();
    context.moveTo(rooms.left, rooms.thread.bottom);
    const corners = line.corners(rooms.left, rooms.right);
    for (let k = 0; k < corners.length; k += 2) context.lineTo(inside(pen, corners[k]), corners[k + 1]);
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
  name(pen, words.pressure, rooms.thread, columns.altitudeM === null || columns.setting === "trainer" ? "" : words.onTheRoad);
  return (rideS) => line.y((rideS - span.fromS) / (span.toS - span.fromS));
}

interface Scale {
  readonly y: (value: number) => number;
  readonly low: number;
  readonly high: number;
}

function scaleFor(lane: Lane, extremes: Extremes, least: number, more: readonly number[]): Scale {
  let low = Infinity;
  let high = -Infinity;
  for (let k = 0; k < extremes.least.length; k++) {
    if (extremes.least[k] < low) low = extremes.least[k];
    if (extremes.most[k] > high) high = extremes.most[k];
  }
  for (const value of more) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (!(high > low)) [low, high] = [0, 1];
  const range = Math.max(least, high - low);
  return { low, high, y: (value) => lane.bottom - 4 - ((value - low) / range) * (lane.bottom - lane.top - 9) };
}

/** Least to most of each pixel, at least a line thick, as one shape; a gap in the data is a gap. */
function drawExtremes(pen: Pen, { least, most }: Extremes, scale: Scale, colour: string, thickPx: number): void {
  const { context, rooms } = pen;
  const lower = new Float64Array(least.length);
  context.fillStyle = colour;
  context.beginPath();
  for (let first = 0; first < least.length; first++) {
    if (Number.isNaN(least[first])) continue;
    let end = first;
    context.moveTo(rooms.left + first, scale.y(most[first]) - thickPx / 2);
    for (; end < least.length && !Number.isNaN(least[end]); end++) {
      let top = scale.y(most[end]);
      let bottom = scale.y(least[end]);
      // Neighbours join, so that a steep line has no holes.
      if (end > first) {
        top = Math.min(top, scale.y(least[end - 1]));
        bottom = Math.max(bottom, scale.y(most[end - 1]));
      }
      context.lineTo(rooms.left + end, top - thickPx / 2);
      context.lineTo(rooms.left + end + 1, top - thickPx / 2);
      lower[end] = bottom + thickPx / 2;
    }
    for (let k = end - 1; k >= first; k--) {
      context.lineTo(rooms.left + k + 1, lower[k]);
      context.lineTo(rooms.left + k, lower[k]);
    }
    context.closePath();
    first = end;
  }
  context.fill();
}

function extremesOf(pen: Pen, column: Float64Array): Extremes {
  return perPixel(column, 0, 1, pen.span.fromS, pen.span.toS, Math.max(1, Math.round(pen.rooms.right - pen.rooms.left)));
}

function drawPower(pen: Pen, columns: WindowColumns): void {
  const { context, view, rooms } = pen;
  const band = columns.bandW;
  const extremes = extremesOf(pen, columns.power30sW!);
  const scale = scaleFor(rooms.power, extremes, 80, band === null ? [0] : [0, band.high]);
  if (band !== null) {
    context.fillStyle = view.colours.band;
    context.fillRect(rooms.left, scale.y(band.high), rooms.right - rooms.left, scale.y(band.low) - scale.y(band.high));
  }
  drawExtremes(pen, extremes, scale, view.colours.ink, 1.6);
  name(pen, words.power, rooms.power, band === null ? "W" : words.band(`${wholeText(band.low)}\u2013${wholeText(band.high)}`));
}

function drawHeart(pen: Pen, columns: WindowColumns, { drift }: ReadingView): void {
  const { context, view, rooms } = pen;
  const { colours } = view;
  const lane = rooms.heart;
  const recorded = columns.heartRate!;
  const extremes = extremesOf(pen, recorded.value);
  const readings = [drift.firstBpm, drift.lastBpm].filter((bpm) => bpm !== null);
  const scale = scaleFor(lane, extremes, 25, readings);
  if (drift.onsetLowS !== null && drift.onsetHighS !== null) {
    const from = inside(pen, pen.x(drift.onsetLowS));
    const to = inside(pen, pen.x(drift.onsetHighS));
    context.save();
    context.beginPath();
    context.rect(from, lane.top + 2, Math.max(2, to - from), lane.bottom - lane.top - 4);
    context.clip();
    context.strokeStyle = colours.above;
    context.lineWidth = 1.2;
    context.globalAlpha = 0.75;
    context.beginPath();
    for (let x = from - (lane.bottom - lane.top); x < to; x += 7) {
      context.moveTo(x, lane.bottom);
      context.lineTo(x + (lane.bottom - lane.top), lane.top);
    }
    context.stroke();
    context.restore();
  }
  drawExtremes(pen, extremes, scale, colours.ink, 1.6);
  if (drift.onsetS !== null) {
    context.fillStyle = colours.above;
    const x = pen.x(drift.onsetS);
    if (x >= rooms.left && x <= rooms.right) context.fillRect(Math.round(x) - 1, lane.top + 1, 2.5, lane.bottom - lane.top - 2);
  }
  for (const [bpm, atS] of [
    [drift.firstBpm, drift.firstAtS],
    [drift.lastBpm, drift.lastAtS],
  ] as const) {
    if (bpm === null || atS === null) continue;
    const x = pen.x(atS);
    if (x < rooms.left || x > rooms.right) continue;
    const y = scale.y(bpm);
    context.beginPath();
    context.arc(x, y, 5, 0, 2 * Math.PI);
    context.fillStyle = colours.ground;
    context.fill();
    context.lineWidth = 2.4;
    context.strokeStyle = colours.ink;
    context.stroke();
    const below = y < (lane.top + lane.bottom) / 2;
    said(pen, wholeText(bpm), x, y + (below ? 1.15 : -1.15) * view.textPx);
  }
  name(pen, words.heart, lane, words.bpm);
}

/** A figure on a patch of ground, so that no line runs through it. */
function said(pen: Pen, figure: string, x: number, y: number): void {
  const { context, view } = pen;
  context.font = `600 ${view.textPx}px ${FONT}`;
  const half = context.measureText(figure).width / 2 + 3;
  context.fillStyle = view.colours.ground;
  context.globalAlpha = 0.85;
  context.fillRect(x - half, y - view.textPx * 0.55, 2 * half, view.textPx * 1.1);
  context.globalAlpha = 1;
  text(pen, figure, x, y, { align: "center", colour: view.colours.ink, strong: true });
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
    if (sure && context.measureText(clip).width < width - 12) text(pen, clip, from + 5, (lane.top + lane.bottom) / 2, { colour: view.colours.ground, share: 0.82 });
  }
  name(pen, words.footage, lane);
}

function drawMoments(pen: Pen, { moments, selected }: Pick<StripContent, "moments" | "selected">): void {
  const { context, view, rooms } = pen;
  const { colours, textPx } = view;
  const y = rooms.moments.bottom - textPx * 0.5;
  const ordered = [...moments].sort((a, b) => Number(a.index === selected) - Number(b.index === selected));
  for (const moment of ordered) {
    const from = pen.x(moment.startS);
    const to = pen.x(moment.endS);
    if (to < rooms.left || from > rooms.right) continue;
    const chosen = moment.index === selected;
    const left = inside(pen, from);
    const right = Math.max(left + 2, inside(pen, to));
    if (chosen) {
      context.fillStyle = colours.ink;
      context.globalAlpha = 0.1;
      context.fillRect(left, rooms.moments.bottom, right - left, rooms.footage.bottom - rooms.moments.bottom);
      context.globalAlpha = 1;
      context.fillRect(left, y, right - left, 4);
    } else {
      context.fillStyle = colours.quiet;
      context.fillRect(left, y + 1, right - left, 2);
    }
    const radius = chosen ? 6.5 : 4.5;
    context.beginPath();
    context.arc(left, y + 2, radius, 0, 2 * Math.PI);
    context.fillStyle = moment.keep === true ? colours.ink : colours.ground;
    context.fill();
    context.lineWidth = chosen ? 2.6 : 1.8;
    context.strokeStyle = moment.keep === false ? colours.quiet : colours.ink;
    context.stroke();
    if (moment.keep === false) {
      context.beginPath();
      context.moveTo(left - radius - 1, y + 2 + radius + 1);
      context.lineTo(left + radius + 1, y + 2 - radius - 1);
      context.stroke();
    }
    if (!chosen) continue;
    context.font = `600 ${textPx}px ${FONT}`;
    const width = context.measureText(moment.words).width;
    text(pen, moment.words, Math.max(rooms.left, Math.min(left - 4, rooms.right - TOOLS * textPx - width)), rooms.moments.top + textPx * 0.62, { colour: colours.ink, strong: true });
  }
  text(pen, words.moments, 2, y + 2, { colour: colours.ink, strong: true });
}
