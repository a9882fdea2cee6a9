import type { Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import type { Card } from "../../main/contract/card.ts";
import {
  drawCardThread,
  openPage,
  paragraph,
  paragraphHeight,
  writeParagraph,
  type CardPage,
  type Paragraph,
  type SizePx,
} from "./cardPage.ts";

/** Sizes in units of the type scale. */
const SIZES = {
  title: { title: 84, line: 42 },
  note: { title: 60, line: 46 },
  closing: { title: 60, line: 44 },
} as const;
const CAUTION = 36;
const THREAD_ROOM = 76;
const LINE_GAP = 10;

/** A page of words: title, the thread, lines; a closing page has its caution at the foot. */
export function paintTextCard(
  surface: Surface,
  card: Extract<Card, { kind: "title" | "note" | "closing" }>,
  size: SizePx,
  theme: Theme,
): void {
  const page = openPage(surface, size, theme);
  const caution =
    card.kind === "closing" ? paragraph(surface, page, card.caution, CAUTION, "medium", theme.quiet) : null;
  const floor = page.bottom - (caution === null ? 0 : paragraphHeight(caution) + 20 * page.unitPx);
  const { title, lines, threadRoomPx, gapPx } = fitted(surface, page, card, floor - page.top);
  const heightPx = contentHeight(title, lines, threadRoomPx, gapPx);

  let y = page.top + (floor - page.top - heightPx) * 0.45;
  y = writeParagraph(surface, title, page.left, y);
  drawCardThread(
    surface,
    page,
    page.left,
    Math.round(y + threadRoomPx / 2),
    Math.min(page.width - 60 * page.unitPx, 560 * page.unitPx),
  );
  y += threadRoomPx;
  for (const line of lines) y = writeParagraph(surface, line, page.left, y) + gapPx;
  if (caution !== null) writeParagraph(surface, caution, page.left, page.bottom - paragraphHeight(caution));
}

/** Title and lines at their sizes, or smaller, so that all of them stand on the page. */
function fitted(
  surface: Surface,
  page: CardPage,
  card: { readonly kind: keyof typeof SIZES; readonly title: string; readonly lines: readonly string[] },
  room: number,
): {
  readonly title: Paragraph;
  readonly lines: readonly Paragraph[];
  readonly threadRoomPx: number;
  readonly gapPx: number;
} {
  const sizes = SIZES[card.kind];
  const { theme } = page;
  for (let share = 1; ; share -= 0.06) {
    const title = paragraph(surface, page, card.title, sizes.title * share, "strong", theme.ink);
    const lines = card.lines.map((line, k) =>
      paragraph(
        surface,
        page,
        line,
        sizes.line * share,
        "medium",
        card.kind === "title" && k > 0 ? theme.quiet : theme.ink,
      ),
    );
    const threadRoomPx = THREAD_ROOM * share * page.unitPx;
    const gapPx = LINE_GAP * share * page.unitPx;
    if (contentHeight(title, lines, threadRoomPx, gapPx) <= room || share < 0.4)
      return { title, lines, threadRoomPx, gapPx };
  }
}

function contentHeight(title: Paragraph, lines: readonly Paragraph[], threadRoomPx: number, gapPx: number): number {
  return lines.reduce((sum, line) => sum + paragraphHeight(line) + gapPx, paragraphHeight(title) + threadRoomPx);
}
