import { basename } from "node:path";
import type { Language } from "../contract/languageAndUnits.ts";
import { cliWords } from "../../overlay/words/cliWords.ts";
import { shellWord } from "../../overlay/words/shellWord.ts";
import type { OptionValues } from "./verb.ts";

/** Which files of an earlier hand-over do not say yet what was changed, and the command that makes them say it. */
export function notYetLines(
  outdated: readonly string[],
  debriefPath: string,
  values: OptionValues,
  language: Language,
): string[] {
  if (outdated.length === 0) return [];
  const trust = values["trust-paths"] === true ? " --trust-paths" : "";
  const command = `followcar render ${shellWord(debriefPath)} --hand-over${trust}`;
  return ["", cliWords(language).notYetIn(outdated.map((path) => basename(path)).join(", "), command)];
}
