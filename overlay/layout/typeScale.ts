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

/** The scale at a unit. */
export function typeScale(unitPx: number): TypeScale {
  return {
    unitPx,
    labelPx: 20 * unitPx,
    figurePx: 52 * unitPx,
    mainFigurePx: 70 * unitPx,
    unitTextPx: 23 * unitPx,
    notePx: 18 * unitPx,
    captionPx: 32 * unitPx,
    tagPx: 26 * unitPx,
    haloPx: 1.6 * unitPx,
  };
}
