import { Failure } from "../../contract/failure.ts";
import { PRESET_NAMES } from "../../contract/presets.ts";
import { overlayJourney } from "../../journey/overlayJourney.ts";
import { lookChoices, lookOptions, lookOptionsHelp, outputChoices, outputOptions, outputOptionsHelp } from "../lookOptions.ts";
import { choiceOption, textOption } from "../options.ts";
import { toolsInUse } from "../toolsInUse.ts";
import type { Verb } from "../verb.ts";
import { writtenJson } from "./debrief.ts";
import { lineupChoices, lineupOptions, lineupOptionsHelp } from "./lineup.ts";
import { athleteOptionHelp, planChoices, planOptions, planOptionsHelp } from "./read.ts";

export const overlay: Verb = {
  name: "overlay",
  summary: "panels over whole clips, or as a transparent track for an editing program",
  options: { ...planOptions, ...lineupOptions, out: { type: "string" }, preset: { type: "string" }, transparent: { type: "boolean" }, codec: { type: "string" }, ...lookOptions, ...outputOptions },
  help: `followcar overlay RIDE CLIP… --out FILE [options]

Lays the ride's numbers over whole clips, one after the other.

Options:
  --out FILE             the film to write (.mp4; .mov with --transparent)
  --transparent          the panels alone, on nothing, at constant rate, frame by frame beside the clip
  --codec C              of a transparent track: animation (default, lossless, small) or prores (ProRes 4444)
  --preset P             draft, share (default), phone or archive
${outputOptionsHelp}
${lookOptionsHelp}
${planOptionsHelp}
${athleteOptionHelp}
${lineupOptionsHelp}
  --json                 { "written": [paths], "warnings": [] }

Example:
  followcar overlay sunday.fit bar-1.mp4 --anchor bar-1.mp4@0:12=1:08:05 --transparent --out bar-1-panels.mov`,
  async run(positionals, values, context) {
    const out = textOption(values, "out");
    if (positionals.length < 2 || out === null) throw new Failure("usage", "overlay takes a ride, at least one clip and --out.", "See: followcar overlay --help.");
    const codec = choiceOption(values, "codec", ["animation", "prores"]) ?? "animation";
    const outcome = await overlayJourney(
      {
        paths: positionals,
        ...lineupChoices(values),
        acceptUnsure: values["accept-unsure"] === true,
        plan: planChoices(values),
        preset: choiceOption(values, "preset", PRESET_NAMES) ?? "share",
        outPath: out,
        look: lookChoices(values),
        output: outputChoices(values),
        transparent: values.transparent === true ? codec : null,
      },
      toolsInUse(),
      context,
    );
    return { json: writtenJson(outcome), lines: outcome.written, warnings: outcome.warnings };
  },
};
