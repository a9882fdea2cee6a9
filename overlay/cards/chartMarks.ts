import { drawText, textWidthPx, withAlpha, type TextStyle } from "../drawText.ts";
import { traceDisc, traceLine } from "../shapes.ts";
import type { Surface } from "../surface.ts";
import type { Phrases } from "../words/phrases.ts";
import { wholeText } from "../words/numbers.ts";
import type { AskedStretch, ChartMarks } from "../../main/contract/card.ts";
import type { CardPage } from "./cardPage.ts";
import { outsideBlocks, xOf, yOf, type PlotScale } from "./chartScale.ts";

/** Sizes in units of the type scale. */
const TEXT = 30;
const DOT = 8;

/** What was asked for: a firm strip over the time in which it was. */
export function drawAsked(
  surface: Surface,
  page: CardPage,
  plot: PlotScale,
  band: { readonly low: number; readonly high: number } | null,
  blocks: readonly AskedStretch[] = [],
): void {
  const strip = (startS: number, endS: number, low: number, high: number): void => {
    const [left, top] = [xOf(plot, startS), yOf(plot, high)];
    surface.fillRect(left, top, xOf(plot, endS) - left, yOf(plot, low) - top);
  };
  surface.fillStyle = page.theme.band;
  if (band !== null)
    for (const [from, to] of outsideBlocks(blocks, plot.startS, plot.endS)) strip(from, to, band.low, band.high);
  for (const { startS, endS, low, high } of blocks) if (low !== null && high !== null) strip(startS, endS, low, high);
}

/** Says at the right of a plot's head what its strip is. */
export function drawAskedWords(surface: Surface, page: CardPage, plot: PlotScale, words: string): void {
  drawText(
    surface,
    words,
    plot.left + plot.width,
    Math.round(plot.top - 9 * page.unitPx),
    style(page),
    { ink: page.theme.quiet },
    "right",
  );
}

