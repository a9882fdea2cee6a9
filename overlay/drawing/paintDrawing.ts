import { drawText, withAlpha, type TextStyle } from "../drawText.ts";
import { unitPxFor } from "../layout/typeScale.ts";
import { traceDisc, traceLine } from "../shapes.ts";
import type { Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import type { Drawing } from "../../main/contract/drawing.ts";

/** Sizes in units of the type scale. */
const LINE = 6;
const HALO = 4;
const ARROW_HEAD = 34;
/** Read on a phone, over snow too, where a light letter lives by its halo. */
const TEXT = 48;
const TEXT_HALO = 5;
const HALO_ALPHA = 0.9;

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Size of the letters of words on a picture so many times as wide as high, share of its width. */
export function wordsEmShare(aspect: number): number {
  return (TEXT * unitPxFor(aspect, 1)) / aspect;
}

/** Draws a coach's drawing on the whole picture, whose top left corner is the surface's origin: ink with a halo, so that it reads on anything. */
export function paintDrawing(
  surface: Surface,
  drawing: Drawing,
  size: { readonly width: number; readonly height: number },
  theme: Theme,
): void {
  const unit = unitPxFor(size.width, size.height);
  const points = drawing.points.map((point) => ({ x: point.x * size.width, y: point.y * size.height }));
  const [start, end] = points;
  if (start === undefined) return;
  switch (drawing.shape) {
    case "text":
      return drawWords(surface, drawing.text ?? "", start, unit, theme);
    case "free":
      return inkTwice(surface, unit, theme, () => traceFree(surface, points));
    case "line":
      if (end !== undefined) inkTwice(surface, unit, theme, () => traceLine(surface, start.x, start.y, end.x, end.y));
      return;
    case "arrow":
      if (end !== undefined) inkTwice(surface, unit, theme, () => traceArrow(surface, start, end, ARROW_HEAD * unit));
      return;
    case "ring":
      if (end !== undefined) inkTwice(surface, unit, theme, () => traceRing(surface, start, end));
      return;
  }
}

function drawWords(surface: Surface, text: string, start: Point, unit: number, theme: Theme): void {
  const style: TextStyle = { sizePx: TEXT * unit, weight: "strong" };
  drawText(surface, text, start.x, start.y, style, {
    ink: theme.ink,
    halo: theme.halo,
    haloAlpha: HALO_ALPHA,
    haloPx: TEXT_HALO * unit,
  });
}

function inkTwice(surface: Surface, unit: number, theme: Theme, trace: () => void): void {
  surface.lineCap = "round";
  surface.lineJoin = "round";
  surface.beginPath();
  trace();
  surface.lineWidth = (LINE + 2 * HALO) * unit;
  surface.strokeStyle = theme.halo;
  withAlpha(surface, HALO_ALPHA, () => surface.stroke());
  surface.lineWidth = LINE * unit;
  surface.strokeStyle = theme.ink;
  surface.stroke();
}

function traceArrow(surface: Surface, start: Point, end: Point, headPx: number): void {
  const angle = Math.atan2(end.y - start.y, end.x - start.x);
  const head = Math.min(headPx, 0.6 * Math.hypot(end.x - start.x, end.y - start.y));
  traceLine(surface, start.x, start.y, end.x, end.y);
  for (const side of [-1, 1]) {
    traceLine(
      surface,
      end.x,
      end.y,
      end.x - head * Math.cos(angle + side * 0.5),
      end.y - head * Math.sin(angle + side * 0.5),
    );
  }
}

function traceRing(surface: Surface, centre: Point, on: Point): void {
  traceDisc(surface, centre.x, centre.y, Math.hypot(on.x - centre.x, on.y - centre.y));
}

/** Curves through the middles of the strokes, so that a shaky hand looks calm. */
function traceFree(surface: Surface, points: readonly Point[]): void {
  const first = points[0]!;
  surface.moveTo(first.x, first.y);
  if (points.length === 1) surface.lineTo(first.x + 0.01, first.y);
  for (let k = 1; k < points.length; k += 1) {
    const point = points[k]!;
    const next = points[k + 1];
    if (next === undefined) surface.lineTo(point.x, point.y);
    else surface.quadraticCurveTo(point.x, point.y, (point.x + next.x) / 2, (point.y + next.y) / 2);
  }
}
