import { Failure } from "../../contract/failure.ts";
import { renderJourney } from "../../journey/renderJourney.ts";
import { choiceOption, textOption } from "../options.ts";
import { toolsInUse } from "../toolsInUse.ts";
import type { Verb } from "../verb.ts";
import { PRESET_NAMES, writtenJson } from "./debrief.ts";

export const trustPathsHelp = "  --trust-paths          open media outside the debrief's folder although someone else made it";

export const render: Verb = {
  name: "render",
  summary: "renders the film of a debrief as it stands in its document",
  options: { preset: { type: "string" }, out: { type: "string" }, "trust-paths": { type: "boolean" } },
  help: `followcar render DEBRIEF [options]

Renders the film of a debrief: DEBRIEF is its folder. What an earlier run finished is used again.

Options:
  --preset P             draft, share, phone or archive (default: the debrief's own)
  --out FILE             the film (default: film.mp4 in the folder)
${trustPathsHelp}
  --json                 { "written": [paths], "warnings": [] }

Example:
  followcar render sunday-debrief --preset phone --out sunday-phone.mp4`,
  async run(positionals, values, context) {
    const [debriefPath, ...more] = positionals;
    if (debriefPath === undefined || more.length > 0) throw new Failure("usage", "render takes one debrief folder.", "See: followcar render --help.");
    const path = await renderJourney(
      { debriefPath, preset: choiceOption(values, "preset", PRESET_NAMES), outPath: textOption(values, "out"), trustPaths: values["trust-paths"] === true },
      toolsInUse(),
      context,
    );
    return { json: writtenJson({ written: [path], warnings: [] }), lines: [path], warnings: [] };
  },
};
