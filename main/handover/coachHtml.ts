import { clockText } from "../../overlay/words/numbers.ts";
import { escapeHtml as safe } from "../../overlay/page/escapeHtml.ts";
import { filmChapters } from "./filmText.ts";
import type { HandoverData } from "./handoverData.ts";
import { htmlPage } from "../../overlay/page/htmlPage.ts";
import { handoverWords } from "./pageHtml.ts";
import { pageFacts } from "./pageFacts.ts";
import { rideChart } from "./rideChart.ts";
import { rideChartSvg } from "./rideChartSvg.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";

/** Units that end a key, and how they are written. */
const UNITS: readonly (readonly [RegExp, string])[] = [
  [/Mps$/, "m/s"],
  [/Percent$/, "%"],
  [/Beats$/, "beats"],
  [/Bpm$/, "bpm"],
  [/Rpm$/, "rpm"],
  [/Deg$/, "degrees"],
  [/S$/, "s"],
  [/W$/, "W"],
  [/M$/, "m"],
];
/** Keys of the reading that say where the rider was: they stay out of every page. */
const PLACES = new Set(["firstPosition", "lastPosition"]);

/** `longestUnbrokenS` as `longest unbroken, s`. */
export function keyLabel(key: string): string {
  const unit = UNITS.find(([ending]) => ending.test(key));
  const plain = (unit === undefined ? key : key.replace(unit[0], ""))
    .replaceAll(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase();
  return unit === undefined ? plain : `${plain}, ${unit[1]}`;
}

/** A figure as the coach's page prints it: at most two decimals, times with their clock, `unknown` where it can't be known. */
export function figure(key: string, value: unknown): string {
  if (value === null || value === undefined) return "unknown";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") {
    const plain = String(Math.round(value * 100) / 100);
    return key.endsWith("S") && Math.abs(value) >= 60 ? `${plain} (${clockText(value)})` : plain;
  }
  if (typeof value === "string") return value;
  if (Array.isArray(value))
    return value.length === 0 ? "none" : value.map((one: unknown) => figure(key, one)).join("; ");
  return Object.entries(value as Record<string, unknown>)
    .map(([inner, one]) => {
      const [label, unit] = keyLabel(inner).split(", ");
      return `${label} ${figure(inner, one)}${unit === undefined || one === null ? "" : ` ${unit}`}`;
    })
    .join(", ");
}

function section(title: string, values: unknown): string {
  if (typeof values !== "object" || values === null) return "";
  const rows = Object.entries(values)
    .filter(([key]) => !PLACES.has(key))
    .map(([key, value]) => `<tr><th scope="row">${safe(keyLabel(key))}</th><td>${safe(figure(key, value))}</td></tr>`);
  return `<section>\n<h2>${safe(title)}</h2>\n<table><tbody>\n${rows.join("\n")}\n</tbody></table>\n</section>`;
}

function table(title: string, columns: readonly string[], rows: readonly (readonly string[])[], empty: string): string {
  const head = columns.map((column) => `<th scope="col">${safe(column)}</th>`).join("");
  const body = rows.map((row) => `<tr>${row.map((cell) => `<td>${safe(cell)}</td>`).join("")}</tr>`).join("\n");
  const content =
    rows.length === 0
      ? `<p>${safe(empty)}</p>`
      : `<section class="wide figures" tabindex="0" aria-label="${safe(title)}, table"><table>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${body}\n</tbody>\n</table></section>`;
  return `<section>\n<h2>${safe(title)}</h2>\n${content}\n</section>`;
}

const list = (title: string, items: readonly string[]): string =>
  items.length === 0
    ? ""
    : `<section>\n<h2>${safe(title)}</h2>\n<ul>\n${items.map((item) => `<li>${safe(item)}</li>`).join("\n")}\n</ul>\n</section>`;

/** What `read` prints: one sentence a line, a paragraph a section. */
function inWords(lines: readonly string[]): string {
  const sections = lines
    .join("\n")
    .split("\n\n")
    .map(
      (section) =>
        `<p>${section
          .split("\n")
          .map((line) => safe(line.trim()))
          .join("<br>\n")}</p>`,
    );
  return lines.length === 0 ? "" : `<section>\n<h2>In words</h2>\n${sections.join("\n")}\n</section>`;
}

/**
 * The coach's own page: the reading in sentences, every figure of the reading under its key, all moments (odd heart readings too), what the coach
 * overruled with the computed value beside it, why each item is in the film and what was left out. English: it speaks
 * the words of the analysis. For the coach's eyes only; it holds no place.
 */
export function coachHtml(data: HandoverData): string {
  const words = handoverWords(data);
  const facts = pageFacts(data);
  const title = `Coach's page: ${data.title ?? data.plan.title ?? data.ride.fileName}`;
  const chart = rideChart(data, words, facts, {
    id: "ride",
    fromS: 0,
    toS: data.ride.grid.seconds,
    title: "Power and heart rate",
    moment: null,
    heart: true,
  });
  const json = data.readJson;
  const chapters = filmChapters(data.film, data.reading.moments, words);
  const body = [
    `<header class="roomy">\n<h1>${safe(title)}</h1>\n<p class="quiet">${safe([data.plan.rider, data.dateText, data.ride.fileName].filter((one) => one !== null).join(", "))}</p>\n</header>\n<main class="roomy">`,
    inWords(data.readLines),
    chart === null ? "" : `<figure>${rideChartSvg(chart)}</figure>`,
    ...["ride", "counted", "pressure", "cadence", "drift", "target"].map((key) =>
      section(key[0].toUpperCase() + key.slice(1), json[key]),
    ),
    table(
      "Moments",
      ["rank", "kind", "from", "to", "reason", "excused", "set by", "numbers"],
      data.reading.moments.map((moment) => [
        String(moment.rank),
        moment.coachOnly ? `${moment.kind} (coach only)` : moment.kind,
        figure("startS", moment.startS),
        figure("endS", moment.endS),
        moment.reason,
        moment.excused !== null ? figure("", moment.excused) : moment.reason === "cannot tell" ? moment.reason : "–",
        moment.setBy,
        figure("", moment.numbers),
      ]),
      "None.",
    ),
    table(
      "Set by coach",
      ["what", "computed", "set", "why"],
      data.reading.overrides.map((one) => [one.what, figure("", one.computed), figure("", one.set), one.reason ?? ""]),
      "Nothing was overruled.",
    ),
    table(
      "The film",
      ["shot or card", "why it is in"],
      data.film.items.map((item, index) => [chapters[index].text, item.why]),
      "Empty.",
    ),
    list("Left out", data.film.leftOut),
    list("Warnings", [...noticeTexts(data.ride.warnings, "en", "command"), ...data.reading.warnings]),
    "</main>",
  ];
  return htmlPage("en", title, body.filter((part) => part !== "").join("\n"), data.fonts);
}
