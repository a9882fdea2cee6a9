import type { Break } from "../../main/contract/reading.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import { clockText, durationText } from "./numbers.ts";
import { breakReasonWords } from "./reading/momentWords.ts";
import { sayIn } from "./reading/sentence.ts";

/** Every break of 10 s or more in the order of the ride, one line each: when, how long, why; for the coach. */
export function breakLines(breaks: readonly Break[], language: Language): string[] {
  const say = sayIn(language);
  const long = breaks.filter(({ startS, endS }) => endS - startS >= 10);
  if (long.length === 0) return [say("No break of 10 s or more.", "Keine Druckpause von 10 s oder mehr.")];
  return [
    say(`Breaks of 10 s or more: ${long.length}.`, `Druckpausen von 10 s oder mehr: ${long.length}.`),
    ...long.map(
      (one) => `  ${breakLine(one, language)}${one.excused === false ? say(": a lapse", ": der Druck war weg") : ""}`,
    ),
  ];
}

/** When, how long and why a break was. */
export function breakLine({ startS, endS, reason }: Break, language: Language): string {
  const why =
    typeof reason === "string"
      ? breakReasonWords(reason, language)
      : `${reason.coach} ${sayIn(language)("(set by coach)", "(vom Trainer gesetzt)")}`;
  return `${clockText(startS)}  ${durationText(endS - startS)}, ${why}`;
}
