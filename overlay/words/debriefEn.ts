import type { DebriefPhrases, PowerText } from "./debriefPhrases.ts";
import { pageEn } from "./pageEn.ts";
import type { Voice } from "./voice.ts";
import { filmEn, momentName } from "./filmEn.ts";
import { changeLine, compareLine, heldLine, nextLine } from "./linesEn.ts";

/** English: the complete table. */
export const debriefEn = (power: PowerText, who: Voice): DebriefPhrases => ({
  language: "en",
  heldLine: (story) => heldLine(story, power, who),
  changeLine: (story) => changeLine(story, power, who),
  nextLine: (story) => nextLine(story, power, who),
  compareLine,
  momentName: (kind) => momentName(kind, who),
  page: pageEn(power, who),
  film: filmEn(power, who),
});
