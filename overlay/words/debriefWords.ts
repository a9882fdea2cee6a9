import { debriefDe } from "./debriefDe.ts";
import { debriefEn } from "./debriefEn.ts";
import type { DebriefPhrases } from "./debriefPhrases.ts";
import type { Language } from "./phrases.ts";

/** The phrase table of the written debrief and of the film's cards and captions in one language. */
export function debriefWords(language: Language): DebriefPhrases {
  return language === "de" ? debriefDe : debriefEn;
}
