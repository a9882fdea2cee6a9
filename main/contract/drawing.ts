/** A coach's drawing on the picture. Points are shares of picture width and height, 0 to 1, so any size fits. */
export interface Drawing {
  readonly shape: "arrow" | "ring" | "line" | "free" | "text";
  /** Arrow and line: start, end. Ring: centre, a point on it. Free: the stroke. Text: its left end. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly text: string | null;
  /** Shown from and until, s from the item's start on film. */
  readonly startS: number;
  readonly endS: number;
}

/** Whether a drawing shows at a time, s from the item's start on film. */
export function drawingShows(drawing: Drawing, itemS: number): boolean {
  return itemS >= drawing.startS && itemS < drawing.endS;
}
