import { wordsOfStanding } from "../../main/journey/handOver.ts";
import { readJson, readLines } from "../../main/journey/judge.ts";
import type { RideWords } from "./rideWords.ts";

/** What was compared, and what differs: `field: one output says, another says`. */
export interface Compared {
  readonly fields: number;
  readonly differences: readonly string[];
}

const bare = (text: string): string => text.replaceAll(/[\s\u00a0]+/g, "");
const numbersOf = (text: string): string => (text.match(/\d+(?:[.,:]\d+)*/g) ?? []).join(" ").replaceAll(",", ".");

/**
 * Field by field, what one ride's outputs say of the same thing: message, page, film's cards, coach's page, printed
 * reading, its JSON, and the lines that the window edits; and German beside English, number by number.
 */
export async function differencesOf(en: RideWords, de: RideWords): Promise<Compared> {
  const differences: string[] = [];
  let fields = 0;
  const same = (field: string, one: unknown, other: unknown): void => {
    fields++;
    if (one !== other) differences.push(`${field}: ${String(one)} / ${String(other)}`);
  };
  const says = (field: string, text: string, where: string): void => {
    fields++;
    if (!bare(where).includes(bare(text))) differences.push(`${field}: lacks ${text}`);
  };

  for (const words of [en, de]) {
    const { lines, message } = await wordsOfStanding(words.standing);
    same("message of window and file", message, words.message);
    const film = words.film.join("\n");
    for (const { what, text } of lines) {
      for (const line of text.split("\n").filter((one) => one !== "")) says(`page, ${what}`, line, words.page);
      if (["held", "change", "next"].includes(what)) says(`message, ${what}`, text, words.message);
      if (what === "next" || (what === "change" && !["nothing", "rest"].includes(words.data.story.teaching)))
        says(`film, ${what}`, text, film);
    }
    for (const line of readLines(words.standing.judged, words === en ? "en" : "de").filter((one) => one !== ""))
      says("coach's page, reading", line, words.coach);
  }

  // Both languages, number by number: the page row by row, the message, each part of the film.
  const rows = (page: string): string[] => page.split("\n").filter((line) => line.includes(" | "));
  const pairs: [string, readonly string[], readonly string[]][] = [
    ["page rows", rows(en.page), rows(de.page)],
    ["message", en.message.split("\n"), de.message.split("\n")],
  ];
  for (const [field, ours, theirs] of pairs) {
    same(`${field}, how many`, ours.length, theirs.length);
    ours.forEach((line, index) => same(`${field} ${index}, numbers`, sorted(line), sorted(theirs[index] ?? "")));
  }

  // English: each figure of the facts wherever it is told.
  const { facts } = en.standing.judged;
  const json = readJson(en.standing.judged, "en") as {
    readonly base: { readonly meanW: number | null; readonly meanBpm: number | null; readonly meanRpm: number | null };
    readonly pressure: { readonly longestUnbrokenS: number | null };
    readonly drift: { readonly firstBpm: number | null; readonly lastBpm: number | null };
  };
  const printed = readLines(en.standing.judged, "en").join("\n");
  const row = (label: string): string | null =>
    new RegExp(`^${label} \\|[^|]*\\| ([^|]*?) \\|`, "m").exec(en.page)?.[1] ?? null;
  const whole = (value: number | null): string | null => (value === null ? null : String(Math.round(value)));
  const first = (pattern: RegExp, text: string): string | null => pattern.exec(text)?.[1] ?? null;
  const figures: [string, number | null, string, RegExp, number | null][] = [
    ["mean power", facts.meanW, "Power, mean", /^In the main part:.*?mean power (\d+) W/m, json.base.meanW],
    [
      "mean heart rate",
      facts.meanBpm,
      "Heart rate, mean",
      /^In the main part:.*?mean heart rate (\d+)/m,
      json.base.meanBpm,
    ],
    ["mean cadence", facts.meanRpm, "Cadence, mean", /^In the main part:.*?mean cadence (\d+)/m, json.base.meanRpm],
  ];
  for (const [field, fact, label, pattern, inJson] of figures) {
    same(`${field}, page`, row(label)?.replace(/ W$/, "") ?? null, whole(fact));
    if (facts.mainS > 0) same(`${field}, printed`, first(pattern, printed), whole(fact));
    same(`${field}, JSON`, whole(inJson), whole(fact));
  }
  const { shares } = facts;
  if (shares !== null) {
    const label = facts.judgedBy === "heart" ? "In the heart range" : "At the plan";
    for (const [field, percent, cell, pattern] of [
      ["in the band", shares.inPercent, label, /^In the band (\d+) % of the main part/m],
      ["below", shares.belowPercent, "Below it", /^In the band .*?below it (\d+) %/m],
      ["above", shares.abovePercent, "Above it", /^In the band .*?above it (\d+) %/m],
    ] as const) {
      same(`${field}, page`, row(cell), `${percent} %`);
      const told = first(pattern, printed);
      if (told !== null) same(`${field}, printed`, told, String(percent));
    }
  }
  const readings = [whole(json.drift.firstBpm), whole(json.drift.lastBpm)];
  if (!readings.includes(null)) {
    const { grid } = en.standing.judged.ride;
    says("heart readings, page", `heart rate was ${readings[0]} early on and ${readings[1]} at the end`, en.page);
    if (grid.heartRate !== null)
      says("heart readings, film", `Heart rate ${readings[0]} early on, ${readings[1]} at the end`, en.film.join("\n"));
    same("first heart reading, printed", first(/^First heart reading (\d+)/m, printed), readings[0]);
    same("last heart reading, printed", first(/^Last heart reading (\d+)/m, printed), readings[1]);
  }
  const onCard = first(/At the same power: (\d+) beats? (?:more|fewer)/, en.film.join("\n"));
  const onPage = first(/At the same power it would be (\d+) beats? (?:more|fewer)/, en.page);
  same("drift, film and page", onCard, onPage);
  if (onPage !== null) same("drift, facts", onPage, String(Math.abs(facts.drift?.beats ?? NaN)));
  return { fields, differences };
}

/** The numbers of a line in any order: languages put them otherwise. */
function sorted(line: string): string {
  return numbersOf(line).split(" ").sort().join(" ");
}
