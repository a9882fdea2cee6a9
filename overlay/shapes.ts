import type { PathLike } from "./surface.ts";

// Canvases have shortcuts of their own for arcs and single lines, and their edges differ there by a few levels of 255.
// Cubics and broken lines are drawn alike everywhere.

/** Handle of a cubic that follows a quarter circle to 0.03 % of its radius: 4/3 tan(pi/8). */
const QUARTER = (4 / 3) * Math.tan(Math.PI / 8);

/** Adds a circle to the path. */
export function traceDisc(path: PathLike, x: number, y: number, radius: number): void {
  const handle = QUARTER * radius;
  path.moveTo(x + radius, y);
  path.bezierCurveTo(x + radius, y + handle, x + handle, y + radius, x, y + radius);
  path.bezierCurveTo(x - handle, y + radius, x - radius, y + handle, x - radius, y);
  path.bezierCurveTo(x - radius, y - handle, x - handle, y - radius, x, y - radius);
  path.bezierCurveTo(x + handle, y - radius, x + radius, y - handle, x + radius, y);
  path.closePath();
}

/** Adds the half of a circle that lies left (-1) or right (1) of its middle to the path. */
export function traceHalfDisc(path: PathLike, x: number, y: number, radius: number, side: -1 | 1): void {
  const handle = QUARTER * radius;
  path.moveTo(x, y + radius);
  path.bezierCurveTo(x + side * handle, y + radius, x + side * radius, y + handle, x + side * radius, y);
  path.bezierCurveTo(x + side * radius, y - handle, x + side * handle, y - radius, x, y - radius);
  path.closePath();
}

/** Adds a straight line to the path. */
export function traceLine(path: PathLike, fromX: number, fromY: number, toX: number, toY: number): void {
  path.moveTo(fromX, fromY);
  path.lineTo((fromX + toX) / 2, (fromY + toY) / 2);
  path.lineTo(toX, toY);
}
