import { Failure } from "../../contract/failure.ts";
import { LANGUAGES } from "../../contract/languageAndUnits.ts";
import { FOR_WHOM, PRESET_NAMES } from "../../contract/presets.ts";
import { renderJourney } from "../../journey/renderedFilm.ts";
import {
  lookChoices,
  lookOptions,
  lookOptionsHelp,
  outputChoices,
  outputOptions,
  outputOptionsHelp,
} from "../lookOptions.ts";
import { choiceOption, outFileOption, textOption } from "../options.ts";
import { hostHere } from "../../journey/host.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import type { Verb } from "../verb.ts";
import { handOverOptions, handOverOptionsHelp, playingOption, writtenJson } from "./debrief.ts";
import { flags, texts } from "../optionKinds.ts";

export const trustPathsHelp =
  "  --trust-paths          open media outside the debrief's folder although someone else made it";

export const render: Verb = {
  name: "render",
  summary: "renders the film of a debrief as it stands in its document",
  options: {
    ...texts("preset", "out"),
    ...flags("trust-paths"),
    ...handOverOptions,
    ...flags("hand-over", "seen", "no-teaching", "why"),
    ...lookOptions,
    ...outputOptions,
  },
  help: `followcar render DEBRIEF [options]

Renders the film of a debrief: DEBRIEF is its folder. The film follows debrief.json as it stands: picks, words, shots,
cards and overrules made there or in the window. What an earlier run finished is used again.

Options:
  --preset P             draft, share, phone or archive (default: the debrief's own)
  --out FILE             the film (default: film.mp4 in the folder)
  --hand-over            also the page, the message and the files that go with the film
  --seen                 a person has looked at a debrief that --batch prepared
${handOverOptionsHelp}
${outputOptionsHelp}
${lookOptionsHelp}
  --no-teaching          leaves out this time the parts that show what to change, where the rider's note speaks of
                         illness, pain, medicine, or too little sleep or food; debrief.json keeps them
  --why                  says why each part is in the film and what was left out
${trustPathsHelp}
  --json                 { "written": [paths], "warnings": [] }

Example:
  followcar render sunday-debrief --preset phone --out sunday-phone.mp4`,
  async run(positionals, values, context) {
    const [debriefPath, ...more] = positionals;
    if (debriefPath === undefined || more.length > 0) throw new Failure("verb-misused", { verb: "render" });
    const preset = choiceOption(values, "preset", PRESET_NAMES);
    const forWhom = choiceOption(values, "for", FOR_WHOM);
    const language = choiceOption(values, "language", LANGUAGES);
    const playingPage = playingOption(values);
    const handOver = values["hand-over"] === true;
    const outPath = outFileOption(values, "film");
    if (handOver && outPath !== null) throw new Failure("hand-over-and-out", {});
    const rendered = await renderJourney(
      {
        debriefPath,
        settings: {
          ...(preset === null ? {} : { preset }),
          ...(forWhom === null ? {} : { forWhom }),
          ...(language === null ? {} : { language }),
          ...(playingPage === null ? {} : { playingPage }),
          look: lookChoices(values),
          ...(values.percent === true ? { asPercent: true } : {}),
        },
        outPath,
        output: outputChoices(values),
        trustPaths: values["trust-paths"] === true,
        handOver,
        withoutTeaching: values["no-teaching"] === true,
        seen: values.seen === true,
        consent: textOption(values, "consent"),
      },
      hostHere(context.signal),
      context,
    );
    const words = cliWords(context.language);
    const why = values.why === true ? [words.whyInFilm, ...rendered.why.map((line) => `  ${line}`), ""] : [];
    return {
      json: writtenJson(rendered, context.language),
      lines: [...why, ...rendered.written],
      warnings: rendered.warnings,
    };
  },
};
