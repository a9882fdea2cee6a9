import type { Language } from "../../main/contract/languageAndUnits.ts";

/** What the page says in which the film plays; the athlete's language. */
export interface PlayingPhrases {
  readonly film: string;
  /** How to use it. */
  readonly how: string;
  readonly parts: string;
  readonly chartButton: string;
  /** Where no script runs. */
  readonly noScript: string;
}

const en: PlayingPhrases = {
  film: "The film",
  how: "Touch a line below or a place on the chart: the film goes there.",
  parts: "In the film",
  chartButton: "The ride: touch a place, the film goes to what was filmed nearest to it",
  noScript: "Here the film cannot play inside the page. Open the page in a browser, or play film.mp4 by itself.",
};

const de: PlayingPhrases = {
  film: "Der Film",
  how: "Tipp eine Zeile unten oder eine Stelle im Diagramm an: Der Film springt dorthin.",
  parts: "Im Film",
  chartButton: "Die Ausfahrt: Tipp eine Stelle an, der Film springt zu dem, was ihr am nächsten gefilmt wurde",
  noScript: "Hier kann der Film nicht in der Seite spielen. Öffne sie in einem Browser oder spiel film.mp4 allein ab.",
};

/** The phrases of the page that plays, in one language. */
export function playingWords(language: Language): PlayingPhrases {
  return language === "de" ? de : en;
}
