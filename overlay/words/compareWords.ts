import type { ComparedRow, ComparedStretch } from "../../main/contract/comparison.ts";
import type { Language, UnitSystem } from "../../main/contract/languageAndUnits.ts";
import { clockText, DASH, distanceText, signedText, wholeText } from "./numbers.ts";
import { phrasesFor } from "./phrases.ts";

/** What a comparison is of. */
export interface ComparedNames {
  readonly first: string;
  readonly second: string;
}

interface CompareWords {
  /** `lengthText`: of the stretch. */
  head(names: ComparedNames, from: string, to: string, lengthText: string): string;
  legend(names: ComparedNames): string;
  readonly columns: readonly [part: string, time: string, gained: string, power: string, heart: string, breaks: string];
  readonly whole: string;
  readonly to: string;
}

const en: CompareWords = {
  head: ({ first, second }, from, to, lengthText) =>
    `${first} beside ${second}, ${from} to ${to} of ${first}, ${lengthText}.`,
  legend: ({ first, second }) => `In each column ${first} | ${second}; gained: how much quicker ${first} was.`,
  columns: ["along the road", "time", "gained", "power", "heart rate", "breaks"],
  whole: "all of it",
  to: "to",
};

const de: CompareWords = {
  head: ({ first, second }, from, to, lengthText) =>
    `${first} neben ${second}, ${from} bis ${to} von ${first}, ${lengthText}.`,
  legend: ({ first, second }) => `In jeder Spalte ${first} | ${second}; gewonnen: wie viel schneller ${first} war.`,
  columns: ["auf der Straße", "Zeit", "gewonnen", "Leistung", "Puls", "Abrisse"],
  whole: "im Ganzen",
  to: "bis",
};

/** Two rides over one stretch as lines for a person: what is compared, a table by parts of the road, the whole. */
export function comparedLines(
  { whole, parts }: ComparedStretch,
  names: ComparedNames,
  language: Language,
  units: UnitSystem,
): string[] {
  const words = language === "de" ? de : en;
  const { numbers, units: say } = phrasesFor(language);
  const place = (metres: number): string => distanceText(metres, units, numbers).figure;
  const { unit } = distanceText(0, units, numbers);
  const both = (first: string, second: string, behind = ""): string =>
    first === DASH && second === DASH ? DASH : `${first} | ${second}${behind}`;
  const cells = (row: ComparedRow, name: string): string[] => [
    name,
    both(clockText(seconds(row.first)), clockText(seconds(row.second))),
    `${signedText(row.gainedS)} s`,
    both(wholeText(row.first.powerW), wholeText(row.second.powerW), " W"),
    both(wholeText(row.first.heartRateBpm), wholeText(row.second.heartRateBpm), ` ${say.heartRate}`.trimEnd()),
    both(wholeText(row.first.breaks), wholeText(row.second.breaks)),
  ];
  const rows = [
    [...words.columns],
    ...parts.map((row) => cells(row, `${place(row.fromM)} ${words.to} ${place(row.toM)} ${unit}`)),
    ...(parts.length > 1 ? [cells(whole, words.whole)] : []),
  ];
  const widths = words.columns.map((_, k) => Math.max(...rows.map((row) => row[k]!.length)));
  const { figure } = distanceText(whole.toM - whole.fromM, units, numbers);
  return [
    words.head(names, clockText(whole.first.startS), clockText(whole.first.endS), `${figure} ${unit}`),
    words.legend(names),
    ...rows.map((row) =>
      row
        .map((cell, k) => cell.padEnd(widths[k]!))
        .join("   ")
        .trimEnd(),
    ),
  ];
}

/** Whole seconds, as both ends show them. */
function seconds({ startS, endS }: { readonly startS: number; readonly endS: number }): number {
  return Math.round(endS - startS);
}

const LOCALES: Readonly<Record<Language, string>> = { en: "en-GB", de: "de-DE" };

/** `16 May`: a ride's day where it was ridden. */
export function rideDayText(startUtcMs: number, utcOffsetMin: number | null, language: Language): string {
  const local = new Date(startUtcMs + (utcOffsetMin ?? 0) * 60_000);
  return local.toLocaleDateString(LOCALES[language], { day: "numeric", month: "long", timeZone: "UTC" });
}
