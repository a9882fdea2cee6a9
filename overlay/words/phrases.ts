import { de } from "./de.ts";
import { en } from "./en.ts";
import type { NumberStyle } from "./numbers.ts";

export type Language = "en" | "de";

/** Every fixed text that panels, cards and captions show, in one language. */
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
    readonly beats: string;
    readonly atLikePower: string;
    readonly warmUp: string;
    readonly coolDown: string;
  };
  readonly units: {
    readonly heartRate: string;
    readonly cadence: string;
  };
  readonly chart: {
    readonly power: string;
    readonly heartRate: string;
    readonly band: string;
    readonly first: string;
    readonly last: string;
    readonly onset: string;
    readonly mainPart: string;
  };
  readonly moments: MomentPhrases;
}

/** Sentences (`say`) and captions (`caption`, at most 10 words) of the moments; `{name}` is filled from the moment's numbers. */
export type MomentPhrases = Readonly<Record<string, { readonly say: string; readonly caption: string }>>;

/** The phrase table of a language. */
export function phrasesFor(language: Language): Phrases {
  return language === "de" ? de : en;
}
