import { drawText, filledLines, textWidthPx, wrapText, type TextStyle } from "../drawText.ts";
import type { Layout } from "../layout/layout.ts";
import type { Rect, Surface } from "../surface.ts";
import { factorText } from "../words/numbers.ts";
import { phrasesFor } from "../words/phrases.ts";

/** What else stands on the picture; absent or null: nothing. */
export interface PanelNotes {
  /** At most 10 words. */
  readonly caption?: string | null;
  /** The shot's speed; shown where it is not 1. */
  readonly speed?: number | null;
  /** Whose numbers these are. */
  readonly rider?: string | null;
  /** The other ride whose numbers stand behind a slash. */
  readonly beside?: string | null;
  /** It is another rider's. */
  readonly otherRider?: boolean;
}

const LINE_HEIGHT = 1.16;
/** Captions are set smaller before a line is cut; never below this share of their size. */
const LEAST_SIZE = 0.6;
/** Lengths in units of the type scale. */
const INSET = 10;
const FOOT = 15;
const TAG_GAP = 24;

/** The caption at the left and, on its last line at the right, the rider's name and the speed factor. */
export function paintHeadLine(surface: Surface, area: Rect, notes: PanelNotes, layout: Layout): void {
  const unit = layout.type.unitPx;
  const left = area.x + INSET * unit;
  const width = area.width - 2 * INSET * unit;
  const foot = Math.round(area.y + area.height - FOOT * unit);
  const tag = tagText(notes, layout);
  const tagStyle = fittedTag(surface, tag, width * 0.4, layout.type.tagPx);
  if (tag !== "") drawShaded(surface, tag, left + width, foot, tagStyle, layout, "right");

  const tagWidth = tag === "" ? 0 : textWidthPx(tag, tagStyle, surface) + TAG_GAP * unit;
  const caption = notes.caption ?? "";
  const room = { width, lastWidth: width - tagWidth, height: area.height - (FOOT + 4) * unit };
  const { style, lines } = fittedCaption(surface, caption, room, layout.type.captionPx);
  lines.forEach((line, k) => {
    const y = Math.round(foot - (lines.length - 1 - k) * style.sizePx * LINE_HEIGHT);
    drawShaded(surface, line, left, y, style, layout, "left");
  });
}

function tagText(notes: PanelNotes, layout: Layout): string {
  const { numbers, now, you } = phrasesFor(layout.options.language);
  const speed = notes.speed ?? 1;
  const own = notes.otherRider === true ? you : now;
  const whose = notes.beside ? `${notes.rider ?? own} / ${notes.beside}` : (notes.rider ?? "");
  return [whose, speed === 1 ? "" : factorText(speed, numbers)].filter((part) => part !== "").join("   ");
}

function fittedTag(surface: Surface, tag: string, widthPx: number, sizePx: number): TextStyle {
  const style: TextStyle = { sizePx, weight: "strong" };
  return { ...style, sizePx: sizePx * Math.min(1, widthPx / Math.max(1, textWidthPx(tag, style, surface))) };
}

/** The caption as large as it fits: in lines of about even length, or else full ones with the rest on the last, beside the tag. */
function fittedCaption(
  surface: Surface,
  caption: string,
  room: { readonly width: number; readonly lastWidth: number; readonly height: number },
  fullPx: number,
): { readonly style: TextStyle; readonly lines: readonly string[] } {
  for (let share = 1; ; share -= 0.05) {
    const style: TextStyle = { sizePx: fullPx * share, weight: "strong" };
    const even = wrapText(caption, style, room.lastWidth, surface);
    for (const lines of [even, filledLines(caption, style, room.width, surface)]) {
      const high = lines.length * style.sizePx * LINE_HEIGHT <= room.height + 0.5;
      const wide = lines.every(
        (line, k) => textWidthPx(line, style, surface) <= (k === lines.length - 1 ? room.lastWidth : room.width),
      );
      if (high && wide) return { style, lines };
    }
    if (share <= LEAST_SIZE) return { style, lines: even };
  }
}

/** Widths of the shade on each side, in units of the type scale, wide to narrow, and the alpha of each. */
const SHADE: readonly (readonly [number, number])[] = [
  [10, 0.03],
  [9, 0.035],
  [8, 0.045],
  [7, 0.06],
  [6, 0.08],
  [5, 0.1],
  [4, 0.15],
  [3.2, 0.22],
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
  align: "left" | "right",
): void {
  const { type, theme } = layout;
  for (const [width, alpha] of SHADE) {
    const shade = { ink: theme.ink, inkAlpha: 0, halo: theme.halo, haloAlpha: alpha, haloPx: width * type.unitPx };
    drawText(surface, text, x, y, style, shade, align);
  }
  drawText(surface, text, x, y, style, { ink: theme.ink }, align);
}
