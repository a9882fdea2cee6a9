import { SETTINGS } from "../../contract/plan.ts";
import { Failure } from "../../contract/failure.ts";
import type { PlanChoices } from "../../journey/planSource.ts";
import { hostHere } from "../../journey/host.ts";
import { readJourney, readJson, readLines } from "../../journey/judge.ts";
import { breakLines } from "../../../overlay/words/breakWords.ts";
import { choiceOption, numberOption, textOption } from "../options.ts";
import type { OptionValues, Verb } from "../verb.ts";
import { flags, texts } from "../optionKinds.ts";

export const planOptions = texts("plan", "target", "tolerance", "setting", "athlete");

/** The plan as the command line gives it. */
export function planChoices(values: OptionValues): PlanChoices {
  return {
    planPath: textOption(values, "plan"),
    athleteDir: textOption(values, "athlete"),
    targetW: numberOption(values, "target", "watts", 20, 2000),
    toleranceW: numberOption(values, "tolerance", "watts", 1, 500),
    setting: choiceOption(values, "setting", SETTINGS),
  };
}

export const planOptionsHelp = `  --plan FILE            the plan (JSON; followcar plan --help)
  --target W             target power, watts; wins over the plan
  --tolerance W          how far either side of it is still on target, watts
  --setting S            road, trainer or group (default road)`;

export const athleteOptionHelp = `  --athlete DIR          the athlete's folder: what athlete.json says (target of the ride's day, event, units) stands
                         where neither the plan nor an option says it; five earlier rides debriefed there tell an
                         unusual heart rate`;

export const read: Verb = {
  name: "read",
  summary: "reads a ride against its plan: pressure, heart rate, moments",
  options: { ...planOptions, ...flags("breaks") },
  help: `followcar read RIDE [options]

Reads one ride file (FIT, GPX, TCX or CSV, plain or gzipped) and says what a coach would: how steady the pressure was,
where it was lost and why, how the heart rate rose and whether one can say when, and the moments worth seeing.

Options:
${planOptionsHelp}
${athleteOptionHelp}
  --breaks               lists every break of 10 s or more with its reason
  --json                 the whole reading as JSON; times are seconds since the ride's first record

Example:
  followcar read sunday.fit --target 160 --tolerance 10

Exit codes: 0 done, 2 wrong usage, 3 the ride or the plan cannot be used.`,
  async run(positionals, values, { signal, language }) {
    const [ridePath, ...more] = positionals;
    if (ridePath === undefined || more.length > 0) {
      throw new Failure("verb-misused", { verb: "read" });
    }
    const outcome = await readJourney(ridePath, planChoices(values), hostHere(signal).rides);
    const lines = readLines(outcome, language);
    // The lines and the JSON hold the reading's warnings themselves.
    return {
      json: readJson(outcome, language),
      lines: values.breaks === true ? [...lines, "", ...breakLines(outcome.reading.breaks, language)] : lines,
      warnings: [],
    };
  },
};
