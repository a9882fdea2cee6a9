import type { Language } from "../../main/contract/languageAndUnits.ts";
import { drawText, textWidthPx, withAlpha, type TextStyle } from "../drawText.ts";
import type { Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import { hourText, wholeText } from "../words/numbers.ts";
import { phrasesFor } from "../words/phrases.ts";
import type { Card, ChartMarks } from "../../main/contract/card.ts";
import { openPage, paragraph, writeParagraph, type CardPage, type SizePx } from "./cardPage.ts";
import { quantile, thinned, timeStepS, valueStep, xOf, yOf, type PlotScale } from "./chartScale.ts";
import { drawGround, drawShownWords, groundScale } from "./chartGround.ts";
import { drawAsked, drawAskedWords, drawHeartMarks, drawMomentMark } from "./chartMarks.ts";

type ChartCard = Extract<Card, { kind: "chart" }>;

/** Sizes in units of the type scale. */
const TITLE = 50;
const LINE = 36;
const AXIS = 25;
const AXIS_LEFT = 64;
const PLOT_GAP = 54;
const FOOT = 38;
const HEAD = 52;
const TRACE = 2.6;
/** The road: room for its name, for a row of numbers (else for its upper tick), its silhouette, and a strip where no heights are known. */
const HEAD_ROOM = 42;
const NUMBERS = 26;
const UPPER_TICK = 13;
const ROAD = 52;
const STRIP = 12;
/** A heart that moves by a beat or two must not look like a mountain: its axis spans at least so many beats. */
const LEAST_HEART_SPAN = 20;

/** Power and heart rate over time, one above the other on one time axis, with the plan's band and the reading's marks. */
export function paintChartCard(
  surface: Surface,
  card: ChartCard,
  size: SizePx,
  theme: Theme,
  language: Language,
): void {
  const page = openPage(surface, size, theme);
  const unit = page.unitPx;
  const say = phrasesFor(language).chart;
  const lines = card.lines.map((line) => paragraph(surface, page, line, LINE, "medium", theme.quiet));
  let y = writeParagraph(
    surface,
    paragraph(surface, page, card.title, TITLE, "strong", theme.ink),
    page.left,
    page.top - 6 * unit,
  );
  for (const line of lines) y = writeParagraph(surface, line, page.left, y + 2 * unit);

  const { series, marks } = card;
  const length = Math.max(series.power30sW?.length ?? 0, series.heartRateBpm?.length ?? 0);
  const powerHas = series.power30sW?.some((value) => Number.isFinite(value)) === true;
  const heartHas = series.heartRateBpm?.some((value) => Number.isFinite(value)) === true;
  if (length === 0 || (!powerHas && !heartHas)) return;

  const top = y + HEAD * unit;
  const room = page.bottom - FOOT * unit - top;
  const gap = powerHas && heartHas ? PLOT_GAP * unit : 0;
  const road = roadRoom(page, card, (room - gap) / (gap > 0 ? 2 : 1));
  const plotsRoom = room - road.heightPx;
  const powerHeight = powerHas ? (heartHas ? (plotsRoom - gap) * 0.5 : plotsRoom) : 0;
  const across = {
    left: page.left + AXIS_LEFT * unit,
    width: page.width - AXIS_LEFT * unit,
    startS: series.startS,
    endS: series.startS + length * series.stepS,
  };
  const { blocks = [], heartBand = null } = marks;
  const plots: PlotScale[] = [];
  if (powerHas && series.power30sW !== null) {
    const asked = Math.max(0, marks.bandW?.high ?? 0, ...blocks.map((block) => block.high ?? 0));
    const high = Math.max(quantile(series.power30sW, 0.995) * 1.08, asked * (blocks.length > 0 ? 1.1 : 1.3), 50);
    const plot: PlotScale = { ...across, top, height: powerHeight, low: 0, high };
    plots.push(plot);
    drawAsked(surface, page, plot, marks.bandW, blocks);
    const words = powerWords(say.band, series, marks);
    if (words !== null) drawAskedWords(surface, page, plot, words);
    drawAxis(surface, page, plot, say.power, series.powerUnit ?? "W");
    drawTrace(surface, page, plot, series.power30sW, theme.ink);
  }
  if (heartHas && series.heartRateBpm !== null) {
    const least = Math.min(
      quantile(series.heartRateBpm, 0.02),
      marks.first?.bpm ?? Infinity,
      heartBand?.low ?? Infinity,
    );
    const most = Math.max(
      quantile(series.heartRateBpm, 0.995),
      marks.last?.bpm ?? -Infinity,
      heartBand?.high ?? -Infinity,
    );
    const spare = Math.max(0, LEAST_HEART_SPAN - (most - least) - 14) / 2;
    const plot: PlotScale = {
      ...across,
      top: top + powerHeight + gap,
      height: plotsRoom - powerHeight - gap,
      low: least - spare - 6,
      high: most + spare + 8,
    };
    plots.push(plot);
    if (heartBand !== null) {
      drawAsked(surface, page, plot, heartBand);
      const beats = `${wholeText(heartBand.low)}\u2013${wholeText(heartBand.high)}`;
      drawAskedWords(surface, page, plot, `${say.heartBand} ${beats} ${phrasesFor(language).units.heartRate}`);
    }
    drawAxis(surface, page, plot, say.heartRate, phrasesFor(language).units.heartRate);
    drawTrace(surface, page, plot, series.heartRateBpm, theme.ink);
  }
  const heart = heartHas ? plots.at(-1) : undefined;
  const foot = top + plotsRoom;
  const ground: PlotScale = {
    ...across,
    top: foot + road.headPx,
    height: road.heightPx - road.headPx,
    ...groundScale(road.heights),
  };
  if (road.heightPx > 0) {
    const head: PlotScale = { ...ground, top: foot + HEAD_ROOM * unit };
    if (road.heights !== null) drawHead(surface, page, head, say.altitude, series.altitudeUnit ?? "m");
    if ((marks.shots?.length ?? 0) > 0) drawShownWords(surface, page, head, say.inFilm);
    drawGround(surface, page, ground, road.heights, marks, { ...axisStyle(page), weight: "strong" });
  }
  const all = road.heights === null ? plots : [...plots, ground];
  if (marks.counted !== null) for (const plot of all) dimOutside(surface, page, plot, marks.counted);
  if (heart !== undefined) drawHeartMarks(surface, page, heart, marks, say);
  if (marks.moment !== null) drawMomentMark(surface, page, all, marks.moment);
  drawTimes(surface, page, road.heightPx > 0 ? ground : (plots.at(-1) as PlotScale));
}

/** What the road takes at the foot of the chart: a head, a row of numbers where moments are told, and the silhouette. */
function roadRoom(
  page: CardPage,
  { series, marks }: ChartCard,
  plotPx: number,
): { readonly heights: Float64Array | null; readonly headPx: number; readonly heightPx: number } {
  const known = series.altitude?.some((value) => Number.isFinite(value)) === true;
  const heights = known ? (series.altitude ?? null) : null;
  const marked = (marks.shots?.length ?? 0) + (marks.told?.length ?? 0) > 0;
  if (heights === null && !marked) return { heights, headPx: 0, heightPx: 0 };
  const unit = page.unitPx;
  const headPx = (HEAD_ROOM + ((marks.told?.length ?? 0) > 0 ? NUMBERS : UPPER_TICK)) * unit;
  const wished = heights === null ? STRIP * unit : Math.max(ROAD * unit, 0.25 * plotPx);
  return { heights, headPx, heightPx: headPx + Math.max(STRIP * unit, Math.min(wished, 0.4 * plotPx)) };
}

/** What the strip of planned power is called; its watts where one band holds all through. Null: nothing was asked. */
function powerWords(words: string, { powerUnit = "W" }: ChartCard["series"], marks: ChartMarks): string | null {
  const { bandW, blocks = [] } = marks;
  if (blocks.length > 0) return words;
  return bandW === null ? null : `${words} ${wholeText(bandW.low)}\u2013${wholeText(bandW.high)} ${powerUnit}`;
}

/** Name, unit and a few hairlines with their values. */
function drawAxis(surface: Surface, page: CardPage, plot: PlotScale, name: string, unitText: string): void {
  const style = axisStyle(page);
  const { theme, unitPx } = page;
  drawHead(surface, page, plot, name, unitText);
  const step = valueStep(plot.high - plot.low, 3);
  for (let value = Math.ceil(plot.low / step) * step; value <= plot.high; value += step) {
    const y = Math.round(yOf(plot, value));
    if (y < plot.top + 6 * unitPx) continue;
    surface.fillStyle = theme.quiet;
    withAlpha(surface, 0.22, () => surface.fillRect(plot.left, y, plot.width, Math.max(1, Math.round(unitPx))));
    drawText(
      surface,
      String(value),
      plot.left - 10 * unitPx,
      y + Math.round(0.35 * style.sizePx),
      style,
      { ink: theme.quiet },
      "right",
    );
  }
}

/** Name and unit over a plot. */
function drawHead(surface: Surface, page: CardPage, plot: PlotScale, name: string, unitText: string): void {
  const style = axisStyle(page);
  const y = Math.round(plot.top - 9 * page.unitPx);
  drawText(surface, name, plot.left, y, { ...style, weight: "strong" }, { ink: page.theme.ink });
  drawText(surface, unitText, plot.left - 10 * page.unitPx, y, style, { ink: page.theme.quiet }, "right");
}

function drawTrace(surface: Surface, page: CardPage, plot: PlotScale, values: Float64Array, colour: string): void {
  const trace = thinned(values, Math.round(plot.width / Math.max(1, 1.5 * page.unitPx)));
  surface.beginPath();
  let joined = false;
  trace.forEach((value, k) => {
    if (!Number.isFinite(value)) {
      joined = false;
      return;
    }
    const x = plot.left + ((k + 0.5) / trace.length) * plot.width;
    const y = yOf(plot, value);
    if (joined) surface.lineTo(x, y);
    else surface.moveTo(x, y);
    joined = true;
  });
  surface.lineCap = "round";
  surface.lineJoin = "round";
  surface.lineWidth = TRACE * page.unitPx;
  surface.strokeStyle = colour;
  surface.stroke();
}

/** Warm-up and cool-down step back. */
function dimOutside(
  surface: Surface,
  page: CardPage,
  plot: PlotScale,
  counted: { readonly startS: number; readonly endS: number },
): void {
  const from = xOf(plot, counted.startS);
  const to = xOf(plot, counted.endS);
  const pad = 3 * page.unitPx;
  surface.fillStyle = page.theme.ground;
  withAlpha(surface, 0.62, () => {
    surface.fillRect(plot.left - pad, plot.top, from - plot.left + pad, plot.height + pad);
    surface.fillRect(to, plot.top, plot.left + plot.width - to + pad, plot.height + pad);
  });
}

function drawTimes(surface: Surface, page: CardPage, plot: PlotScale): void {
  const style = axisStyle(page);
  const widest = textWidthPx("00:00", style) * 1.9;
  const stepS = timeStepS(plot.endS - plot.startS, Math.max(2, plot.width / widest));
  const y = Math.round(plot.top + plot.height + 26 * page.unitPx);
  for (let atS = Math.ceil(plot.startS / stepS) * stepS; atS <= plot.endS; atS += stepS) {
    const x = xOf(plot, atS);
    surface.fillStyle = page.theme.quiet;
    withAlpha(surface, 0.6, () =>
      surface.fillRect(Math.round(x), plot.top + plot.height, Math.max(1, Math.round(page.unitPx)), 6 * page.unitPx),
    );
    drawText(surface, timeText(atS, stepS), Math.round(x), y, style, { ink: page.theme.quiet }, "center");
  }
}

function timeText(atS: number, stepS: number): string {
  return stepS < 60 ? `${hourText(Math.floor(atS / 60) * 60)}:${String(atS % 60).padStart(2, "0")}` : hourText(atS);
}

function axisStyle(page: CardPage): TextStyle {
  return { sizePx: AXIS * page.unitPx, weight: "medium", tabular: true };
}
