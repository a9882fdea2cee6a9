import { axisTicks, timeTicks } from "../../overlay/page/axisTicks.ts";
import { escapeHtml as safe } from "../../overlay/page/escapeHtml.ts";
import { type PageFont, htmlPage } from "../../overlay/page/htmlPage.ts";
import { durationText, fixedText, wholeText } from "../../overlay/words/numbers.ts";
import type { Language } from "../../overlay/words/phrases.ts";
import { type WeeksPhrases, heldWords, weeksWords } from "../../overlay/words/weeksWords.ts";
import type { WeeksGroup, WeeksLog, WeeksRide } from "./weeksLog.ts";

const WIDTH = 400;
const LEFT = 44;
const RIGHT = 12;
const TOP = 26;
const HEIGHT = 150;
const fixed = (value: number): string => String(Math.round(value * 100) / 100);

/** Day of a ride where it was ridden: `2026-05-17` (ISO 8601), by the file's own offset where it has one. */
export function rideDay(ride: WeeksRide): string {
  return new Date(ride.startUtcMs + (ride.figures.utcOffsetMin ?? 0) * 60_000).toISOString().slice(0, 10);
}

interface Plot {
  readonly id: string;
  readonly title: string;
  readonly alt: string;
  readonly axis: string;
  readonly ticks: readonly number[];
  readonly tickText: (value: number) => string;
  readonly marks: (x: (utcMs: number) => number, y: (value: number) => number) => string;
}

function plotSvg(group: WeeksGroup, plot: Plot): string {
  const first = group.rides[0];
  const last = group.rides.at(-1)!;
  const spanMs = Math.max(1, last.startUtcMs - first.startUtcMs);
  const right = WIDTH - RIGHT - 12;
  const x = (utcMs: number): number => LEFT + 12 + ((utcMs - first.startUtcMs) / spanMs) * (right - LEFT - 12);
  const low = plot.ticks[0];
  const high = plot.ticks.at(-1)!;
  const y = (value: number): number => TOP + HEIGHT - ((value - low) / (high - low)) * HEIGHT;
  const grid = plot.ticks
    .map(
      (tick) =>
        `<path class="grid" d="M${LEFT} ${fixed(y(tick))}H${WIDTH - RIGHT}"/><text x="${LEFT - 5}" y="${fixed(y(tick) + 4)}" text-anchor="end">${safe(plot.tickText(tick))}</text>`,
    )
    .join("");
  const days =
    group.rides.length === 1
      ? `<text x="${LEFT + 12}" y="${TOP + HEIGHT + 18}">${rideDay(first)}</text>`
      : `<text x="${LEFT}" y="${TOP + HEIGHT + 18}">${rideDay(first)}</text><text x="${WIDTH - RIGHT}" y="${TOP + HEIGHT + 18}" text-anchor="end">${rideDay(last)}</text>`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${TOP + HEIGHT + 26}" role="img" aria-labelledby="${plot.id}-title ${plot.id}-desc">` +
    `<title id="${plot.id}-title">${safe(plot.title)}</title><desc id="${plot.id}-desc">${safe(plot.alt)}</desc>` +
    `<text x="${LEFT}" y="${TOP - 10}" class="strong">${safe(plot.axis)}</text>${grid}${plot.marks(x, y)}${days}</svg>`
  );
}

/** A point, full where the ride is alike, hollow where it is not compared. */
function dot(x: number, y: number, like: boolean): string {
  return `<circle class="${like ? "ridden" : "maybe"}" cx="${fixed(x)}" cy="${fixed(y)}" r="4"/>`;
}

function driftPlot(group: WeeksGroup, words: WeeksPhrases, alt: string): string {
  const rides = group.rides.filter((ride) => ride.figures.driftBeats !== null);
  if (rides.length === 0) return "";
  const ends = rides.flatMap(({ figures }) => [
    figures.driftBeats! - (figures.uncertaintyBeats ?? 0),
    figures.driftBeats! + (figures.uncertaintyBeats ?? 0),
  ]);
  return plotSvg(group, {
    id: `${group.place}-drift`,
    title: words.drift,
    alt,
    axis: words.driftAxis,
    ticks: axisTicks(Math.min(0, ...ends), Math.max(1, ...ends), 6),
    tickText: fixed,
    marks: (x, y) =>
      (group.trend === null
        ? ""
        : `<path class="trend" d="M${fixed(x(group.trend.fromUtcMs))} ${fixed(y(group.trend.fromBeats))}L${fixed(x(group.trend.toUtcMs))} ${fixed(y(group.trend.toBeats))}"/>`) +
      rides
        .map((ride) => {
          const { driftBeats, uncertaintyBeats } = ride.figures;
          const bar =
            uncertaintyBeats === null
              ? ""
              : `<path class="axis" d="M${fixed(x(ride.startUtcMs))} ${fixed(y(driftBeats! - uncertaintyBeats))}V${fixed(y(driftBeats! + uncertaintyBeats))}"/>`;
          return bar + dot(x(ride.startUtcMs), y(driftBeats!), ride.like);
        })
        .join(""),
  });
}