/** A place that words take, px. */
interface Taken {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Words that stand at the first of some baselines where nothing stands yet; at the first of all where none is free. */
function placeWords(
  surface: Surface,
  page: CardPage,
  taken: Taken[],
  text: string,
  textStyle: TextStyle,
  left: number,
  baselines: readonly number[],
): void {
  const places = baselines.map((baseline) => ({
    baseline,
    left,
    right: left + textWidthPx(text, textStyle, surface),
    top: baseline - textStyle.sizePx * 0.8,
    bottom: baseline + textStyle.sizePx * 0.25,
  }));
  const free = places.find((place) =>
    taken.every(
      (one) => one.right < place.left || one.left > place.right || one.bottom < place.top || one.top > place.bottom,
    ),
  );
  const place = free ?? places[0];
  if (place === undefined) return;
  taken.push(place);
  drawText(surface, text, left, Math.round(place.baseline), textStyle, onGround(page));
}

/**
 * First and last reading as dots with their beats, and where the climb began, with its interval: in ink, since the two
 * colours say how the pedals were pressed.
 */
export function drawHeartMarks(
  surface: Surface,
  page: CardPage,
  plot: PlotScale,
  marks: ChartMarks,
  say: Phrases["chart"],
): void {
  const { theme, unitPx } = page;
  const { first, last, onset } = marks;
  const taken: Taken[] = [];
  if (onset !== null) drawOnset(surface, page, plot, onset);
  if (first !== null) {
    const y = yOf(plot, first.bpm);
    const x = xOf(plot, first.atS);
    surface.beginPath();
    traceLine(surface, x, y, last === null ? plot.left + plot.width : xOf(plot, last.atS), y);
    surface.setLineDash([2 * unitPx, 7 * unitPx]);
    surface.lineCap = "round";
    surface.lineWidth = 2 * unitPx;
    surface.strokeStyle = theme.quiet;
    surface.stroke();
    surface.setLineDash([]);
  }
  const foot = plot.top + plot.height - 10 * unitPx;
  const strong: TextStyle = { ...style(page), weight: "strong" };
  const widthOf = (words: string, bpm: number): number => textWidthPx(`${words} ${wholeText(bpm)}`, strong, surface);
  // Readings close to each other: their words go outwards, each from its own dot.
  const apartPx = first === null || last === null ? Infinity : xOf(plot, last.atS) - xOf(plot, first.atS);
  const close =
    first !== null && last !== null && apartPx < widthOf(say.first, first.bpm) + widthOf(say.last, last.bpm);
  for (const [reading, words, side] of [
    [first, say.first, -1],
    [last, say.last, 1],
  ] as const) {
    if (reading === null) continue;
    const x = xOf(plot, reading.atS);
    const y = yOf(plot, reading.bpm);
    dot(surface, page, x, y);
    const text = `${words} ${wholeText(reading.bpm)}`;
    const width = widthOf(words, reading.bpm);
    const fromDot = side < 0 !== close;
    const wished = fromDot ? x - DOT * unitPx : x + DOT * unitPx - width;
    const left = Math.max(plot.left, Math.min(plot.left + plot.width - width, wished));
    const above = y - 16 * unitPx;
    const below = y + 34 * unitPx;
    const lines = [
      ...(above - 0.8 * TEXT * unitPx > plot.top - 8 * unitPx ? [above] : []),
      ...(below < foot + 6 * unitPx ? [below] : []),
      plot.top + 0.8 * TEXT * unitPx,
      foot,
    ];
    placeWords(surface, page, taken, text, strong, left, lines);
  }
  if (onset !== null) {
    const plain = style(page);
    const width = textWidthPx(say.onset, plain, surface);
    const middle = onset.atS === null ? (xOf(plot, onset.lowS) + xOf(plot, onset.highS)) / 2 : xOf(plot, onset.atS);
    const left = Math.max(plot.left, Math.min(plot.left + plot.width - width, middle - width / 2));
    placeWords(surface, page, taken, say.onset, plain, left, [foot, plot.top + 0.8 * TEXT * unitPx]);
  }
}

function drawOnset(
  surface: Surface,
  page: CardPage,
  plot: PlotScale,
  onset: { readonly atS: number | null; readonly lowS: number; readonly highS: number },
): void {
  const { theme, unitPx } = page;
  const from = xOf(plot, onset.lowS);
  const to = xOf(plot, onset.highS);
  surface.fillStyle = theme.ink;
  withAlpha(surface, 0.18, () => surface.fillRect(from, plot.top, Math.max(2 * unitPx, to - from), plot.height));
  if (onset.atS !== null) {
    surface.fillStyle = theme.ink;
    surface.fillRect(Math.round(xOf(plot, onset.atS) - unitPx), plot.top, 2 * unitPx, plot.height);
  }
}

/** The moment's span over all plots, its words above the upper one. */
export function drawMomentMark(
  surface: Surface,
  page: CardPage,
  plots: readonly PlotScale[],
  moment: { readonly startS: number; readonly endS: number; readonly words: string },
): void {
  const { theme, unitPx } = page;
  const upper = plots[0];
  if (upper === undefined) return;
  const from = xOf(upper, moment.startS);
  const to = Math.max(from + 3 * unitPx, xOf(upper, moment.endS));
  for (const plot of plots) {
    surface.fillStyle = theme.ink;
    withAlpha(surface, 0.2, () => surface.fillRect(from, plot.top, to - from, plot.height));
    surface.fillStyle = theme.ink;
    surface.fillRect(from, plot.top + plot.height - 3 * unitPx, to - from, 3 * unitPx);
  }
  const text: TextStyle = { ...style(page), weight: "strong" };
  const width = textWidthPx(moment.words, text, surface);
  const x = Math.max(upper.left, Math.min(upper.left + upper.width - width, (from + to - width) / 2));
  drawText(surface, moment.words, x, Math.round(upper.top + 20 * unitPx), text, onGround(page));
}

function dot(surface: Surface, page: CardPage, x: number, y: number): void {
  for (const [radius, colour] of [
    [DOT + 2.5, page.theme.ground],
    [DOT, page.theme.ink],
  ] as const) {
    surface.beginPath();
    traceDisc(surface, x, y, radius * page.unitPx);
    surface.fillStyle = colour;
    surface.fill();
  }
}

/** Words on a chart. */
function style(page: CardPage): TextStyle {
  return { sizePx: TEXT * page.unitPx, weight: "medium" };
}

/** Ink with the ground's colour around it, to stand on traces. */
export function onGround(page: CardPage): { ink: string; halo: string; haloAlpha: number; haloPx: number } {
  return { ink: page.theme.ink, halo: page.theme.ground, haloAlpha: 0.85, haloPx: 4 * page.unitPx };
}
