import { withAlpha } from "../drawText.ts";
import type { ThreadPage, ThreadRun } from "../instant/threadPageAt.ts";
import type { TypeScale } from "../layout/typeScale.ts";
import { traceDisc, traceHalfDisc, traceLine } from "../shapes.ts";
import type { Rect, Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import { NEEDLE_LENGTH, traceEye, traceNeedle } from "./needle.ts";
import { RoadLine } from "./roadLine.ts";

/** Lengths in units of the type scale. */
const BED = 10;
const THIN_BED = 5.6;
const FIRM = 5.6;
const THIN = 2.2;
const STRAND = 2.7;
const STRAND_OFFSET = 3.2;
const DOT = 5;
const DOT_RIM = 1.5;
const SMALL_DOT = 1.9;
/** Another ride's thread below it, and how much finer that is. */
const BESIDE_DOWN = 24;
const BESIDE_FINE = 0.62;
const DASH = 6;

/** Width of the tiles in which strokes are drawn; small dots and dashes divide it, so that none lies across its edge. */
const TILE = 16;
const SMALL_DOTS_A_TILE = 2;
const DASHES_A_TILE = 1;
/** From the line's round end to the middle of the first dot or dash. */
const SMALL_DOT_CLEAR = 7;
const DASH_CLEAR = 10;
/** How far the drawing reaches before and after the thread's end. */
const REACH_BEFORE = 2 * DOT + 4;
const REACH_AFTER = NEEDLE_LENGTH + 4;

/**
 * The part of the thread's rectangle that differs between two instants of one page.
 *
 * A canvas smooths an edge a little differently with every clip. So strokes are drawn in tiles that stand still, each as
 * a whole, and the part begins where it cuts no dot: a thread that grew step by step is the same, to the pixel, as one
 * that is drawn at once.
 */
export function grownPart(rect: Rect, before: ThreadPage, now: ThreadPage, type: TypeScale): Rect {
  const line = roadLine(rect, now, type);
  const unit = type.unitPx;
  const tile = tilePx(type);
  const dotReach = (DOT + DOT_RIM + 1) * unit;
  const dots = [...now.runs, ...(now.beside ?? [])].flatMap((run) =>
    [run.from, (run.from + run.to) / 2, run.to].map((share) => line.x(share)),
  );
  const starts = [before.drawnTo, before.besideTo ?? 1];
  const ends = [now.drawnTo, now.besideTo ?? 0];
  let first = Math.floor((line.x(Math.min(...starts)) - REACH_BEFORE * unit - rect.x) / tile);
  while (first > 0 && dots.some((x) => Math.abs(rect.x + first * tile - x) < dotReach)) first -= 1;
  const last = Math.ceil((line.x(Math.max(...ends)) + REACH_AFTER * unit - rect.x) / tile);
  const left = Math.max(0, first * tile);
  const width = Math.min(rect.width, last * tile) - left;
  const high = heightOf(line, rect.x + left, rect.x + left + width, [before.drawnTo, now.drawnTo], unit);
  const downPx = now.beside === undefined ? 0 : besideDownPx(type);
  return {
    y: high.y,
    height: Math.min(rect.y + rect.height, high.y + high.height + downPx) - high.y,
    x: rect.x + left,
    width,
  };
}

/** How far below the thread another ride's lies. */
function besideDownPx(type: TypeScale): number {
  return Math.round(BESIDE_DOWN * type.unitPx);
}

/** The page's road; where a second thread lies below it, in what that leaves. */
function roadLine(rect: Rect, page: ThreadPage, type: TypeScale): RoadLine {
  const height = page.beside === undefined ? rect.height : rect.height - besideDownPx(type);
  return new RoadLine({ ...rect, height }, page, type);
}

/** The rows that thread, dots and needle may fill between two columns, when the needle stands at either share. */
function heightOf(
  line: RoadLine,
  left: number,
  right: number,
  ends: readonly number[],
  unit: number,
): { y: number; height: number } {
  const { rect } = line;
  const heights = line.corners(left, right).filter((_, k) => k % 2 === 1);
  const points = ends.map((share) => line.y(share) + REACH_AFTER * unit * Math.sin(line.leanRad(share)));
  const reach = (DOT + DOT_RIM + 2) * unit;
  const top = Math.max(rect.y, Math.floor(Math.min(...heights, ...points) - reach));
  const bottom = Math.min(rect.y + rect.height, Math.ceil(Math.max(...heights, ...points) + reach));
  return { y: top, height: bottom - top };
}

function tilePx(type: TypeScale): number {
  return Math.max(8, Math.round(TILE * type.unitPx));
}

/** What a thread is drawn with. */
export interface ThreadPen {
  readonly surface: Surface;
  readonly line: RoadLine;
  readonly unit: number;
  readonly tile: number;
  readonly theme: Theme;
  /** What is drawn. */
  readonly part: Rect;
}

/**
 * Draws the thread: solid and firm in the band, thin below it, doubled above it; gone, with round ends, where pressure
 * was off; bridged by small dots where that is excused and by short dashes where nobody can tell. At its end the needle.
 *
 * @param rect the thread's whole rectangle
 * @param part what of it is drawn, and clipped to by the caller: all, or what `grownPart` gave
 */
export function paintThread(
  surface: Surface,
  rect: Rect,
  page: ThreadPage,
  type: TypeScale,
  theme: Theme,
  part: Rect = rect,
): void {
  if (page.runs.length === 0) return;
  const pen = threadPen(surface, rect, page, type, theme, part);
  if (page.beside !== undefined) drawRuns(besidePen(pen, page, rect, type), page.beside);
  drawRuns(pen, page.runs);
  drawNeedle(pen, page.drawnTo);
}

function drawRuns(pen: ThreadPen, runs: readonly ThreadRun[]): void {
  runs.forEach((run) => {
    if (isDrawn(run)) for (const one of strokesOf(pen, run)) stroke(pen, one);
  });
  runs.forEach((run, k) => drawMarks(pen, run, runs[k - 1], runs[k + 1]));
}

/** Another ride's thread: finer and quieter, on the same road below the first. */
function besidePen(pen: ThreadPen, page: ThreadPage, rect: Rect, type: TypeScale): ThreadPen {
  const downPx = besideDownPx(type);
  const low = { ...rect, y: rect.y + downPx, height: rect.height - downPx };
  const { theme } = pen;
  const ink = theme.quiet;
  return {
    ...pen,
    line: new RoadLine(low, page, type),
    unit: BESIDE_FINE * pen.unit,
    theme: { ...theme, ink, above: ink },
  };
}

/** What `rect` is drawn with, or a part of it. */
export function threadPen(
  surface: Surface,
  rect: Rect,
  page: ThreadPage,
  type: TypeScale,
  theme: Theme,
  part: Rect = rect,
): ThreadPen {
  return { surface, line: roadLine(rect, page, type), unit: type.unitPx, tile: tilePx(type), theme, part };
}

/** Whether there is a line to draw, not a break. */
export function isDrawn(run: ThreadRun | undefined): boolean {
  return run !== undefined && (run.stroke === "below" || run.stroke === "in" || run.stroke === "above");
}

/** Whether the line ends round at a neighbour: not where it goes on, nor where the dot of a break covers the end. */
function endsRound(neighbour: ThreadRun | undefined): boolean {
  return !isDrawn(neighbour) && neighbour?.stroke !== "off";
}

/** A stroke along the road: from where to where, how far below it in units, how wide in units. */
export interface RoadStroke {
  readonly fromX: number;
  readonly toX: number;
  readonly down: number;
  readonly width: number;
  readonly colour: string;
  readonly alpha: number;
}

/** The line itself, and first the dark bed that it lies in. */
export function strokesOf({ line, theme }: ThreadPen, run: ThreadRun): [RoadStroke, ...RoadStroke[]] {
  const fromX = line.x(run.from);
  const toX = line.x(run.to);
  const bed = run.stroke === "below" ? THIN_BED : BED;
  const under: RoadStroke = { fromX, toX, down: 0, width: bed, colour: theme.halo, alpha: theme.haloAlpha };
  const over = (down: number, width: number, colour: string): RoadStroke => ({
    fromX,
    toX,
    down,
    width,
    colour,
    alpha: 1,
  });
  if (run.stroke !== "above") return [under, over(0, run.stroke === "in" ? FIRM : THIN, theme.ink)];
  return [under, over(-STRAND_OFFSET, STRAND, theme.above), over(STRAND_OFFSET, STRAND, theme.above)];
}

/** Strokes the road between two whole columns of pixels, tile by tile. */
function stroke(pen: ThreadPen, { fromX, toX, down, width, colour, alpha }: RoadStroke): void {
  const { surface, line, unit, tile, part } = pen;
  const from = Math.max(part.x, Math.round(fromX));
  const to = Math.min(part.x + part.width, Math.round(toX));
  for (let k = Math.floor((from - line.rect.x) / tile); line.rect.x + k * tile < to; k += 1) {
    const tileLeft = line.rect.x + k * tile;
    const left = Math.max(from, tileLeft);
    const right = Math.min(to, tileLeft + tile);
    const corners = line.corners(tileLeft, tileLeft + tile);
    if (right <= left || corners.length < 4) continue;
    surface.save();
    surface.beginPath();
    surface.rect(left, line.rect.y, right - left, line.rect.height);
    surface.clip();
    surface.beginPath();
    surface.moveTo(corners[0]!, corners[1]! + down * unit);
    for (let c = 2; c < corners.length; c += 2) surface.lineTo(corners[c]!, corners[c + 1]! + down * unit);
    surface.lineCap = "round";
    surface.lineJoin = "round";
    surface.lineWidth = width * unit;
    surface.strokeStyle = colour;
    withAlpha(surface, alpha, () => surface.stroke());
    surface.restore();
  }
}

/** What stands on the thread or in its place: round ends, dots, dashes. */
export function drawMarks(
  pen: ThreadPen,
  run: ThreadRun,
  before: ThreadRun | undefined,
  after: ThreadRun | undefined,
): void {
  const { line, unit, theme } = pen;
  switch (run.stroke) {
    case "in":
    case "below":
    case "above":
      if (endsRound(before)) roundEnd(pen, run, run.from, -1);
      if (after !== undefined && endsRound(after)) roundEnd(pen, run, run.to, 1);
      return;
    case "off":
      if (before !== undefined) dot(pen, line.x(run.from), line.y(run.from), DOT * unit, theme.off);
      if (after !== undefined) dot(pen, line.x(run.to), line.y(run.to), DOT * unit, theme.off);
      return;
    case "off excused":
      return eachStep(pen, run, after !== undefined, pen.tile / SMALL_DOTS_A_TILE, SMALL_DOT_CLEAR, (x, y) =>
        dot(pen, x, y, SMALL_DOT * unit, theme.ink),
      );
    case "off unclear":
      return eachStep(pen, run, after !== undefined, pen.tile / DASHES_A_TILE, DASH_CLEAR, (x, y) => dash(pen, x, y));
    default:
      return;
  }
}

/** Calls at even steps that stand still while the run grows; in a run too short for one, in its middle once it has ended. */
function eachStep(
  { line, part, unit }: ThreadPen,
  run: ThreadRun,
  ended: boolean,
  stepPx: number,
  clear: number,
  take: (x: number, y: number) => void,
): void {
  const from = line.x(run.from) + clear * unit;
  const to = line.x(run.to) - clear * unit;
  const origin = line.rect.x + stepPx / 2;
  const first = Math.ceil((from - origin) / stepPx);
  if (ended && origin + first * stepPx > to) {
    const middle = (run.from + run.to) / 2;
    take(line.x(middle), line.y(middle));
  }
  for (let k = first; origin + k * stepPx <= to; k += 1) {
    const x = origin + k * stepPx;
    if (x > part.x - stepPx) take(x, line.y(line.shareAt(x)));
  }
}

function dash({ surface, unit, theme }: ThreadPen, x: number, y: number): void {
  for (const [width, colour, alpha] of [
    [THIN + 3, theme.halo, theme.haloAlpha],
    [THIN, theme.ink, 1],
  ] as const) {
    surface.beginPath();
    traceLine(surface, x - (DASH * unit) / 2, y, x + (DASH * unit) / 2, y);
    surface.lineCap = "round";
    surface.lineWidth = width * unit;
    surface.strokeStyle = colour;
    withAlpha(surface, alpha, () => surface.stroke());
  }
}

/** The round end of a line and of its bed, past which nothing stands; of a double line the bed's alone. */
function roundEnd(pen: ThreadPen, run: ThreadRun, share: number, side: -1 | 1): void {
  const { surface, line, unit, theme, part } = pen;
  const x = Math.round(line.x(share));
  const y = line.y(share);
  const bed = ((run.stroke === "below" ? THIN_BED : BED) / 2) * unit;
  if (x + bed < part.x - 1) return;
  surface.beginPath();
  traceHalfDisc(surface, x, y, bed, side);
  surface.fillStyle = theme.halo;
  withAlpha(surface, theme.haloAlpha, () => surface.fill());
  if (run.stroke !== "above") disc(pen, x, y, ((run.stroke === "in" ? FIRM : THIN) / 2) * unit, theme.ink);
}

/** A disc with a dark rim. */
function dot(pen: ThreadPen, x: number, y: number, radius: number, colour: string): void {
  disc(pen, x, y, radius + DOT_RIM * pen.unit, pen.theme.halo, 0.85);
  disc(pen, x, y, radius, colour);
}

function disc({ surface, part }: ThreadPen, x: number, y: number, radius: number, colour: string, alpha = 1): void {
  if (x + radius < part.x - 1) return;
  surface.beginPath();
  traceDisc(surface, x, y, radius);
  surface.fillStyle = colour;
  withAlpha(surface, alpha, () => surface.fill());
}

/** A sewing needle, its eye at the thread's end, its point ahead. */
function drawNeedle({ surface, line, unit, theme }: ThreadPen, share: number): void {
  const pose = { x: line.x(share), y: line.y(share), leanRad: line.leanRad(share), unitPx: unit };
  surface.beginPath();
  traceNeedle(surface, pose);
  surface.lineJoin = "round";
  surface.lineWidth = 3.2 * unit;
  surface.strokeStyle = theme.halo;
  withAlpha(surface, 0.85, () => surface.stroke());
  surface.fillStyle = theme.ink;
  surface.fill();
  surface.beginPath();
  traceEye(surface, pose);
  surface.fillStyle = theme.halo;
  surface.fill();
}
