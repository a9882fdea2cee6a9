import { drawText, textWidthPx, wrapText, type TextStyle } from "../drawText.ts";
import type { Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import {
  drawCardThread,
  drawHairline,
  openPage,
  paragraph,
  paragraphHeight,
  writeParagraph,
  type SizePx,
} from "./cardPage.ts";

export interface CardTable {
  readonly title: string;
  /** Heads of the value columns, or null for one column without a head. */
  readonly columns: readonly string[] | null;
  readonly rows: readonly { readonly label: string; readonly values: readonly string[] }[];
}

/** Sizes in units of the type scale. */
const TITLE = 60;
const LABEL = 40;
const VALUE = 50;
const HEAD = 32;
const ROW = 84;
const THREAD_ROOM = 76;
/** A value that would have to be set smaller than this share stands in two lines, each of that share. */
const LEAST_SHARE = 0.72;
const TWO_LINES_SHARE = 0.64;

/** A page of rows: label at the left, one or two values in columns. */
export function paintTableCard(surface: Surface, table: CardTable, size: SizePx, theme: Theme): void {
  const page = openPage(surface, size, theme);
  const title = paragraph(surface, page, table.title, TITLE, "strong", theme.ink);
  const headRoom = table.columns === null ? 0 : 48 * page.unitPx;
  const threadRoom = THREAD_ROOM * page.unitPx;
  const room = page.bottom - page.top - paragraphHeight(title) - threadRoom - headRoom;
  const rowPx = Math.min(ROW * page.unitPx, room / Math.max(1, table.rows.length));
  const shrink = rowPx / (ROW * page.unitPx);

  const heightPx = paragraphHeight(title) + threadRoom + headRoom + rowPx * table.rows.length;
  let y = writeParagraph(surface, title, page.left, page.top + (page.bottom - page.top - heightPx) * 0.4);
  drawCardThread(
    surface,
    page,
    page.left,
    Math.round(y + threadRoom * 0.4),
    Math.min(page.width - 60 * page.unitPx, 560 * page.unitPx),
  );
  y += threadRoom;

  const valueColumns = table.columns?.length ?? 1;
  const labelShare = valueColumns === 1 ? 0.42 : 0.44;
  const columnPx = (page.width * (1 - labelShare)) / valueColumns;
  const xOf = (k: number): number => page.left + page.width * labelShare + k * columnPx;
  table.columns?.forEach((head, k) =>
    fittedText(
      surface,
      head,
      xOf(k),
      y + headRoom * 0.55,
      { sizePx: HEAD * page.unitPx, weight: "medium" },
      theme.quiet,
      columnPx * 0.94,
    ),
  );
  y += headRoom;
  const labelPx = page.width * labelShare * 0.95;
  const label = fitting(
    surface,
    table.rows.map((row) => row.label),
    { sizePx: LABEL * shrink * page.unitPx, weight: "medium" },
    labelPx,
  );
  table.rows.forEach((row, k) => {
    const baseline = Math.round(y + (k + 0.5) * rowPx + 0.35 * VALUE * shrink * page.unitPx);
    if (k > 0 || table.columns !== null) drawHairline(surface, page, y + k * rowPx);
    fittedText(surface, row.label, page.left, baseline, label, theme.quiet, labelPx);
    row.values.forEach((value, column) => {
      const style: TextStyle = { sizePx: VALUE * shrink * page.unitPx, weight: "strong", tabular: true };
      writeValue(surface, value, xOf(column), baseline, style, theme.ink, columnPx * 0.94);
    });
  });
}

/** A style small enough for the widest of some texts, so that all of them are of one size. */
function fitting(surface: Surface, texts: readonly string[], style: TextStyle, widthPx: number): TextStyle {
  const widest = Math.max(1, ...texts.map((text) => textWidthPx(text, style, surface)));
  return { ...style, sizePx: style.sizePx * Math.min(1, widthPx / widest) };
}

/** A value on its row: a little smaller where it is wide, in two lines where it is very wide. */
function writeValue(
  surface: Surface,
  value: string,
  x: number,
  baseline: number,
  style: TextStyle,
  colour: string,
  widthPx: number,
): void {
  const half: TextStyle = { ...style, sizePx: style.sizePx * TWO_LINES_SHARE };
  const lines = wrapText(value, half, widthPx, surface);
  if (textWidthPx(value, style, surface) * LEAST_SHARE <= widthPx || lines.length !== 2)
    return fittedText(surface, value, x, baseline, style, colour, widthPx);
  lines.forEach((line, k) =>
    fittedText(surface, line, x, baseline + (k - 0.62) * 1.1 * half.sizePx, half, colour, widthPx),
  );
}

/** One line, set smaller where it is wider than its column. */
function fittedText(
  surface: Surface,
  text: string,
  x: number,
  y: number,
  style: TextStyle,
  colour: string,
  widthPx: number,
): void {
  const shrink = Math.min(1, widthPx / Math.max(1, textWidthPx(text, style, surface)));
  drawText(surface, text, x, Math.round(y), { ...style, sizePx: style.sizePx * shrink }, { ink: colour });
}
