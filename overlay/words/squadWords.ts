import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { SquadLook } from "../../main/contract/squad.ts";
import { clockText, durationText } from "./numbers.ts";

/** What the squad's page says, to the coach. */
export interface SquadPhrases {
  readonly title: string;
  /** How many rides, how many of them need a look, were seen, could not be prepared, are not prepared yet. */
  counts(counts: {
    readonly rides: number;
    readonly looks: number;
    readonly seen: number;
    readonly failed: number;
    readonly waiting: number;
  }): string;
  readonly tick: string;
  readonly failedTitle: string;
  readonly waiting: string;
  readonly seen: string;
  readonly looksTitle: string;
  readonly noLooks: string;
  look(look: SquadLook): string;
  readonly message: string;
  readonly messageMore: string;
  readonly film: string;
  readonly figures: string;
  readonly caution: string;
}

const list = (names: readonly string[], more: string): string =>
  names.length <= 3 ? names.join(", ") : `${names.slice(0, 3).join(", ")} ${more} ${names.length - 3}`;

const en: SquadPhrases = {
  title: "Squad",
  counts: ({ rides, looks, seen, failed, waiting }) =>
    [
      `${rides} ${rides === 1 ? "ride" : "rides"}`,
      `${looks} to look at`,
      `${seen} seen`,
      ...(failed === 0 ? [] : [`${failed} could not be prepared`]),
      ...(waiting === 0 ? [] : [`${waiting} not prepared yet`]),
    ].join(", ") + ".",
  tick:
    "The tick folds a ride away while you read; it is not kept when you close this page. A debrief that you have opened in " +
    "the window is ticked when the page is next made (the same command again).",
  failedTitle: "Could not be prepared",
  waiting: "not prepared yet",
  seen: "seen",
  looksTitle: "Look first:",
  noLooks: "Nothing stands out.",
  look: (look) => {
    switch (look.what) {
      case "note":
        return "the note speaks of health, medicine or an odd day: read it first";
      case "heart":
        return `odd heart reading at ${clockText(look.startS)}: most often the strap; ask the rider`;
      case "clips":
        return `not sure where ${list(look.fileNames, "and")} ${look.fileNames.length === 1 ? "belongs" : "belong"}: left out`;
      case "asked":
        return `${look.count} of your earlier choices ${look.count === 1 ? "has" : "have"} no sure place any more`;
      case "no target":
        return "nothing was asked for, so nothing was judged: is the plan missing?";
      case "target":
        return "the target looks wrong for this ride: is it the right plan, meter and rider?";
      case "short":
        return `the file holds ${durationText(look.elapsedS)} only: is that the whole ride?`;
    }
  },
  message: "Message to copy",
  messageMore: "A click marks all of it.",
  film: "film",
  figures: "all figures",
  caution: "Nothing has gone to an athlete. Not medical advice; sports sensors can be wrong.",
};

const de: SquadPhrases = {
  title: "Gruppe",
  counts: ({ rides, looks, seen, failed, waiting }) =>
    [
      `${rides} ${rides === 1 ? "Ausfahrt" : "Ausfahrten"}`,
      `${looks} anzusehen`,
      `${seen} gesehen`,
      ...(failed === 0 ? [] : [`${failed} nicht vorbereitet`]),
      ...(waiting === 0 ? [] : [`${waiting} noch nicht vorbereitet`]),
    ].join(", ") + ".",
  tick:
    "Das Häkchen klappt eine Ausfahrt beim Lesen zu; beim Schließen der Seite geht es verloren. Was du im Fenster geöffnet " +
    "hast, ist abgehakt, sobald die Seite neu gemacht wird (derselbe Befehl noch einmal).",
  failedTitle: "Ließ sich nicht vorbereiten",
  waiting: "noch nicht vorbereitet",
  seen: "gesehen",
  looksTitle: "Zuerst ansehen:",
  noLooks: "Nichts fällt auf.",
  look: (look) => {
    switch (look.what) {
      case "note":
        return "die Notiz spricht von Gesundheit, Medizin oder einem ungewöhnlichen Tag: lies sie zuerst";
      case "heart":
        return `auffälliger Puls bei ${clockText(look.startS)}: meist der Gurt; frag nach`;
      case "clips":
        return `unsicher, wohin ${list(look.fileNames, "und noch")} ${look.fileNames.length === 1 ? "gehört" : "gehören"}: weggelassen`;
      case "asked":
        return look.count === 1
          ? "eine deiner früheren Entscheidungen hat keinen sicheren Platz mehr"
          : `${look.count} deiner früheren Entscheidungen haben keinen sicheren Platz mehr`;
      case "no target":
        return "nichts war verlangt, also ist nichts beurteilt: fehlt der Plan?";
      case "target":
        return "das Ziel passt offenbar nicht zu dieser Fahrt: stimmen Plan, Leistungsmesser und Fahrer?";
      case "short":
        return `die Datei enthält nur ${durationText(look.elapsedS)}: ist das die ganze Ausfahrt?`;
    }
  },
  message: "Nachricht zum Kopieren",
  messageMore: "Ein Klick markiert alles.",
  film: "Film",
  figures: "alle Zahlen",
  caution: "Noch ging nichts an einen Sportler. Kein ärztlicher Rat; Sportsensoren können falsch liegen.",
};

/** The phrases of the squad's page in one language. */
export function squadWords(language: Language): SquadPhrases {
  return language === "de" ? de : en;
}
