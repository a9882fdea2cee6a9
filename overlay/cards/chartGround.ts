import { drawText, textWidthPx, withAlpha, type TextStyle } from "../drawText.ts";
import type { Surface } from "../surface.ts";
import { wholeText } from "../words/numbers.ts";
import type { ChartMarks } from "../../main/contract/card.ts";
import type { CardPage } from "./cardPage.ts";
import { onGround } from "./chartMarks.ts";
import { thinned, xOf, yOf, type PlotScale } from "./chartScale.ts";

/** Level ground must not look like a mountain: its scale spans at least so much, m or ft. */
const LEAST_SPAN = 40;
/** What the film shows is at least so wide, in units of the type scale. */
const LEAST_SHOT = 5;
/** Numbers closer than this would run into each other. */
const NUMBER_GAP = 8;

/**
 * The road's height as a low silhouette; what of it the film shows is bright, and over it stand the numbers of the
 * moments that film and page tell of. Without heights it is a flat strip.
 *
 * @param plot the silhouette's room; the numbers stand right above it
 */
export function drawGround(
  surface: Surface,
  page: CardPage,
  plot: PlotScale,
  heights: Float64Array | null,
  { shots = [], told = [] }: Pick<ChartMarks, "shots" | "told">,
  numbers: TextStyle,
): void {
  const { theme, unitPx } = page;
  const trace = heights === null ? null : thinned(heights, Math.round(plot.width / Math.max(1, 1.5 * unitPx)));
  surface.fillStyle = theme.quiet;
  withAlpha(surface, 0.45, () => area(surface, plot, trace, plot.left, plot.left + plot.width));
  surface.fillStyle = theme.ink;
  for (const { startS, endS } of shots) {
    if (endS < plot.startS || startS > plot.endS) continue;
    const [from, to] = [xOf(plot, startS), xOf(plot, endS)];
    const spare = Math.max(0, LEAST_SHOT * unitPx - (to - from)) / 2;
    area(surface, plot, trace, from - spare, to + spare);
  }
  if (trace !== null && heights !== null) drawHeights(surface, page, plot, heights);
  let free = -Infinity;
  const marks = told.map((atS, index) => ({ x: xOf(plot, atS), text: String(index + 1) })).sort((a, b) => a.x - b.x);
  for (const { x, text } of marks) {
    const half = textWidthPx(text, numbers, surface) / 2;
    surface.fillStyle = theme.ink;
    surface.fillRect(Math.round(x - unitPx), plot.top - 2 * unitPx, Math.max(1, 2 * unitPx), 8 * unitPx);
    if (x - half < free) continue;
    free = x + half + NUMBER_GAP * unitPx;
    drawText(surface, text, x, Math.round(plot.top - 8 * unitPx), numbers, onGround(page), "center");
  }
}

/** Says at the right of the road's head that what is bright is shown in the film. */
export function drawShownWords(surface: Surface, page: CardPage, plot: PlotScale, words: string): void {
  const { unitPx, theme } = page;
  const text: TextStyle = { sizePx: 25 * unitPx, weight: "medium" };
  const right = plot.left + plot.width;
  const y = Math.round(plot.top - 9 * unitPx);
  drawText(surface, words, right, y, text, { ink: theme.quiet }, "right");
  const swatch = Math.round(14 * unitPx);
  surface.fillStyle = theme.ink;
  surface.fillRect(Math.round(right - textWidthPx(words, text, surface) - 1.6 * swatch), y - swatch, swatch, swatch);
}

/** Scale of the silhouette: the lowest place of the road stands a little above the foot. */
export function groundScale(heights: Float64Array | null): { readonly low: number; readonly high: number } {
  const known = heights?.filter((value) => Number.isFinite(value)) ?? new Float64Array();
  if (known.length === 0) return { low: 0, high: 1 };
  const low = known.reduce((least, value) => Math.min(least, value), Infinity);
  const span = Math.max(LEAST_SPAN, known.reduce((most, value) => Math.max(most, value), -Infinity) - low);
  return { low: low - 0.25 * span, high: low + span };
}

/** Fills the silhouette from x to x, piece by piece where heights are missing. */
function area(surface: Surface, plot: PlotScale, trace: Float64Array | null, fromX: number, toX: number): void {
  const foot = plot.top + plot.height;
  if (trace === null) return surface.fillRect(fromX, plot.top, toX - fromX, plot.height);
  const x = (k: number): number => plot.left + ((k + 0.5) / trace.length) * plot.width;
  const y = (at: number): number => {
    const place = Math.max(0, Math.min(trace.length - 1, ((at - plot.left) / plot.width) * trace.length - 0.5));
    const before = trace[Math.floor(place)] ?? Number.NaN;
    const after = trace[Math.ceil(place)] ?? Number.NaN;
    return yOf(plot, before + (place - Math.floor(place)) * (after - before));
  };
  const inside = Array.from(trace, (_, k) => x(k)).filter((at) => at > fromX && at < toX);
  let piece: number[] = [];
  const close = (): void => {
    const [first, last] = [piece[0], piece.at(-1)];
    if (first !== undefined && last !== undefined && piece.length > 1) {
      surface.beginPath();
      surface.moveTo(first, foot);
      for (const at of piece) surface.lineTo(at, y(at));
      surface.lineTo(last, foot);
      surface.closePath();
      surface.fill();
    }
    piece = [];
  };
  for (const at of [fromX, ...inside, toX])
    if (Number.isFinite(y(at))) piece.push(at);
    else close();
  close();
}

/** The highest place of the road, and the lowest where there is room, at the axis. */
function drawHeights(surface: Surface, page: CardPage, plot: PlotScale, heights: Float64Array): void {
  const text: TextStyle = { sizePx: 25 * page.unitPx, weight: "medium", tabular: true };
  const known = heights.filter((value) => Number.isFinite(value));
  const high = known.reduce((most, value) => Math.max(most, value), -Infinity);
  const low = known.reduce((least, value) => Math.min(least, value), Infinity);
  const said = yOf(plot, low) - yOf(plot, high) >= 1.05 * text.sizePx ? [high, low] : [high];
  for (const value of said) {
    const y = Math.round(yOf(plot, value) + 0.35 * text.sizePx);
    drawText(surface, wholeText(value), plot.left - 10 * page.unitPx, y, text, { ink: page.theme.quiet }, "right");
  }
}
