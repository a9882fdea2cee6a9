import type { DebriefFacts, RiddenAgain } from "../../main/contract/debriefFacts.ts";
import type { Language, UnitSystem } from "../../main/contract/languageAndUnits.ts";
import { rideDateText } from "./dateText.ts";
import { clockText, DASH, distanceText, durationText, wholeText } from "./numbers.ts";
import { phrasesFor } from "./phrases.ts";

interface AgainWords {
  /** What stands before a stretch in a sentence. */
  readonly the: Readonly<Record<RiddenAgain["kind"], string>>;
  rise(fromText: string): string;
  road(lengthText: string, fromText: string): string;
  said(stretch: string, day: string, told: readonly string[]): string;
  breaks(before: number, now: number): string;
  heart(beats: number, giveOrTake: number): string;
  readonly title: string;
  readonly columns: readonly string[];
  readonly thenNow: string;
  readonly unlike: string;
  /** What the sides of a picture of two rides are called. */
  readonly today: string;
  readonly then: string;
}

const en: AgainWords = {
  the: { rise: "the", road: "the" },
  rise: (fromText) => `rise at ${fromText}`,
  road: (lengthText, fromText) => `${lengthText} from ${fromText} on`,
  said: (stretch, day, told) => `You rode ${stretch} on ${day} too, at like power: ${told.join("; ")}.`,
  breaks: (before, now) =>
    `then ${before === 0 ? "no break" : before === 1 ? "1 break" : `${before} breaks`} in pressure, today ${now === 0 ? "none" : now}`,
  heart: (beats, giveOrTake) =>
    `heart rate today ${Math.abs(beats)} beats ${beats > 0 ? "higher" : "lower"} than then, give or take ${giveOrTake}`,
  title: "Roads ridden before",
  columns: ["stretch", "ridden on", "power", "heart rate", "breaks", "time"],
  thenNow:
    "In each column then | today. A heart rate is only beside a like power; breaks are those that nothing excuses.",
  unlike: "not at like power",
  today: "today",
  then: "then",
};

const de: AgainWords = {
  the: { rise: "den", road: "die" },
  rise: (fromText) => `Anstieg bei ${fromText}`,
  road: (lengthText, fromText) => `${lengthText} ab ${fromText}`,
  said: (stretch, day, told) =>
    `Du bist ${stretch} auch am ${day} gefahren, mit ähnlicher Leistung: ${told.join("; ")}.`,
  breaks: (before, now) =>
    `damals ${before === 0 ? "keine Druckpause" : before === 1 ? "1 Druckpause" : `${before} Druckpausen`}, heute ${now === 0 ? "keine" : now}`,
  heart: (beats, giveOrTake) =>
    `Puls heute ${Math.abs(beats)} Schläge ${beats > 0 ? "höher" : "niedriger"} als damals (plus/minus ${giveOrTake})`,
  title: "Straßen, die schon gefahren wurden",
  columns: ["Strecke", "gefahren am", "Leistung", "Puls", "Druckpausen", "Zeit"],
  thenNow:
    "In jeder Spalte damals | heute. Ein Puls steht nur neben ähnlicher Leistung; gezählt sind Druckpausen ohne Grund.",
  unlike: "nicht mit ähnlicher Leistung",
  today: "heute",
  then: "damals",
};

/** Words about a ride beside an earlier one, in one language. */
export function againWords(language: Language): AgainWords {
  return language === "de" ? de : en;
}

/** `rise at 0:34:10`, `12.3 km from 0:34:10 on`: a stretch by this ride's own time, by no place. */
function againStretch({ kind, lengthM, now }: RiddenAgain, language: Language, units: UnitSystem): string {
  const words = againWords(language);
  const { figure, unit } = distanceText(lengthM, units, phrasesFor(language).numbers);
  const fromText = clockText(now.startS);
  return kind === "rise" ? words.rise(fromText) : words.road(`${figure} ${unit}`, fromText);
}

/**
 * What an athlete is told of the road ridden before that says most; null: of none can anything be told, or the rider's
 * note comes before any training.
 */
export function againLine(
  { again, hold }: Pick<DebriefFacts, "again" | "hold">,
  language: Language,
  units: UnitSystem,
): string | null {
  const words = againWords(language);
  const first = again[0];
  if (first === undefined || hold !== null) return null;
  const { breaks, heart } = first;
  const told = [
    ...(breaks === null ? [] : [words.breaks(breaks.before, breaks.now)]),
    ...(heart === null ? [] : [words.heart(heart.beats, heart.giveOrTake)]),
  ];
  if (told.length === 0) return null;
  const day = rideDateText(first.startUtcMs, first.utcOffsetMin, language);
  return words.said(`${words.the[first.kind]} ${againStretch(first, language, units)}`, day, told);
}

/** All roads ridden before, for a coach: a row each. Null: there are none. */
export function againTable(
  again: readonly RiddenAgain[],
  language: Language,
  units: UnitSystem,
): {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly string[][];
  readonly note: string;
} | null {
  if (again.length === 0) return null;
  const words = againWords(language);
  const both = (before: number | null, now: number | null): string =>
    before === null && now === null ? DASH : `${wholeText(before)} | ${wholeText(now)}`;
  return {
    title: words.title,
    columns: words.columns,
    note: words.thenNow,
    rows: again.map((one) => [
      againStretch(one, language, units),
      rideDateText(one.startUtcMs, one.utcOffsetMin, language),
      `${both(one.before.powerW, one.now.powerW)}${one.likePower ? "" : ` (${words.unlike})`}`,
      one.likePower ? both(one.before.heartRateBpm, one.now.heartRateBpm) : DASH,
      both(one.before.breaks, one.now.breaks),
      [one.before, one.now].map(({ startS, endS }) => durationText(endS - startS)).join(" | "),
    ]),
  };
}
