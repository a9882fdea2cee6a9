import type { PathLike } from "../surface.ts";

/** Length of the needle, in units of the type scale. */
export const NEEDLE_LENGTH = 46;

/** Where the needle lies: its thread end, its lean (radians, positive downwards) and the unit of the type scale, px. */
export interface NeedlePose {
  readonly x: number;
  readonly y: number;
  readonly leanRad: number;
  readonly unitPx: number;
}

/** Half of the needle's outline, from its thread end to its point: curves of three points, x along it and y across. */
const OUTLINE: readonly (readonly number[])[] = [
  [1, -4.6, 9, -4.6, 15, -4.1],
  [26, -3, 38, -1.2, NEEDLE_LENGTH, 0],
];
const OUTLINE_BACK: readonly (readonly number[])[] = [
  [38, 1.2, 26, 3, 15, 4.1],
  [9, 4.6, 1, 4.6, 0, 0],
];
const EYE: readonly (readonly number[])[] = [
  [6, -2.2, 11, -2.2, 14, 0],
  [11, 2.2, 6, 2.2, 3.5, 0],
];

/** Adds the needle's outline to the path. */
export function traceNeedle(path: PathLike, pose: NeedlePose): void {
  trace(path, pose, [0, 0], [...OUTLINE, ...OUTLINE_BACK]);
}

/** Adds the needle's eye to the path. */
export function traceEye(path: PathLike, pose: NeedlePose): void {
  trace(path, pose, [3.5, 0], EYE);
}

/** Turned and sized here and not by the surface, whose own arithmetic differs from one canvas to another. */
function trace(
  path: PathLike,
  pose: NeedlePose,
  start: readonly number[],
  curves: readonly (readonly number[])[],
): void {
  const along = pose.unitPx * Math.cos(pose.leanRad);
  const across = pose.unitPx * Math.sin(pose.leanRad);
  const x = (point: readonly number[], k: number): number => pose.x + point[k]! * along - point[k + 1]! * across;
  const y = (point: readonly number[], k: number): number => pose.y + point[k]! * across + point[k + 1]! * along;
  path.moveTo(x(start, 0), y(start, 0));
  for (const curve of curves)
    path.bezierCurveTo(x(curve, 0), y(curve, 0), x(curve, 2), y(curve, 2), x(curve, 4), y(curve, 4));
  path.closePath();
}
