import type { ThreadPage } from "../instant/threadPageAt.ts";
import type { TypeScale } from "../layout/typeScale.ts";
import type { Rect } from "../surface.ts";
import { NEEDLE_LENGTH } from "./needle.ts";

/** Room about the thread in its rectangle, in units of the type scale. */
const PAD_X = 10;
const PAD_Y = 15;

/** The needle leans with the road at most so far, so that it stays in the thread's strip. */
const MOST_LEAN_RAD = 0.3;

/** The page's road on screen: where a share of the page lies, px. */
export class RoadLine {
  readonly rect: Rect;
  private readonly heights: Float64Array;
  private readonly unitPx: number;

  constructor(rect: Rect, page: ThreadPage, type: TypeScale) {
    this.rect = rect;
    this.heights = page.heights;
    this.unitPx = type.unitPx;
  }

  x(share: number): number {
    return this.rect.x + PAD_X * this.unitPx + share * (this.rect.width - (2 * PAD_X + NEEDLE_LENGTH) * this.unitPx);
  }

  y(share: number): number {
    const { heights } = this;
    const at = Math.max(0, Math.min(1, share)) * (heights.length - 1);
    const k = Math.min(heights.length - 2, Math.floor(at));
    const low = heights[k]!;
    const height = low + (heights[k + 1]! - low) * (at - k);
    const pad = PAD_Y * this.unitPx;
    return this.rect.y + this.rect.height - pad - height * (this.rect.height - 2 * pad);
  }

  /** The share that lies at an x. */
  shareAt(x: number): number {
    return (x - this.x(0)) / (this.x(1) - this.x(0));
  }

  /** Corners of the road between two x, and two more on either side; x and y in turn. */
  corners(left: number, right: number): number[] {
    const steps = this.heights.length - 1;
    const first = Math.max(0, Math.floor(this.shareAt(left) * steps) - 2);
    const last = Math.min(steps, Math.ceil(this.shareAt(right) * steps) + 2);
    const corners: number[] = [];
    for (let k = first; k <= last; k += 1) corners.push(this.x(k / steps), this.y(k / steps));
    return corners;
  }

  /** Lean of the road, radians, positive where it falls. */
  leanRad(share: number): number {
    const reach = 1.5 / (this.heights.length - 1);
    const from = Math.max(0, share - reach);
    const to = Math.min(1, share + reach);
    const lean = Math.atan2(this.y(to) - this.y(from), this.x(to) - this.x(from));
    return Math.max(-MOST_LEAN_RAD, Math.min(MOST_LEAN_RAD, lean));
  }
}
