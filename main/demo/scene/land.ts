/** What lies beside the road, as a fixed function of the distance: fields, their edges, woods. */
import type { Course } from "../course.ts";
import type { Rgb } from "./colour.ts";
import { hash01 } from "./hashNoise.ts";

export type Edge = "hedge" | "rails" | "wall" | "open";

/** Every field is as long as this, m, along the road. */
export const FIELD_M = 110;

const CROPS: readonly Rgb[] = [
  [122, 158, 78],
  [146, 172, 88],
  [206, 190, 104],
  [104, 140, 72],
  [158, 128, 92],
  [176, 184, 108],
  [222, 202, 74],
  [132, 164, 92],
];

/** Colour of the field at a block of `FIELD_M`; `side` is -1 left, 1 right. */
export function fieldColour(block: number, side: number): Rgb {
  return CROPS[Math.floor(hash01(block, 30 + side) * CROPS.length)]!;
}

/** What stands between verge and field. */
export function fieldEdge(block: number, side: number): Edge {
  const h = hash01(Math.floor(block / 2), 40 + side);
  return h < 0.4 ? "hedge" : h < 0.68 ? "rails" : h < 0.84 ? "wall" : "open";
}

/** True inside a wood. */
export function inWood(road: Course, distanceM: number): boolean {
  return road.woods.some((w) => distanceM >= w.startM && distanceM <= w.endM);
}

/** True where nothing may stand beside the road: about the level crossing's rails. */
export function keptClear(road: Course, distanceM: number): boolean {
  return Math.abs(distanceM - road.railsM) < 16;
}
