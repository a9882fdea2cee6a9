import type { PathLike } from "../surface.ts";

/** Length of the needle, in units of the type scale. */
export const NEEDLE_LENGTH = 46;
const HALF = 4.6;

/** Begins a path: the needle's outline, its thread end at the origin, its point to the right. Units of the type scale. */
export function traceNeedle(path: PathLike & { beginPath(): void }): void {
  path.beginPath();
  path.moveTo(0, 0);
  path.bezierCurveTo(1, -HALF, 9, -HALF, 15, -HALF + 0.5);
  path.bezierCurveTo(26, -HALF + 1.6, 38, -1.2, NEEDLE_LENGTH, 0);
  path.bezierCurveTo(38, 1.2, 26, HALF - 1.6, 15, HALF - 0.5);
  path.bezierCurveTo(9, HALF, 1, HALF, 0, 0);
  path.closePath();
}

/** Begins a path: the needle's eye. */
export function traceEye(path: PathLike & { beginPath(): void }): void {
  path.beginPath();
  path.moveTo(3.5, 0);
  path.bezierCurveTo(6, -2.2, 11, -2.2, 14, 0);
  path.bezierCurveTo(11, 2.2, 6, 2.2, 3.5, 0);
  path.closePath();
}
