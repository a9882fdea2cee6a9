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

/** How far the drawing reaches left and right of the thread's end, in units of the type scale. */
export const THREAD_END_REACH = { before: 2 * DOT + 4, after: NEEDLE_LENGTH + 4 } as const;

/** Where a share of the page lies in the thread's rectangle, px. */
export function threadX(rect: Rect, share: number, type: TypeScale): number {
  const unit = type.unitPx;
  return rect.x + PAD_X * unit + share * (rect.width - (2 * PAD_X + NEEDLE_LENGTH) * unit);
}

/**
 * Draws the thread: solid and firm in the band, thin below it, doubled above it; gone, with round ends, where pressure
 * was off; bridged by small dots where that is excused and by short dashes where nobody can tell. At its end the needle.
 */
export function paintThread(surface: Surface, rect: Rect, page: ThreadPage, type: TypeScale, theme: Theme): void {
  const line = new RoadLine(rect, page, type);
  surface.lineJoin = "round";
  for (const { from, to, bed } of beds(page.runs)) {
    stroke(surface, line.points(from, to), 0, bed * type.unitPx, "round", theme.halo, theme.haloAlpha);
  }
  page.runs.forEach((run, k) => {
    const before = page.runs[k - 1];
    const after = page.runs[k + 1];
    drawRun(surface, line, run, { opensThread: before === undefined, closed: after !== undefined }, type, theme);
  });
  if (page.runs.length > 0) drawNeedle(surface, line, page.drawnTo, type, theme);
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

  /** Corners of the road between two shares, x and y in turn. */
  points(from: number, to: number): number[] {
    const steps = this.page.heights.length - 1;
    const corners = [this.x(from), this.y(from)];
    for (let k = Math.floor(from * steps) + 1; k < to * steps; k += 1) corners.push(this.x(k / steps), this.y(k / steps));
    corners.push(this.x(to), this.y(to));
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

/** The dark bed that the thread lies in, in as few pieces as its width allows, so that no joint is darker. */
function beds(runs: readonly ThreadRun[]): { from: number; to: number; bed: number }[] {
  const pieces: { from: number; to: number; bed: number }[] = [];
  for (const run of runs) {
    if (run.stroke !== "below" && run.stroke !== "in" && run.stroke !== "above") continue;
    const bed = run.stroke === "below" ? THIN_BED : BED;
    const last = pieces.at(-1);
    if (last !== undefined && last.to === run.from && last.bed === bed) last.to = run.to;
    else pieces.push({ from: run.from, to: run.to, bed });
  }
  return pieces;
}

function drawRun(
  surface: Surface,
  line: RoadLine,
  run: ThreadRun,
  ends: { readonly opensThread: boolean; readonly closed: boolean },
  type: TypeScale,
  theme: Theme,
): void {
  const unit = type.unitPx;
  const points = (): number[] => line.points(run.from, run.to);
  switch (run.stroke) {
    case "unknown":
      return;
    case "in":
      return stroke(surface, points(), 0, FIRM * unit, "round", theme.ink);
    case "below":
      return stroke(surface, points(), 0, THIN * unit, "round", theme.ink);
    case "above":
      stroke(surface, points(), -STRAND_OFFSET * unit, STRAND * unit, "round", theme.above);
      return stroke(surface, points(), STRAND_OFFSET * unit, STRAND * unit, "round", theme.above);
    case "off":
      if (!ends.opensThread) dot(surface, line.x(run.from), line.y(run.from), DOT * unit, theme.off, type, theme);
      if (ends.closed) dot(surface, line.x(run.to), line.y(run.to), DOT * unit, theme.off, type, theme);
      return;
    case "off excused":
      return eachStep(line, run, SMALL_DOT_STEP * unit, (x, y) => dot(surface, x, y, SMALL_DOT * unit, theme.ink, type, theme));
    case "off unclear":
      return eachStep(line, run, DASH_STEP * unit, (x, y) => {
        const dash = [x - (DASH * unit) / 2, y, x + (DASH * unit) / 2, y];
        stroke(surface, dash, 0, (THIN + 3) * unit, "round", theme.halo, theme.haloAlpha);
        stroke(surface, dash, 0, THIN * unit, "round", theme.ink);
      });
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

function stroke(
  surface: Surface,
  points: readonly number[],
  dy: number,
  widthPx: number,
  cap: "butt" | "round",
  colour: string,
  alpha = 1,
): void {
  surface.beginPath();
  surface.moveTo(points[0] as number, (points[1] as number) + dy);
  for (let k = 2; k < points.length; k += 2) surface.lineTo(points[k] as number, (points[k + 1] as number) + dy);
  surface.lineCap = cap;
  surface.lineWidth = widthPx;
  surface.strokeStyle = colour;
  withAlpha(surface, alpha, () => surface.stroke());
}

function dot(surface: Surface, x: number, y: number, radius: number, colour: string, type: TypeScale, theme: Theme): void {
  disc(surface, x, y, radius + 1.5 * type.unitPx);
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
function drawNeedle(surface: Surface, line: RoadLine, share: number, type: TypeScale, theme: Theme): void {
  const unit = type.unitPx;
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
