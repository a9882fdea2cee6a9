import type { FrameStarts } from "../../main/contract/columnBytes.ts";

/** Binary fractions may fall this far short of a time that they stand for, s. */
const ROUNDING_S = 1e-6;

/** The frame shown at a clip time; the first before it, the last after it. */
export function frameAt(starts: FrameStarts, mediaS: number): number {
  let low = 0;
  let high = starts.length - 2;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (starts[middle]! <= mediaS + ROUNDING_S) low = middle;
    else high = middle - 1;
  }
  return Math.max(0, low);
}

/** The frame whose own time is nearest: browsers name a shown frame by its time, rounded their own way. */
export function frameNearest(starts: FrameStarts, mediaS: number): number {
  const frame = frameAt(starts, mediaS);
  return frame + 1 < starts.length - 1 && starts[frame + 1]! - mediaS < mediaS - starts[frame]! ? frame + 1 : frame;
}

/** The middle of a frame, s: a seek to its edge lands one frame early in almost half of all cases. */
export function middleOf(starts: FrameStarts, frame: number): number {
  return (starts[frame]! + starts[frame + 1]!) / 2;
}
