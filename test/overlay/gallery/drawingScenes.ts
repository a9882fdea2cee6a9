import type { Drawing } from "../../../main/contract/drawing.ts";
import { paintDrawing } from "../../../overlay/drawing/paintDrawing.ts";
import { darkInk, lightInk } from "../../../overlay/theme.ts";
import type { Scene } from "./scene.ts";

const span = { text: null, startS: 0, endS: 4 };
const drawings: readonly Drawing[] = [
  {
    ...span,
    shape: "arrow",
    points: [
      { x: 0.15, y: 0.3 },
      { x: 0.32, y: 0.5 },
    ],
  },
  {
    ...span,
    shape: "ring",
    points: [
      { x: 0.5, y: 0.4 },
      { x: 0.57, y: 0.4 },
    ],
  },
  {
    ...span,
    shape: "line",
    points: [
      { x: 0.68, y: 0.25 },
      { x: 0.85, y: 0.6 },
    ],
  },
  {
    ...span,
    shape: "free",
    points: Array.from({ length: 40 }, (_, k) => ({ x: 0.1 + k * 0.02, y: 0.78 + 0.05 * Math.sin(k / 4) })),
  },
  { ...span, shape: "text", text: "Look through the bend", points: [{ x: 0.36, y: 0.2 }] },
];

/** All shapes of a coach's drawing. */
export const drawingScenes: readonly Scene[] = (
  [
    ["light", lightInk, "leaves"],
    ["dark", darkInk, "snow"],
  ] as const
).map(([name, theme, ground]) => ({
  name: `drawing-${name}`,
  gallery: [1920, 1080],
  golden: [640, 360],
  ground,
  tolerance: 0,
  paint: (context, width, height) => {
    for (const drawing of drawings) paintDrawing(context, drawing, { width, height }, theme);
  },
}));
