/** The one type scale: every size of panels and captions, px. */
export interface TypeScale {
  /** One 720th of a landscape picture's height, times the wished scale; all lengths are multiples of it. */
  readonly unitPx: number;
  readonly labelPx: number;
  readonly figurePx: number;
  /** Power: what the ride is about. */
  readonly mainFigurePx: number;
  readonly unitTextPx: number;
  readonly notePx: number;
  readonly captionPx: number;
  readonly tagPx: number;
  /** Dark outline around text, each side. */
  readonly haloPx: number;
}

/** Landscape (16:9 and the like), about as high as wide, or upright (9:16). */
export type Shape = "wide" | "square" | "upright";

/** The shape of a picture. */
export function shapeOf(widthPx: number, heightPx: number): Shape {
  if (widthPx > 1.3 * heightPx) return "wide";
  return widthPx < 0.8 * heightPx ? "upright" : "square";
}

/** The unit at scale 1: a 720th of a landscape picture's height; on other shapes as large as their columns carry. */
export function unitPxFor(widthPx: number, heightPx: number): number {
  switch (shapeOf(widthPx, heightPx)) {
    case "wide":
      return Math.min(heightPx / 720, widthPx / 1180);
    case "square":
      return Math.min(widthPx, heightPx) / 760;
    case "upright":
      return widthPx / 600;
  }
}

/** The scale at a unit. */
export function typeScale(unitPx: number): TypeScale {
  return {
    unitPx,
    labelPx: 24 * unitPx,
    figurePx: 55 * unitPx,
    mainFigurePx: 67 * unitPx,
    unitTextPx: 25 * unitPx,
    notePx: 22 * unitPx,
    captionPx: 32 * unitPx,
    tagPx: 26 * unitPx,
    haloPx: 1.6 * unitPx,
  };
}
