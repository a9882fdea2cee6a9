import type { DebriefPhrases, PowerText } from "./debriefPhrases.ts";
import { pageDe } from "./pageDe.ts";
import type { Voice } from "./voice.ts";
import { filmDe, momentName } from "./filmDe.ts";
import { changeLine, compareLine, heldLine, nextLine } from "./linesDe.ts";

/** German: the second language. */
export const debriefDe = (power: PowerText, who: Voice): DebriefPhrases => ({
  language: "de",
  heldLine: (story) => heldLine(story, power, who),
  changeLine: (story) => changeLine(story, power, who),
  nextLine: (story) => nextLine(story, power, who),
  compareLine,
  momentName: (kind) => momentName(kind, who),
  page: pageDe(power, who),
  film: filmDe(power, who),
});
