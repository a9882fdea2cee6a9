import { CAP_HEIGHT, drawText, textWidthPx, wrapText, type TextStyle } from "../drawText.ts";
import type { Layout } from "../layout/layout.ts";
import type { Rect, Surface } from "../surface.ts";
import { fixedText } from "../words/numbers.ts";
import { phrasesFor } from "../words/phrases.ts";

const LINE_HEIGHT = 1.16;
/** Captions are set smaller before a line is cut; never below this share of their size. */
const LEAST_SIZE = 0.6;

/** A caption at the foot of its area, as large as it fits. */
export function paintCaption(surface: Surface, area: Rect, caption: string, layout: Layout): void {
  if (caption === "") return;
  const { type } = layout;
  const inset = 10 * type.unitPx;
  const { style, lines } = fittedCaption(surface, caption, area.width - 2 * inset, area.height, type.captionPx);
  const lineHeight = style.sizePx * LINE_HEIGHT;
  lines.forEach((line, k) => {
    const y = area.y + area.height - 9 * type.unitPx - (lines.length - 1 - k) * lineHeight;
    drawShaded(surface, line, area.x + inset, Math.round(y), style, layout);
  });
}

function fittedCaption(
  surface: Surface,
  caption: string,
  width: number,
  height: number,
  fullPx: number,
): { readonly style: TextStyle; readonly lines: readonly string[] } {
  for (let share = 1; ; share -= 0.05) {
    const style: TextStyle = { sizePx: fullPx * share, weight: "strong" };
    const lines = wrapText(caption, style, width, surface);
    const fits =
      lines.length * style.sizePx * LINE_HEIGHT <= height && lines.every((line) => textWidthPx(line, style, surface) <= width);
    if (fits || share <= LEAST_SIZE) return { style, lines };
  }
}

/** The rider's name and the speed factor, at the right end of the head line. */
export function paintTag(surface: Surface, area: Rect, speed: number, rider: string, layout: Layout): void {
  const { type, options } = layout;
  const { numbers } = phrasesFor(options.language);
  const decimals = Number.isInteger(speed) ? 0 : speed < 1 ? 2 : 1;
  const factor = speed === 1 ? "" : `${fixedText(speed, decimals, numbers)} \u00d7`;
  const style: TextStyle = { sizePx: type.tagPx, weight: "strong" };
  const text = [rider, factor].filter((part) => part !== "").join("   ");
  const inset = 10 * type.unitPx;
  const right = area.x + area.width - inset;
  const shrink = Math.min(1, (area.width - 2 * inset) / Math.max(1, textWidthPx(text, style, surface)));
  const y = Math.round(area.y + area.height / 2 + (CAP_HEIGHT * type.tagPx) / 2);
  drawShaded(surface, text, right, y, { ...style, sizePx: style.sizePx * shrink }, layout, "right");
}

/** Widths of the shade on each side, in units of the type scale, wide to narrow, and the alpha of each. */
const SHADE: readonly (readonly [number, number])[] = [
  [9, 0.08],
  [7, 0.1],
  [5, 0.16],
  [3.6, 0.24],
  [2.2, 0.42],
];

/** Text that stands where the scrim is still thin: the picture is darkened around its letters, softly. */
function drawShaded(
  surface: Surface,
  text: string,
  x: number,
  y: number,
  style: TextStyle,
  layout: Layout,
  align: "left" | "right" = "left",
): void {
  const { type, theme } = layout;
  for (const [width, alpha] of SHADE) {
    const shade = { ink: theme.ink, inkAlpha: 0, halo: theme.halo, haloAlpha: alpha, haloPx: width * type.unitPx };
    drawText(surface, text, x, y, style, shade, align);
  }
  drawText(surface, text, x, y, style, { ink: theme.ink }, align);
}
