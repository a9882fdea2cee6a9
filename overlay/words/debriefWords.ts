import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { ForWhom } from "../../main/contract/presets.ts";
import { debriefDe } from "./debriefDe.ts";
import { debriefEn } from "./debriefEn.ts";
import type { DebriefPhrases, PowerText } from "./debriefPhrases.ts";
import { aboutRider, toAthlete } from "./voice.ts";
import { wholeText } from "./numbers.ts";

/**
 * The phrase table of the written debrief and of the film's cards and captions in one language.
 * @param percentOfW where given, power is said as a share of this many watts (for a lesson, which keeps the watts back)
 * @param forWhom a lesson speaks of the rider to others, not to the rider
 */
export function debriefWords(
  language: Language,
  percentOfW: number | null = null,
  forWhom: ForWhom = "athlete",
): DebriefPhrases {
  const who = forWhom === "lesson" ? aboutRider : toAthlete;
  const power: PowerText =
    percentOfW === null ? (watts) => `${wholeText(watts)} W` : (watts) => `${wholeText((100 * watts) / percentOfW)} %`;
  return language === "de" ? debriefDe(power, who) : debriefEn(power, who);
}
