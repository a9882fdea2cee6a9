import type { Language, UnitSystem } from "../../main/contract/languageAndUnits.ts";

/** What stands on the pages' charts beside what `page` of the debrief's phrases names. */
export interface ChartPhrases {
  altitudeAxis(units: UnitSystem): string;
  readonly heartBandKey: string;
  /** Names the row of what the film shows; short, it stands before it. */
  readonly filmed: string;
  /** Names the row of the moments told on the page, by their numbers. */
  readonly moments: string;
}

const en: ChartPhrases = {
  altitudeAxis: (units) => `altitude (${units === "imperial" ? "ft" : "m"})`,
  heartBandKey: "planned heart rate",
  filmed: "film",
  moments: "told",
};

const de: ChartPhrases = {
  altitudeAxis: (units) => `Höhe (${units === "imperial" ? "ft" : "m"})`,
  heartBandKey: "geplanter Puls",
  filmed: "Film",
  moments: "Text",
};

/** The phrases of the pages' charts in one language. */
export function chartWords(language: Language): ChartPhrases {
  return language === "de" ? de : en;
}
