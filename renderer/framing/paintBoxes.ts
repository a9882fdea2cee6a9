import type { PictureBox } from "../../overlay/instant/closeUpAt.ts";
import type { Theme } from "../../overlay/theme.ts";
import type { BoxDraft } from "./FrameLayer.tsx";
import { cornersOf } from "./framingEdits.ts";

/** Sizes in px of the page. */
const LINE = 2;
const HANDLE = 5;

/**
 * Outlines of the boxes that a hand can take, with handles on the picked one.
 *
 * @param place where the picture lies on the canvas, shares of it @param outside true: what lies outside the box is dimmed
 */
export function paintBoxes(
  context: CanvasRenderingContext2D,
  size: { readonly width: number; readonly height: number },
  place: PictureBox,
  boxes: readonly BoxDraft[],
  picked: number | null,
  theme: Theme,
  outside: boolean,
): void {
  const ratio = window.devicePixelRatio;
  const x = (share: number): number => (place.x + share * place.width) * size.width;
  const y = (share: number): number => (place.y + share * place.height) * size.height;
  context.save();
  for (const { index, box } of boxes) {
    const [left, top, right, bottom] = [x(box.x), y(box.y), x(box.x + box.width), y(box.y + box.height)];
    if (outside) {
      context.fillStyle = "rgba(0, 0, 0, 0.5)";
      context.beginPath();
      context.rect(x(0), y(0), x(1) - x(0), y(1) - y(0));
      context.rect(left, top, right - left, bottom - top);
      context.fill("evenodd");
    }
    const chosen = index === picked;
    for (const [ink, widthPx] of [
      [theme.halo, LINE + 2],
      [theme.ink, LINE],
    ] as const) {
      context.strokeStyle = ink;
      context.lineWidth = (chosen ? widthPx : widthPx / 2) * ratio;
      context.strokeRect(left, top, right - left, bottom - top);
    }
    if (!chosen) continue;
    for (const corner of cornersOf(box)) {
      const reach = HANDLE * ratio;
      context.fillStyle = theme.halo;
      context.fillRect(
        x(corner.x) - reach - ratio,
        y(corner.y) - reach - ratio,
        2 * (reach + ratio),
        2 * (reach + ratio),
      );
      context.fillStyle = theme.ink;
      context.fillRect(x(corner.x) - reach, y(corner.y) - reach, 2 * reach, 2 * reach);
    }
  }
  context.restore();
}
