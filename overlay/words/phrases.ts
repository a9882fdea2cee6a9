import { de } from "./de.ts";
import { en } from "./en.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { NumberStyle } from "./numbers.ts";

/** Every fixed text of panels and charts, in one language. What the debrief says stands in `debriefPhrases.ts`. */
export interface Phrases {
  readonly language: Language;
  readonly numbers: NumberStyle;
  readonly panels: {
    readonly heartRate: string;
    readonly cadence: string;
    readonly power3s: string;
    readonly power: string;
    readonly speed: string;
    readonly gradient: string;
    readonly time: string;
    readonly mainPart: string;
    readonly drift: string;
    readonly route: string;
    /** The map's label where it shows the stretch that two rides share. */
    readonly sharedRoad: string;
    readonly beats: string;
    readonly atLikePower: string;
    readonly warmUp: string;
    readonly coolDown: string;
  };
  readonly units: {
    readonly heartRate: string;
    readonly cadence: string;
  };
  /** This ride, where another one's numbers stand behind its own. */
  readonly now: string;
  /** The rider whose film it is, beside another rider, where no name was said. */
  readonly you: string;
  /** Between two rides side by side, said of the first. */
  readonly pair: { readonly gained: string; readonly lost: string; readonly level: string };
  readonly chart: {
    readonly power: string;
    readonly heartRate: string;
    readonly band: string;
    readonly first: string;
    readonly last: string;
    readonly onset: string;
    readonly mainPart: string;
    readonly heartBand: string;
    readonly altitude: string;
    /** Names what is marked as shown in the film. */
    readonly inFilm: string;
  };
}

/** The phrase table of a language. */
export function phrasesFor(language: Language): Phrases {
  return language === "de" ? de : en;
}
