import { Failure } from "../../contract/failure.ts";
import { weeksJourney, weeksRoadsSaid } from "../../journey/weeksPage.ts";
import { ExitCode } from "../exitCode.ts";
import { textOption } from "../options.ts";
import type { Verb } from "../verb.ts";
import { writtenJson } from "./debrief.ts";
import { texts } from "../optionKinds.ts";

export const weeks: Verb = {
  name: "weeks",
  summary: "the athlete's log over the debriefs in a folder",
  options: texts("name", "language"),
  help: `followcar weeks DIR [options]

Reads every debrief in DIR and writes weeks.html there: drift, time without drift against the event, time in the band
and breaks over the weeks; trainer and road apart; no trend line under five rides. Roads of 3 km or 5 min that were
ridden more than once are listed too, with power, heart rate at like power, breaks and the ride's drift; a debrief looks
for them in the athlete's last eight rides. Of several debriefs of one and the same ride the one saved last counts.

Options:
  --name NAME            the athlete's name for the title (default: the one in DIR's athlete.json)
  --language L           en (default) or de
  --json                 { "written": [paths], "warnings": [], "roads": [] }

Exit codes: 0 written, 2 wrong usage, 3 DIR holds no debrief that can be used, or is itself one: nothing was written.`,
  async run(positionals, values, { language }) {
    const [folder, ...more] = positionals;
    if (folder === undefined || more.length > 0) throw new Failure("verb-misused", { verb: "weeks" });
    const outcome = await weeksJourney(folder, textOption(values, "name"), language);
    const roads = weeksRoadsSaid(outcome.log, language);
    return {
      json: { ...writtenJson(outcome, language), roads: roads.json },
      lines: [...outcome.written, ...roads.lines],
      warnings: outcome.warnings,
      exitCode: outcome.written.length === 0 ? ExitCode.inputNotUsable : ExitCode.done,
    };
  },
};
