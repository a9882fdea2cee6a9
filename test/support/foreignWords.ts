import type { Language } from "../../main/contract/languageAndUnits.ts";

/** Words that every longer text of a language has, and the other language never: common practice, no source. */
const MARKS: Readonly<Record<Language, readonly string[]>> = {
  en: (
    "the and of is are with from that this not for at by which it has have but to or into than there where when about " +
    "against could can no on as its their been only cannot without after before between its all each " +
    // Of the trade, and what figures and their values are called.
    "power heart rate cadence speed beat beats minutes hour hours break breaks pressure unknown yes corner braking " +
    "stopped turn reading first last mean rise set coach table stretch stretches lap"
  ).split(" "),
  de: (
    "der das dem des und ist sind nicht mit von vom für ein eine einer eines auf zu nach wird wurde auch oder aus bei " +
    "im zum zur keine kein noch nur über unter dass ohne zwischen vor"
  ).split(" "),
};

/** What was said, without names, codes and paths. */
export function plainWords(text: string): string[] {
  return text
    .replace(
      /`[^`]*`|"[^"]*"|„[^“]*“|--[\w-]+(=\S+)?|\S*[/\\]\S*|\S+\.(fit|gpx|tcx|csv|gz|mp4|png|html|json|txt|pdf|vtt|otio)\b/g,
      " ",
    )
    .toLowerCase()
    .split(/[^\p{L}]+/u);
}

/** Whether a text has a word that only this language has. */
export function speaks(language: Language, text: string): boolean {
  return plainWords(text).some((word) => MARKS[language].includes(word));
}

/** Lines of a text in which a word of the other language stands, with the words. */
export function foreignLines(language: Language, text: string): string[] {
  const other = MARKS[language === "de" ? "en" : "de"];
  return text.split("\n").flatMap((line) => {
    const found = plainWords(line).filter((word) => other.includes(word));
    return found.length === 0 ? [] : [`${found.join(", ")}: ${line.trim()}`];
  });
}
