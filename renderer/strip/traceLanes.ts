import type { ReadingView } from "../../main/contract/debriefApi.ts";
import { perHour, wholeText } from "../../overlay/words/numbers.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { type Extremes, perPixel } from "./perPixel.ts";
import { outsideBlocks } from "../../overlay/cards/chartScale.ts";
import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
import type { StripAsked } from "./paintStrip.ts";
import { figure, FONT, inside, type Pen, text } from "./stripPen.ts";
import type { Lane } from "./stripRooms.ts";

interface Scale {
  readonly y: (value: number) => number;
  readonly low: number;
  readonly high: number;
}

/** Figures of a lane's axis stand no nearer than this, in heights of the letters. */
const FIGURES_APART = 1.1;
/** Size of an axis' figures, in heights of the window's letters. */
const AXIS_SHARE = 0.8;
const ROUND_STEPS = [500, 200, 100, 50, 20, 10, 5, 2, 1];
/** The figures of an axis span so much of what is drawn, share. */
const SPANNED = 0.55;

/** Round values of an axis: as many as have room, the least and the highest first. */
export function axisValues(low: number, high: number, room: number): readonly number[] {
  for (const step of ROUND_STEPS) {
    const least = Math.ceil(low / step) * step;
    const most = Math.floor(high / step) * step;
    if (most <= least || most - least < SPANNED * (high - low)) continue;
    const count = (most - least) / step;
    return count + 1 > room ? [least, most] : Array.from({ length: count + 1 }, (_, k) => least + k * step);
  }
  return [];
}

/** Round values of a lane at its left edge, each with a tick. */
function drawFigures(pen: Pen, lane: Lane, { low, high, y }: Scale): void {
  const { context, view, rooms } = pen;
  const half = view.textPx * FIGURES_APART * 0.5;
  const room = Math.floor((y(low) - y(high)) / (2 * half)) + 1;
  for (const value of room < 2 ? [] : axisValues(low, high, room)) {
    const at = Math.round(y(value));
    context.fillStyle = view.colours.quiet;
    context.fillRect(rooms.left, at, 4, 1);
    const middle = Math.min(lane.bottom - half, Math.max(lane.top + half, at));
    context.font = `500 ${view.textPx * AXIS_SHARE}px ${FONT}`;
    const said = wholeText(value);
    context.fillStyle = view.colours.ground;
    context.globalAlpha = 0.7;
    context.fillRect(rooms.left + 5, middle - half * 0.9, context.measureText(said).width + 4, half * 1.8);
    context.globalAlpha = 1;
    text(pen, said, rooms.left + 7, middle, { share: AXIS_SHARE });
  }
}

function scaleFor(lane: Lane, extremes: Extremes, least: number, more: readonly number[]): Scale {
  let low = Infinity;
  let high = -Infinity;
  for (let k = 0; k < extremes.least.length; k++) {
    if (extremes.least[k]! < low) low = extremes.least[k]!;
    if (extremes.most[k]! > high) high = extremes.most[k]!;
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
    context.moveTo(rooms.left + first, scale.y(most[first]!) - thickPx / 2);
    for (; end < least.length && !Number.isNaN(least[end]); end++) {
      let top = scale.y(most[end]!);
      let bottom = scale.y(least[end]!);
      // Neighbours join, so that a steep line has no holes.
      if (end > first) {
        top = Math.min(top, scale.y(least[end - 1]!));
        bottom = Math.max(bottom, scale.y(most[end - 1]!));
      }
      context.lineTo(rooms.left + end, top - thickPx / 2);
      context.lineTo(rooms.left + end + 1, top - thickPx / 2);
      lower[end] = bottom + thickPx / 2;
    }
    for (let k = end - 1; k >= first; k--) {
      context.lineTo(rooms.left + k + 1, lower[k]!);
      context.lineTo(rooms.left + k, lower[k]!);
    }
    context.closePath();
    first = end;
  }
  context.fill();
}

function extremesOf(pen: Pen, column: Float64Array): Extremes {
  return perPixel(
    column,
    0,
    1,
    pen.span.fromS,
    pen.span.toS,
    Math.max(1, Math.round(pen.rooms.right - pen.rooms.left)),
  );
}

/** Thickness of a planned block's frame, px. */
const FRAME_PX = 1.5;

