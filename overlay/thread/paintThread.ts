import { withAlpha } from "../drawText.ts";
import type { ThreadPage, ThreadRun } from "../instant/threadPageAt.ts";
import type { TypeScale } from "../layout/typeScale.ts";
import type { Rect, Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import { NEEDLE_LENGTH, traceEye, traceNeedle } from "./needle.ts";

/** Lengths in units of the type scale. */
const PAD_X = 10;
const PAD_Y = 15;
const BED = 10;
const THIN_BED = 5.6;
const FIRM = 5.6;
const THIN = 2.2;
const STRAND = 2.7;
const STRAND_OFFSET = 3.2;
const DOT = 5;
const SMALL_DOT = 1.9;
const SMALL_DOT_STEP = 9;
const DASH = 6;
const DASH_STEP = 13;

/** The needle leans with the road at most so far, so that it stays in the thread's strip. */
const MOST_LEAN_RAD = 0.3;

/** How far the drawing reaches before and after the thread's end. */
const REACH_BEFORE = 2 * DOT + 4;
const REACH_AFTER = NEEDLE_LENGTH + 4;
/** Width of the tiles in which the thread is drawn. */
const TILE = 32;

/** Where a share of the page lies in the thread's rectangle, px. */
function threadX(rect: Rect, share: number, type: TypeScale): number {
  const unit = type.unitPx;
  return rect.x + PAD_X * unit + share * (rect.width - (2 * PAD_X + NEEDLE_LENGTH) * unit);
}

/**
 * The part of the thread's rectangle that differs between two instants of one page, as whole tiles.
 *
 * A canvas smooths edges a little differently with every clip. Tiles stand still and are always drawn as a whole, so
 * that a thread that grew step by step is the same, to the pixel, as one that is drawn at once.
 */
export function grownPart(rect: Rect, fromShare: number, toShare: number, type: TypeScale): Rect {
  const unit = type.unitPx;
  const tile = tilePx(type);
  const first = Math.floor((threadX(rect, fromShare, type) - REACH_BEFORE * unit - rect.x) / tile);
  const last = Math.ceil((threadX(rect, toShare, type) + REACH_AFTER * unit - rect.x) / tile);
  const left = Math.max(0, first * tile);
  return { ...rect, x: rect.x + left, width: Math.min(rect.width, last * tile) - left };
}

function tilePx(type: TypeScale): number {
  return Math.max(8, Math.round(TILE * type.unitPx));
}

/**
 * Draws the thread: solid and firm in the band, thin below it, doubled above it; gone, with round ends, where pressure
 * was off; bridged by small dots where that is excused and by short dashes where nobody can tell. At its end the needle.
 *
 * @param rect the thread's whole rectangle
 * @param part what of it is drawn: all, or what `grownPart` gave
 */
export function paintThread(
  surface: Surface,
  rect: Rect,
  page: ThreadPage,
  type: TypeScale,
  theme: Theme,
  part: Rect = rect,
): void {
  const line = new RoadLine(rect, page, type);
  const tile = tilePx(type);
  for (let x = part.x; x < part.x + part.width; x += tile) {
    const width = Math.min(tile, rect.x + rect.width - x);
    surface.save();
    surface.beginPath();
    surface.rect(x, rect.y, width, rect.height);
    surface.clip();
    paintTile({ surface, line, unit: type.unitPx, theme, left: x, right: x + width }, page);
    surface.restore();
  }
}

function paintTile(pen: Pen, page: ThreadPage): void {
  const { line, unit } = pen;
  page.runs.forEach((run, k) => {
    const reach = BED * unit;
    if (line.x(run.to) + reach < pen.left || line.x(run.from) - reach > pen.right) return;
    drawRun(pen, run, page.runs[k - 1], page.runs[k + 1]);
  });
  const end = line.x(page.drawnTo);
  if (page.runs.length > 0 && end - REACH_BEFORE * unit < pen.right && end + REACH_AFTER * unit > pen.left) {
    drawNeedle(pen, page.drawnTo);
  }
}

/** The road on screen. */
class RoadLine {
  readonly rect: Rect;
  private readonly page: ThreadPage;
  private readonly type: TypeScale;

  constructor(rect: Rect, page: ThreadPage, type: TypeScale) {
    this.rect = rect;
    this.page = page;
    this.type = type;
  }

  x(share: number): number {
    return threadX(this.rect, share, this.type);
  }

  y(share: number): number {
    const { heights } = this.page;
    const at = Math.max(0, Math.min(1, share)) * (heights.length - 1);
    const k = Math.min(heights.length - 2, Math.floor(at));
    const low = heights[k] as number;
    const height = low + ((heights[k + 1] as number) - low) * (at - k);
    const pad = PAD_Y * this.type.unitPx;
    return this.rect.y + this.rect.height - pad - height * (this.rect.height - 2 * pad);
  }

  /** Corners of the road that a tile sees, and two more on either side; x and y in turn. */
  corners(left: number, right: number): number[] {
    const steps = this.page.heights.length - 1;
    const stepOf = (x: number): number => ((x - this.x(0)) / (this.x(1) - this.x(0))) * steps;
    const first = Math.max(0, Math.floor(stepOf(left)) - 2);
    const last = Math.min(steps, Math.ceil(stepOf(right)) + 2);
    const corners: number[] = [];
    for (let k = first; k <= last; k += 1) corners.push(this.x(k / steps), this.y(k / steps));
    return corners;
  }

  /** Lean of the road on screen, radians, positive where it falls. */
  lean(share: number): number {
    const reach = 1.5 / (this.page.heights.length - 1);
    const from = Math.max(0, share - reach);
    const to = Math.min(1, share + reach);
    const lean = Math.atan2(this.y(to) - this.y(from), this.x(to) - this.x(from));
    return Math.max(-MOST_LEAN_RAD, Math.min(MOST_LEAN_RAD, lean));
  }
}

interface Pen {
  readonly surface: Surface;
  readonly line: RoadLine;
  readonly unit: number;
  readonly theme: Theme;
  /** Edges of the tile. */
  readonly left: number;
  readonly right: number;
}

function isDrawn(run: ThreadRun | undefined): boolean {
  return run !== undefined && (run.stroke === "below" || run.stroke === "in" || run.stroke === "above");
}

function drawRun(pen: Pen, run: ThreadRun, before: ThreadRun | undefined, after: ThreadRun | undefined): void {
  const { surface, line, unit, theme } = pen;
  switch (run.stroke) {
    case "unknown":
      return;
    case "in":
    case "below": {
      const width = run.stroke === "in" ? FIRM : THIN;
      drawBed(pen, run, run.stroke === "in" ? BED : THIN_BED, before, after);
      strokeWithin(pen, line.x(run.from), line.x(run.to), 0, width, theme.ink);
      if (!isDrawn(before)) roundEnd(pen, run.from, width);
      if (after !== undefined && !isDrawn(after)) roundEnd(pen, run.to, width);
      return;
    }
    case "above":
      drawBed(pen, run, BED, before, after);
      strokeWithin(pen, line.x(run.from), line.x(run.to), -STRAND_OFFSET, STRAND, theme.above);
      strokeWithin(pen, line.x(run.from), line.x(run.to), STRAND_OFFSET, STRAND, theme.above);
      return;
    case "off":
      if (before !== undefined) dot(surface, line.x(run.from), line.y(run.from), DOT * unit, theme.off, unit, theme);
      if (after !== undefined) dot(surface, line.x(run.to), line.y(run.to), DOT * unit, theme.off, unit, theme);
      return;
    case "off excused":
      return eachStep(line, run, SMALL_DOT_STEP * unit, (x, y) => dot(surface, x, y, SMALL_DOT * unit, theme.ink, unit, theme));
    case "off unclear":
      return eachStep(line, run, DASH_STEP * unit, (x, y) => dash(pen, x, y));
  }
}

/** The dark bed that the thread lies in; it reaches past an end that does not join. */
function drawBed(pen: Pen, run: ThreadRun, width: number, before: ThreadRun | undefined, after: ThreadRun | undefined): void {
  const { line, unit, theme } = pen;
  const from = line.x(run.from) - (isDrawn(before) ? 0 : (width / 2) * unit);
  const to = line.x(run.to) + (after === undefined || isDrawn(after) ? 0 : (width / 2) * unit);
  strokeWithin(pen, from, to, 0, width, theme.halo, theme.haloAlpha);
}

/** Strokes the road between two whole columns of pixels. */
function strokeWithin(pen: Pen, fromX: number, toX: number, down: number, width: number, colour: string, alpha = 1): void {
  const { surface, line, unit } = pen;
  const left = Math.max(pen.left, Math.round(fromX));
  const right = Math.min(pen.right, Math.round(toX));
  const corners = line.corners(pen.left, pen.right);
  if (right <= left || corners.length < 4) return;
  surface.save();
  surface.beginPath();
  surface.rect(left, line.rect.y, right - left, line.rect.height);
  surface.clip();
  surface.beginPath();
  surface.moveTo(corners[0] as number, (corners[1] as number) + down * unit);
  for (let k = 2; k < corners.length; k += 2) surface.lineTo(corners[k] as number, (corners[k + 1] as number) + down * unit);
  surface.lineCap = "round";
  surface.lineJoin = "round";
  surface.lineWidth = width * unit;
  surface.strokeStyle = colour;
  withAlpha(surface, alpha, () => surface.stroke());
  surface.restore();
}

function roundEnd(pen: Pen, share: number, width: number): void {
  const { surface, line, unit, theme } = pen;
  disc(surface, Math.round(line.x(share)), line.y(share), (width / 2) * unit);
  surface.fillStyle = theme.ink;
  surface.fill();
}

function dash({ surface, unit, theme }: Pen, x: number, y: number): void {
  for (const [width, colour, alpha] of [
    [THIN + 3, theme.halo, theme.haloAlpha],
    [THIN, theme.ink, 1],
  ] as const) {
    surface.beginPath();
    surface.moveTo(x - (DASH * unit) / 2, y);
    surface.lineTo(x + (DASH * unit) / 2, y);
    surface.lineCap = "round";
    surface.lineWidth = width * unit;
    surface.strokeStyle = colour;
    withAlpha(surface, alpha, () => surface.stroke());
  }
}

/** Calls at even steps that stand still while the run grows. */
function eachStep(line: RoadLine, run: ThreadRun, stepPx: number, take: (x: number, y: number) => void): void {
  const from = line.x(run.from);
  const to = line.x(run.to);
  const origin = line.x(0);
  for (let k = Math.floor((from - origin) / stepPx) + 1; ; k += 1) {
    const x = origin + (k - 0.3) * stepPx;
    if (x > to - 0.3 * stepPx) return;
    if (x > from + 0.3 * stepPx) take(x, line.y((x - origin) / (line.x(1) - origin)));
  }
}

function dot(surface: Surface, x: number, y: number, radius: number, colour: string, unit: number, theme: Theme): void {
  disc(surface, x, y, radius + 1.5 * unit);
  surface.fillStyle = theme.halo;
  withAlpha(surface, 0.85, () => surface.fill());
  disc(surface, x, y, radius);
  surface.fillStyle = colour;
  surface.fill();
}

function disc(surface: Surface, x: number, y: number, radius: number): void {
  surface.beginPath();
  surface.arc(x, y, radius, 0, 2 * Math.PI);
}

/** A sewing needle, its eye at the thread's end, its point ahead. */
function drawNeedle({ surface, line, unit, theme }: Pen, share: number): void {
  surface.save();
  surface.translate(line.x(share), line.y(share));
  surface.rotate(line.lean(share));
  surface.scale(unit, unit);
  traceNeedle(surface);
  surface.lineJoin = "round";
  surface.lineWidth = 3.2;
  surface.strokeStyle = theme.halo;
  withAlpha(surface, 0.85, () => surface.stroke());
  surface.fillStyle = theme.ink;
  surface.fill();
  traceEye(surface);
  surface.fillStyle = theme.halo;
  surface.fill();
  surface.restore();
}
