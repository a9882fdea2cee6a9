import { withAlpha } from "../drawText.ts";
import type { ThreadPage } from "../instant/threadPageAt.ts";
import type { TypeScale } from "../layout/typeScale.ts";
import type { Rect, Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import { drawMarks, isDrawn, type RoadStroke, strokesOf, type ThreadPen, threadPen } from "./paintThread.ts";

/**
 * Draws the thread of a page that stands still, without its needle: what `paintThread` draws, but all strokes of a kind
 * in one path. A page of many runs takes a fraction of the time so; it can't grow step by step, as `paintThread`'s can.
 *
 * @param rect the thread's whole rectangle, px
 */
export function paintStandingThread(
  surface: Surface,
  rect: Rect,
  page: ThreadPage,
  type: TypeScale,
  theme: Theme,
): void {
  const pen = threadPen(surface, rect, page, type, theme);
  const strokes = page.runs.map((run) => (isDrawn(run) ? strokesOf(pen, run) : []));
  for (const layer of [strokes.flatMap((some) => some.slice(0, 1)), strokes.flatMap((some) => some.slice(1))]) {
    const kinds = new Map<string, [RoadStroke, ...RoadStroke[]]>();
    for (const one of layer) {
      const kind = `${one.down} ${one.width}`;
      const others = kinds.get(kind);
      if (others === undefined) kinds.set(kind, [one]);
      else others.push(one);
    }
    for (const kind of kinds.values()) fillRibbons(pen, kind);
  }
  page.runs.forEach((run, k) => drawMarks(pen, run, page.runs[k - 1], page.runs[k + 1]));
}

/** Strokes of one kind as one shape: along the road as wide as the stroke, cut upright between whole columns of pixels. */
function fillRibbons(pen: ThreadPen, strokes: readonly [RoadStroke, ...RoadStroke[]]): void {
  const { surface, line, unit } = pen;
  const [{ down, width, colour, alpha }] = strokes;
  const { rect } = line;
  surface.beginPath();
  for (const { fromX, toX } of strokes) {
    const from = Math.max(rect.x, Math.round(fromX));
    const to = Math.min(rect.x + rect.width, Math.round(toX));
    if (to > from) traceRibbon(pen, from, to, down * unit, width * unit);
  }
  surface.fillStyle = colour;
  withAlpha(surface, alpha, () => surface.fill());
}

function traceRibbon({ surface, line }: ThreadPen, from: number, to: number, down: number, width: number): void {
  const all = line.corners(from, to);
  const xs = [from];
  for (let c = 0; c < all.length; c += 2) if (all[c]! > from && all[c]! < to) xs.push(all[c]!);
  xs.push(to);
  const ys = xs.map((x) => line.y(line.shareAt(x)) + down);
  // Measured across the road a stroke is as wide everywhere: upright it is higher where the road is steep.
  const slopes = xs.slice(1).map((x, k) => Math.abs((ys[k + 1]! - ys[k]!) / (x - xs[k]!)));
  const halves = xs.map((_, k) => {
    const before = slopes[Math.max(0, k - 1)]!;
    const after = slopes[Math.min(slopes.length - 1, k)]!;
    return (width / 2) * Math.hypot(1, (before + after) / 2);
  });
  surface.moveTo(xs[0]!, ys[0]! - halves[0]!);
  for (let k = 1; k < xs.length; k++) surface.lineTo(xs[k]!, ys[k]! - halves[k]!);
  for (let k = xs.length - 1; k >= 0; k--) surface.lineTo(xs[k]!, ys[k]! + halves[k]!);
  surface.closePath();
}