/** A band from one ride time to another, as far as it is seen. */
function drawBand(pen: Pen, scale: Scale, fromS: number, toS: number, low: number, high: number): void {
  const { context, view } = pen;
  const from = inside(pen, pen.x(fromS));
  const to = inside(pen, pen.x(toS));
  if (to <= from) return;
  context.fillStyle = view.colours.band;
  context.fillRect(from, scale.y(high), to - from, scale.y(low) - scale.y(high));
}

/** The frame of a planned block: its band alone is too faint to be seen under the trace. */
function drawFrame(pen: Pen, scale: Scale, fromS: number, toS: number, low: number, high: number): void {
  const { context, view } = pen;
  const from = inside(pen, pen.x(fromS));
  const to = inside(pen, pen.x(toS));
  if (to <= from) return;
  context.strokeStyle = view.colours.edge;
  context.lineWidth = FRAME_PX;
  context.strokeRect(from, scale.y(high), Math.max(FRAME_PX, to - from), scale.y(low) - scale.y(high));
}

/** Draws power over what is asked for: the plan's band, and in each block its own (none where it rests). */
export function drawPower(pen: Pen, columns: WindowColumns, { blocks }: StripAsked): void {
  const { view, rooms, span } = pen;
  const band = columns.bandW;
  const extremes = extremesOf(pen, columns.power30sW!);
  const asked = blocks.map(({ startS, endS, lowW: low, highW: high }) => ({ startS, endS, low, high }));
  const highest = asked.flatMap(({ high }) => high ?? []);
  const scale = scaleFor(rooms.power, extremes, 80, [0, ...(band === null ? [] : [band.high]), ...highest]);
  if (band !== null)
    for (const [fromS, toS] of outsideBlocks(asked, span.fromS, span.toS))
      drawBand(pen, scale, fromS, toS, band.low, band.high);
  for (const { startS, endS, low, high } of asked)
    if (low !== null && high !== null) {
      drawBand(pen, scale, startS, endS, low, high);
      drawFrame(pen, scale, startS, endS, low, high);
    }
  drawExtremes(pen, extremes, scale, view.colours.ink, 1.6);
  drawFigures(pen, rooms.power, scale);
}

/** Draws speed, from standing still up. */
export function drawSpeed(pen: Pen, { speed }: WindowColumns, units: UnitSystem): void {
  const { view, rooms } = pen;
  const each = perHour(units);
  const shown = extremesOf(pen, speed!.value);
  const extremes = { least: shown.least.map((mps) => mps * each), most: shown.most.map((mps) => mps * each) };
  const scale = scaleFor(rooms.speed, extremes, 20, [0]);
  drawExtremes(pen, extremes, scale, view.colours.ink, 1.6);
  drawFigures(pen, rooms.speed, scale);
}

/** Draws the heart's trace over the range asked for, its readings and the onset's interval. */
export function drawHeart(pen: Pen, columns: WindowColumns, { drift }: ReadingView, { heartBpm }: StripAsked): void {
  const { context, view, rooms } = pen;
  const { colours } = view;
  const lane = rooms.heart;
  const recorded = columns.heartRate!;
  const extremes = extremesOf(pen, recorded.value);
  const readings = [drift.firstBpm, drift.lastBpm].filter((bpm) => bpm !== null);
  const scale = scaleFor(lane, extremes, 25, [
    ...readings,
    ...(heartBpm === null ? [] : [heartBpm.low, heartBpm.high]),
  ]);
  if (heartBpm !== null) drawBand(pen, scale, pen.span.fromS, pen.span.toS, heartBpm.low, heartBpm.high);
  if (drift.onsetLowS !== null && drift.onsetHighS !== null) {
    const from = inside(pen, pen.x(drift.onsetLowS));
    const to = inside(pen, pen.x(drift.onsetHighS));
    context.save();
    context.beginPath();
    context.rect(from, lane.top + 2, Math.max(2, to - from), lane.bottom - lane.top - 4);
    context.clip();
    context.strokeStyle = colours.ink;
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
  drawFigures(pen, lane, scale);
  if (drift.onsetS !== null) {
    context.fillStyle = colours.ink;
    const x = pen.x(drift.onsetS);
    if (x >= rooms.left && x <= rooms.right)
      context.fillRect(Math.round(x) - 1, lane.top + 1, 2.5, lane.bottom - lane.top - 2);
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
    figure(pen, wholeText(bpm), x, y + (below ? 1.15 : -1.15) * view.textPx);
  }
}
