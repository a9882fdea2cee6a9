import { axisTicks, timeTicks } from "../../overlay/page/axisTicks.ts";
import { escapeHtml } from "../../overlay/page/escapeHtml.ts";

/** One panel of a chart: a line over ride time, with its axis and what is marked on it. */
export interface ChartPanel {
  readonly axis: string;
  /** A value per step; NaN breaks the line. */
  readonly values: Float64Array;
  /** `power` and `heart` choose the stroke; both read without colour too. */
  readonly kind: "power" | "heart";
  readonly band: { readonly low: number; readonly high: number; readonly key: string } | null;
  /** Values to point at, with their words. */
  readonly points: readonly { readonly atS: number; readonly value: number; readonly text: string }[];
  /** A span to shade, with its words: where something began. */
  readonly interval: { readonly lowS: number; readonly highS: number; readonly key: string } | null;
}

/** A heart that moves by a beat or two must not look like a mountain: its axis spans at least so many beats. */
const LEAST_HEART_SPAN = 20;

export interface RideChart {
  readonly id: string;
  readonly title: string;
  readonly alt: string;
  readonly timeAxis: string;
  readonly startS: number;
  readonly stepS: number;
  readonly panels: readonly ChartPanel[];
  /** Drawn as a bar over all panels. */
  readonly main: { readonly startS: number; readonly endS: number; readonly key: string } | null;
}

/** One unit is a CSS pixel on a phone of 390, less the margins: text of 12 stays readable there. */
const WIDTH = 400;
const LEFT = 40;
const RIGHT = 10;
const PANEL = 130;
const PANEL_GAP = 34;
/** Room for the first panel's title, and for the bar of the main part above it. */
const TOP = 22;
const TOP_WITH_MAIN = 54;
const BOTTOM = 40;

const fixed = (value: number): string => String(Math.round(value * 100) / 100);

