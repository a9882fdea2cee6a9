import { drawText, textWidthPx, withAlpha, type TextStyle } from "../drawText.ts";
import { traceDisc, traceLine } from "../shapes.ts";
import type { Surface } from "../surface.ts";
import type { Phrases } from "../words/phrases.ts";
import { wholeText } from "../words/numbers.ts";
import type { ChartMarks } from "../../main/contract/card.ts";
import type { CardPage } from "./cardPage.ts";
import { xOf, yOf, type PlotScale } from "./chartScale.ts";

/** Sizes in units of the type scale. */
const TEXT = 30;
const DOT = 8;

/** The plan's band: a firm strip with its edges, in watts or as shares of the plan. */
export function drawPowerBand(
  surface: Surface,
  page: CardPage,
  plot: PlotScale,
  bandW: { readonly low: number; readonly high: number },
  words: string,
  unit: "W" | "%",
): void {
  const top = yOf(plot, bandW.high);
  const bottom = yOf(plot, bandW.low);
  surface.fillStyle = page.theme.band;
  surface.fillRect(plot.left, top, plot.width, bottom - top);
  const text = `${words} ${wholeText(bandW.low)}\u2013${wholeText(bandW.high)} ${unit}`;
  drawText(
    surface,
    text,
    plot.left + plot.width,
    Math.round(plot.top - 9 * page.unitPx),
    style(page),
    { ink: page.theme.quiet },
    "right",
  );
}

/** First and last reading as dots with their beats, and where the climb began, with its interval. */
export function drawHeartMarks(
  surface: Surface,
  page: CardPage,
  plot: PlotScale,
  marks: ChartMarks,
  say: Phrases["chart"],
): void {
  const { theme, unitPx } = page;
  const { first, last, onset } = marks;
  if (onset !== null) drawOnset(surface, page, plot, onset, say.onset);
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
  const readings = [
    { reading: first, words: say.first, align: "left" },
    { reading: last, words: say.last, align: "right" },
  ] as const;
  for (const { reading, words, align } of readings) {
    if (reading === null) continue;
    const x = xOf(plot, reading.atS);
    const y = yOf(plot, reading.bpm);
    dot(surface, page, x, y);
    const nudge = (align === "left" ? -DOT : DOT) * unitPx;
    const above = y - 16 * unitPx > plot.top + 10 * unitPx;
    const baseline = Math.round(above ? y - 16 * unitPx : y + 32 * unitPx);
    drawText(
      surface,
      `${words} ${wholeText(reading.bpm)}`,
      x + nudge,
      baseline,
      { ...style(page), weight: "strong" },
      onGround(page),
      align,
    );
  }
}

function drawOnset(
  surface: Surface,
  page: CardPage,
  plot: PlotScale,
  onset: { readonly atS: number | null; readonly lowS: number; readonly highS: number },
  words: string,
): void {
  const { theme, unitPx } = page;
  const from = xOf(plot, onset.lowS);
  const to = xOf(plot, onset.highS);
  surface.fillStyle = theme.off;
  withAlpha(surface, 0.22, () => surface.fillRect(from, plot.top, Math.max(2 * unitPx, to - from), plot.height));
  if (onset.atS !== null) {
    surface.fillStyle = theme.off;
    surface.fillRect(Math.round(xOf(plot, onset.atS) - unitPx), plot.top, 2 * unitPx, plot.height);
  }
  const width = textWidthPx(words, style(page), surface);
  const wished = (onset.atS === null ? (from + to) / 2 : xOf(plot, onset.atS)) - width / 2;
  const x = Math.max(plot.left, Math.min(plot.left + plot.width - width, wished));
  drawText(surface, words, x, Math.round(plot.top + plot.height - 10 * unitPx), style(page), onGround(page));
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
    surface.fillStyle = theme.above;
    withAlpha(surface, 0.28, () => surface.fillRect(from, plot.top, to - from, plot.height));
    surface.fillStyle = theme.above;
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
    [DOT, page.theme.off],
  ] as const) {
    surface.beginPath();
    traceDisc(surface, x, y, radius * page.unitPx);
    surface.fillStyle = colour;
    surface.fill();
  }
}

function style(page: CardPage): TextStyle {
  return { sizePx: TEXT * page.unitPx, weight: "medium" };
}

/** Ink with the ground's colour around it, to stand on traces. */
function onGround(page: CardPage): { ink: string; halo: string; haloAlpha: number; haloPx: number } {
  return { ink: page.theme.ink, halo: page.theme.ground, haloAlpha: 0.85, haloPx: 4 * page.unitPx };
}
