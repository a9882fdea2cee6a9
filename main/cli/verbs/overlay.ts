import { Failure } from "../../contract/failure.ts";
import { PRESET_NAMES, USUAL_PRESET } from "../../contract/presets.ts";
import { overlayJourney } from "../../journey/overlaidClips.ts";
import {
  lookChoices,
  lookOptions,
  lookOptionsHelp,
  outputChoices,
  outputOptions,
  outputOptionsHelp,
} from "../lookOptions.ts";
import { choiceOption, outFileOption } from "../options.ts";
import { hostHere } from "../../journey/host.ts";
import type { OptionValues, Verb } from "../verb.ts";
import { writtenJson } from "./debrief.ts";
import { lineupChoices, lineupOptions, lineupOptionsHelp } from "./lineup.ts";
import { athleteOptionHelp, planChoices, planOptions, planOptionsHelp } from "./read.ts";
import { flags, texts } from "../optionKinds.ts";

/** What says nothing for a film of whole clips, and what says nothing for a track without a picture, whose size is its clips' own. */
const IDLE = {
  film: ["codec", "slow-sound"],
  track: ["shape", "as-filmed", "fit", "size", "encoder", "slow-sound"],
} as const;

/** Failure `usage` where an option was given that would change nothing. */
function refuseIdle(values: OptionValues, transparent: boolean): void {
  const idle = (transparent ? IDLE.track : IDLE.film).find((name) => values[name] !== undefined);
  if (idle === undefined) return;
  throw new Failure("option-idle", { option: idle, transparent });
}

export const overlay: Verb = {
  name: "overlay",
  summary: "panels over whole clips, or as a transparent track for an editing program",
  options: {
    ...planOptions,
    ...lineupOptions,
    ...texts("out", "preset", "codec"),
    ...flags("transparent"),
    ...lookOptions,
    ...outputOptions,
  },
  help: `followcar overlay RIDE CLIP… --out FILE [options]

Lays the ride's numbers over whole clips, one after the other.

Options:
  --out FILE             the film to write (.mp4; .mov with --transparent)
  --transparent          the panels alone, on nothing, at constant rate, frame by frame beside the clip
  --codec C              of a transparent track: animation (default; lossless, small) or prores (ProRes 4444, for programs
                         that ask for it; larger, and off by up to 3 levels of 255 at the edges of figures)
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
    const transparent = values.transparent === true;
    const out = transparent ? outFileOption(values, "track") : outFileOption(values, "film");
    if (positionals.length < 2 || out === null) throw new Failure("verb-misused", { verb: "overlay" });
    refuseIdle(values, transparent);
    const codec = choiceOption(values, "codec", ["animation", "prores"]) ?? "animation";
    const outcome = await overlayJourney(
      {
        paths: positionals,
        ...lineupChoices(values),
        acceptUnsure: values["accept-unsure"] === true,
        plan: planChoices(values),
        preset: choiceOption(values, "preset", PRESET_NAMES) ?? USUAL_PRESET,
        outPath: out,
        look: lookChoices(values),
        output: outputChoices(values),
        transparent: transparent ? codec : null,
      },
      hostHere(context.signal),
      context,
    );
    return { json: writtenJson(outcome, context.language), lines: outcome.written, warnings: outcome.warnings };
  },
};