/** Held times as bars between their ends; "at least" is a bar that ends in an arrow, never a point. */
function heldPlot(group: WeeksGroup, words: WeeksPhrases, alt: string): string {
  const rides = group.rides.filter((ride) => ride.figures.heldLowS !== null);
  if (rides.length === 0) return "";
  const leastS = group.rides.at(-1)!.figures.leastS;
  const most = Math.max(
    3600,
    leastS ?? 0,
    ...rides.map(({ figures }) => (figures.heldHighS ?? figures.heldLowS!) * 1.08),
  );
  const inner = timeTicks(0, most, 6);
  const stepS = inner[1] - inner[0];
  const ticks = inner.at(-1)! >= most ? inner : [...inner, inner.at(-1)! + stepS];
  return plotSvg(group, {
    id: `${group.place}-held`,
    title: words.held,
    alt,
    axis: words.heldAxis,
    ticks,
    tickText: (value) => `${Math.floor(value / 3600)}:${String(Math.round(value / 60) % 60).padStart(2, "0")}`,
    marks: (x, y) =>
      (leastS === null
        ? ""
        : `<path class="tick" stroke-dasharray="6 4" d="M${LEFT} ${fixed(y(leastS))}H${WIDTH - RIGHT}"/><text x="${WIDTH - RIGHT}" y="${fixed(y(leastS) - 5)}" text-anchor="end">${safe(words.least)}</text>`) +
      rides
        .map((ride) => {
          const { heldLowS, heldHighS } = ride.figures;
          const at = x(ride.startUtcMs);
          const low = y(heldLowS!);
          if (heldHighS === null)
            return `<rect class="ridden" x="${fixed(at - 4)}" y="${fixed(low)}" width="8" height="${fixed(y(0) - low)}"/><path class="ridden" d="M${fixed(at - 8)} ${fixed(low)}h16l-8 -9z"/>`;
          const high = y(heldHighS);
          return `<rect class="ridden" x="${fixed(at - 4)}" y="${fixed(low)}" width="8" height="${fixed(Math.max(1, y(0) - low))}"/><rect class="maybe" x="${fixed(at - 4)}" y="${fixed(high)}" width="8" height="${fixed(Math.max(0, low - high))}"/>`;
        })
        .join(""),
  });
}

function rowCells(ride: WeeksRide, words: WeeksPhrases): string[] {
  const { figures } = ride;
  const or = (value: number | null, text: (known: number) => string): string =>
    value === null ? words.unknown : text(value);
  const give = or(
    figures.driftBeats,
    (beats) =>
      `${fixedText(beats, 1)}${figures.uncertaintyBeats === null ? "" : ` ±${fixedText(figures.uncertaintyBeats, 1)}`}`,
  );
  return [
    `${rideDay(ride)}${figures.title === null ? "" : `, ${figures.title}`}`,
    durationText(figures.countedS),
    or(
      figures.meanW,
      (watts) => `${wholeText(watts)} W${figures.targetW === null ? "" : ` / ${wholeText(figures.targetW)}`}`,
    ),
    give,
    heldWords(words, figures.heldLowS, figures.heldHighS),
    or(figures.inBandPercent, (percent) => `${wholeText(percent)} %`),
    or(figures.lapses, wholeText),
  ];
}

function groupSection(group: WeeksGroup, words: WeeksPhrases): string {
  const alike = group.rides.filter((ride) => ride.like && ride.figures.driftBeats !== null).length;
  const trend = words.trend(group.trend, alike);
  const name = group.place === "road" ? words.road : words.trainer;
  const plots = [
    driftPlot(group, words, trend),
    heldPlot(
      group,
      words,
      group.rides
        .map((ride) => `${rideDay(ride)}: ${heldWords(words, ride.figures.heldLowS, ride.figures.heldHighS)}`)
        .join("; "),
    ),
  ];
  const captions = [`${trend} ● ${words.alike}; ○ ${words.notAlike}.`, ""];
  const figures = plots
    .map((plot, index) =>
      plot === ""
        ? ""
        : `<figure>${plot}${captions[index] === "" ? "" : `<figcaption>${safe(captions[index])}</figcaption>`}</figure>`,
    )
    .join("\n");
  const head = words.columns.map((column) => `<th scope="col">${safe(column)}</th>`).join("");
  const rows = [...group.rides].reverse().map(
    (ride) =>
      `<tr>${rowCells(ride, words)
        .map((cell, index) => (index === 0 ? `<th scope="row">${safe(cell)}</th>` : `<td>${safe(cell)}</td>`))
        .join("")}</tr>`,
  );
  return (
    `<section>\n<h2>${safe(name)}</h2>\n<p>${safe(words.offset(group.offsetsW))}</p>\n${figures}\n` +
    `<section class="wide" tabindex="0" aria-label="${safe(name)}"><table>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${rows.join("\n")}\n</tbody>\n</table></section>\n</section>`
  );
}

/** The athlete's log as one HTML page for the coach: road and trainer apart, charts with axes, every ride in a table. */
export function weeksHtml(
  log: WeeksLog,
  athleteName: string | null,
  language: Language,
  fonts: readonly PageFont[],
): string {
  const words = weeksWords(language);
  const title = athleteName === null ? words.title : `${words.title}: ${athleteName}`;
  const body = [
    `<header><h1>${safe(title)}</h1></header>\n<main>`,
    log.groups.length === 0
      ? `<p>${safe(words.empty)}</p>`
      : log.groups.map((group) => groupSection(group, words)).join("\n"),
    log.leftOut.length === 0
      ? ""
      : `<ul>\n${log.leftOut.map((one) => `<li>${safe(words.leftOut(one.name, one.because))}</li>`).join("\n")}\n</ul>`,
    `<p class="quiet">${safe(words.honest)}</p>\n</main>`,
  ];
  return htmlPage(language, title, body.filter((part) => part !== "").join("\n"), fonts);
}
