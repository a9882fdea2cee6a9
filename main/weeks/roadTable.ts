import type { Language } from "../contract/languageAndUnits.ts";
import { rideDateText } from "../../overlay/words/dateText.ts";
import { clockText, DASH, distanceText, durationText, fixedText, wholeText } from "../../overlay/words/numbers.ts";
import { phrasesFor } from "../../overlay/words/phrases.ts";
import { weeksWords } from "../../overlay/words/weeksWords.ts";
import type { WeeksRoad } from "./weeksRoads.ts";

/** A road ridden more than once as a table: its name by the newest ride's time there, a row a ride. */
export function roadTable(
  { kind, lengthM, rides }: WeeksRoad,
  language: Language,
): { readonly name: string; readonly columns: readonly string[]; readonly rows: readonly string[][] } {
  const words = weeksWords(language);
  const { numbers } = phrasesFor(language);
  const day = (startUtcMs: number, utcOffsetMin: number | null): string =>
    rideDateText(startUtcMs, utcOffsetMin, language);
  const newest = rides[0]!;
  const length = distanceText(lengthM, "metric", numbers);
  const beats = (value: number, giveOrTake: number | null): string =>
    `${fixedText(value, 1, numbers)}${giveOrTake === null ? "" : ` ±${fixedText(giveOrTake, 1, numbers)}`}`;
  return {
    name: words.roadName(
      kind,
      `${length.figure} ${length.unit}`,
      day(newest.startUtcMs, newest.utcOffsetMin),
      clockText(newest.side.startS),
    ),
    columns: words.roadColumns,
    rows: rides.map(({ startUtcMs, utcOffsetMin, side, likeHeartBpm, driftBeats, uncertaintyBeats }) => [
      day(startUtcMs, utcOffsetMin),
      durationText(side.endS - side.startS),
      side.powerW === null ? DASH : `${wholeText(side.powerW)} W`,
      wholeText(likeHeartBpm),
      wholeText(side.breaks),
      driftBeats === null ? words.unknown : beats(driftBeats, uncertaintyBeats),
    ]),
  };
}

/** The roads of a log as lines for a person. */
export function roadLines(roads: readonly WeeksRoad[], language: Language): string[] {
  if (roads.length === 0) return [];
  const words = weeksWords(language);
  const tables = roads.flatMap((road) => {
    const { name, columns, rows } = roadTable(road, language);
    const all = [columns, ...rows];
    const widths = columns.map((_, k) => Math.max(...all.map((row) => row[k]!.length)));
    const line = (row: readonly string[]): string => row.map((cell, k) => cell.padEnd(widths[k]!)).join("   ");
    return [`${name}:`, ...all.map((row) => `  ${line(row)}`.trimEnd())];
  });
  return [`${words.roads}.`, ...tables, words.roadsHonest];
}
