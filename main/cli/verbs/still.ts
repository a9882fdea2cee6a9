import { Failure } from "../../contract/failure.ts";
import { stillJourney } from "../../journey/renderedFilm.ts";
import { parseClockS } from "../parseClockS.ts";
import { lookChoices, lookOptions, lookOptionsHelp } from "../lookOptions.ts";
import { flags, texts } from "../optionKinds.ts";
import { outFileOption, textOption } from "../options.ts";
import { hostHere } from "../../journey/host.ts";
import type { Verb } from "../verb.ts";
import { writtenJson } from "./debrief.ts";
import { trustPathsHelp } from "./render.ts";

export const still: Verb = {
  name: "still",
  summary: "one frame of a debrief's film, with its panels, as PNG",
  options: { ...texts("at", "out"), ...flags("trust-paths"), ...lookOptions },
  help: `followcar still DEBRIEF --at T --out PNG

Paints one frame of the film, exactly as the film shows it. T is film time: seconds or m:ss.s.

Options:
  --at T                 film time
  --out PNG              the picture to write
${lookOptionsHelp}
${trustPathsHelp}
  --json                 { "written": [paths], "warnings": [] }

Example:
  followcar still sunday-debrief --at 0:31.5 --out lapse.png`,
  async run(positionals, values, context) {
    const [debriefPath, ...more] = positionals;
    const at = textOption(values, "at");
    const out = outFileOption(values, "picture");
    if (debriefPath === undefined || more.length > 0 || at === null || out === null) {
      throw new Failure("verb-misused", { verb: "still" });
    }
    const path = await stillJourney(
      {
        debriefPath,
        atS: parseClockS(at, "at"),
        outPath: out,
        trustPaths: values["trust-paths"] === true,
        settings: { look: lookChoices(values) },
      },
      hostHere(context.signal),
      context,
    );
    return { json: writtenJson({ written: [path], warnings: [] }, context.language), lines: [path], warnings: [] };
  },
};
