import { LANGUAGES } from "../../contract/languageAndUnits.ts";
import { Failure } from "../../contract/failure.ts";
import { planJourney } from "../../journey/planSheet.ts";
import { hostHere } from "../../journey/host.ts";
import { planHelp } from "../../journey/planSource.ts";
import { choiceOption, textOption } from "../options.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import { shellWord } from "../../../overlay/words/shellWord.ts";
import type { Verb } from "../verb.ts";
import { writtenJson } from "./debrief.ts";
import { planOptions, planChoices } from "./read.ts";
import { texts } from "../optionKinds.ts";

export const plan: Verb = {
  name: "plan",
  summary: "makes a plan file to fill in and a page for the athlete, and explains its keys",
  options: { ...planOptions, ...texts("out", "language") },
  help: `followcar plan [options]

Writes plan.json, the file that says what the rider was asked to do (read and debrief take it with --plan), and
plan.html, half a page for the athlete before the ride.

Options:
  --plan FILE            start from this plan (it is checked)
  --target W             target power, watts
  --tolerance W          how far either side of it is still on target, watts
  --setting S            road, trainer or group
  --athlete DIR          the athlete's folder: target, event, units and language from athlete.json
  --out DIR              where to write (default: this folder); older files are not overwritten
  --language L           of the athlete's page: en or de (default: the athlete's, else en)
  --json                 { "written": [paths], "warnings": [] }

${planHelp}`,
  async run(positionals, values, { signal, language }) {
    if (positionals.length > 0) throw new Failure("verb-misused", { verb: "plan" });
    const outcome = await planJourney(
      planChoices(values),
      textOption(values, "out") ?? ".",
      choiceOption(values, "language", LANGUAGES),
      hostHere(signal),
    );
    const words = cliWords(language);
    const { written, planPath, sheetPath, hasTarget, warnings } = outcome;
    return {
      json: writtenJson(outcome, language),
      lines: [
        words.written,
        ...written.map((path) => `  ${path}`),
        "",
        ...words.planNext(shellWord(planPath), sheetPath, hasTarget),
      ],
      warnings,
    };
  },
};
