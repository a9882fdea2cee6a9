import type { Drawing } from "../../main/contract/film.ts";
import { wordsEmShare } from "../../overlay/drawing/paintDrawing.ts";

export type Shape = Drawing["shape"];
export type Point = Drawing["points"][number];

/** So near counts as on the drawing, shares of the picture's width. */
const REACH = 0.025;
/** Points of a free stroke closer than this are left out, share of the picture. */
const FREE_STEP = 0.004;

/** A shape in the middle of the picture, for those who draw by keys. */
export function startingShape(shape: Shape): readonly Point[] {
  if (shape === "text") return [{ x: 0.4, y: 0.4 }];
  if (shape === "ring")
    return [
      { x: 0.5, y: 0.4 },
      { x: 0.58, y: 0.4 },
    ];
  if (shape === "free") return Array.from({ length: 9 }, (_, k) => ({ x: 0.4 + k * 0.025, y: 0.4 + (k % 2) * 0.03 }));
  return [
    { x: 0.36, y: 0.56 },
    { x: 0.5, y: 0.42 },
  ];
}

/** The points while a pointer draws from its first place to where it is now. */
export function drawnTo(shape: Shape, points: readonly Point[], to: Point): readonly Point[] {
  if (shape === "text") return [to];
  if (shape !== "free") return [points[0]!, to];
  const last = points[points.length - 1]!;
  return Math.hypot(to.x - last.x, to.y - last.y) < FREE_STEP ? points : [...points, to];
}

/** Moved as a whole, never out of the picture. */
export function movedShape(points: readonly Point[], byX: number, byY: number): readonly Point[] {
  const xs = points.map(({ x }) => x);
  const ys = points.map(({ y }) => y);
  const dx = Math.max(-Math.min(...xs), Math.min(1 - Math.max(...xs), byX));
  const dy = Math.max(-Math.min(...ys), Math.min(1 - Math.max(...ys), byY));
  return points.map(({ x, y }) => ({ x: x + dx, y: y + dy }));
}

/** With its end moved: an arrow's tip, a ring's size. */
export function endMoved(points: readonly Point[], byX: number, byY: number): readonly Point[] {
  if (points.length !== 2) return movedShape(points, byX, byY);
  const keep = (value: number) => Math.max(0, Math.min(1, value));
  return [points[0]!, { x: keep(points[1]!.x + byX), y: keep(points[1]!.y + byY) }];
}

/** The drawing at a place among those that show, the last drawn first; -1: none. */
export function drawingAt(
  drawings: readonly Drawing[],
  shows: (drawing: Drawing) => boolean,
  at: Point,
  aspect: number,
): number {
  return drawings.findLastIndex((one) => shows(one) && distance(one, at, aspect) <= REACH);
}

/** Distance in shares of the picture's width. */
function distance({ shape, points, text }: Drawing, at: Point, aspect: number): number {
  const flat = ({ x, y }: Point): Point => ({ x, y: y / aspect });
  const p = flat(at);
  const all = points.map(flat);
  if (shape === "text") {
    // A letter of this face is on average 0.42 as wide as the size of the letters, and stands on the point's line.
    const em = wordsEmShare(aspect);
    const wide = 0.42 * em * (text ?? "").length;
    return Math.max(0, all[0]!.x - p.x, p.x - all[0]!.x - wide, Math.abs(p.y - all[0]!.y + 0.4 * em) - 0.5 * em);
  }
  if (shape === "ring")
    return Math.abs(
      Math.hypot(p.x - all[0]!.x, p.y - all[0]!.y) - Math.hypot(all[1]!.x - all[0]!.x, all[1]!.y - all[0]!.y),
    );
  let least = Infinity;
  for (let k = 1; k < all.length; k++) least = Math.min(least, toLine(p, all[k - 1]!, all[k]!));
  return least;
}

function toLine(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const along = Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(p.x - a.x - along * dx, p.y - a.y - along * dy);
}