/** `1:30` for an axis that says h:mm. */
function hourMinute(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

/** The same scale for lines, marks and ticks: linear from the first tick to the last. */
export function panelScale(panel: ChartPanel): {
  readonly ticks: readonly number[];
  readonly low: number;
  readonly high: number;
} {
  const values = [...panel.values].filter((value) => Number.isFinite(value));
  for (const point of panel.points) values.push(point.value);
  if (panel.band !== null) values.push(panel.band.low, panel.band.high);
  if (values.length === 0) return { ticks: [0, 1], low: 0, high: 1 };
  const low = panel.kind === "power" ? 0 : values.reduce((least, value) => Math.min(least, value), Infinity);
  const high = values.reduce((most, value) => Math.max(most, value), -Infinity);
  const spare = panel.kind === "heart" ? Math.max(0, LEAST_HEART_SPAN - (high - low)) / 2 : 0;
  const ticks = axisTicks(low - spare, Math.max(high + spare, low + 1), 5);
  return { ticks, low: ticks[0], high: ticks.at(-1)! };
}

function linePath(values: Float64Array, x: (index: number) => number, y: (value: number) => number): string {
  let pen = "M";
  let path = "";
  values.forEach((value, index) => {
    if (!Number.isFinite(value)) {
      pen = "M";
      return;
    }
    path += `${pen}${fixed(x(index))} ${fixed(y(value))}`;
    pen = "L";
  });
  return path;
}

/**
 * Power and heart rate over ride time as one inline SVG: panels under one another on one time axis, each with its own
 * axis, unit and round ticks. Gaps in the data are gaps in the line. Text, title and description are in the SVG.
 */
export function rideChartSvg(chart: RideChart): string {
  const steps = Math.max(1, ...chart.panels.map((panel) => panel.values.length));
  const endS = chart.startS + steps * chart.stepS;
  const right = WIDTH - RIGHT;
  const atX = (seconds: number): number => LEFT + ((seconds - chart.startS) / (endS - chart.startS)) * (right - LEFT);
  // A step's mean stands at its middle.
  const stepX = (index: number): number => atX(chart.startS + (index + 0.5) * chart.stepS);
  const first = chart.main === null ? TOP : TOP_WITH_MAIN;
  const bottom = first + chart.panels.length * PANEL + (chart.panels.length - 1) * PANEL_GAP;
  const height = bottom + BOTTOM;
  const text = (x: number, y: number, anchor: string, content: string, kind = ""): string =>
    `<text x="${fixed(x)}" y="${fixed(y)}" text-anchor="${anchor}"${kind === "" ? "" : ` class="${kind}"`}>${escapeHtml(content)}</text>`;

  const panels = chart.panels.map((panel, index) => {
    const top = first + index * (PANEL + PANEL_GAP);
    const scale = panelScale(panel);
    const y = (value: number): number => top + PANEL - ((value - scale.low) / (scale.high - scale.low)) * PANEL;
    const grid = scale.ticks
      .map(
        (tick) =>
          `<path class="grid" d="M${LEFT} ${fixed(y(tick))}H${right}"/>${text(LEFT - 5, y(tick) + 4, "end", fixed(tick))}`,
      )
      .join("");
    const band =
      panel.band === null
        ? ""
        : `<rect class="band" x="${LEFT}" y="${fixed(y(panel.band.high))}" width="${right - LEFT}" height="${fixed(y(panel.band.low) - y(panel.band.high))}"/>`;
    const interval =
      panel.interval === null
        ? ""
        : `<rect class="span" x="${fixed(atX(panel.interval.lowS))}" y="${top}" width="${fixed(Math.max(1, atX(panel.interval.highS) - atX(panel.interval.lowS)))}" height="${PANEL}"/>` +
          (panel.interval.key === ""
            ? ""
            : text(
                Math.min(right - 60, Math.max(LEFT + 60, (atX(panel.interval.lowS) + atX(panel.interval.highS)) / 2)),
                top + PANEL - 6,
                "middle",
                panel.interval.key,
              ));
    const points = panel.points
      .map((point) => {
        const px = atX(point.atS);
        const anchor = px > right - 60 ? "end" : px < LEFT + 60 ? "start" : "middle";
        return `<circle class="dot" cx="${fixed(px)}" cy="${fixed(y(point.value))}" r="4"/>${text(px, Math.max(top + 12, y(point.value) - 10), anchor, point.text, "strong")}`;
      })
      .join("");
    const key = panel.band === null ? "" : text(right - 13, top - 8, "end", panel.band.key);
    const swatch =
      panel.band === null ? "" : `<rect class="band" x="${right - 8}" y="${top - 17}" width="8" height="10"/>`;
    return `${text(LEFT, top - 8, "start", panel.axis, "strong")}${swatch}${key}${band}${interval}${grid}<path class="${panel.kind}" d="${linePath(panel.values, stepX, y)}"/>${points}`;
  });

  const times = timeTicks(chart.startS, endS, 6)
    .map(
      (tick) =>
        `<path class="tick" d="M${fixed(atX(tick))} ${bottom}v5"/>${text(atX(tick), bottom + 18, atX(tick) > right - 12 ? "end" : "middle", hourMinute(tick))}`,
    )
    .join("");
  const main =
    chart.main === null
      ? ""
      : `<path class="main" d="M${fixed(atX(chart.main.startS))} ${first - 32}H${fixed(atX(chart.main.endS))}"/>` +
        text((atX(chart.main.startS) + atX(chart.main.endS)) / 2, first - 40, "middle", chart.main.key);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" role="img" aria-labelledby="${chart.id}-title ${chart.id}-desc">` +
    `<title id="${chart.id}-title">${escapeHtml(chart.title)}</title><desc id="${chart.id}-desc">${escapeHtml(chart.alt)}</desc>` +
    `${panels.join("")}<path class="axis" d="M${LEFT} ${bottom}H${right}"/>${times}${text((LEFT + right) / 2, bottom + 34, "middle", chart.timeAxis)}${main}</svg>`
  );
}
