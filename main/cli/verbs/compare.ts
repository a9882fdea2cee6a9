import { Failure } from "../../contract/failure.ts";
import { FOLLOW_WAYS } from "../../contract/pair.ts";
import { PRESET_NAMES, USUAL_PRESET } from "../../contract/presets.ts";
import { compareJourney, comparedJson } from "../../journey/comparedRides.ts";
import { hostHere } from "../../journey/host.ts";
import { comparedLines } from "../../../overlay/words/compareWords.ts";
import {
  fileOptionsHelp,
  lookChoices,
  lookOptions,
  lookOptionsHelp,
  outputChoices,
  outputOptions,
} from "../lookOptions.ts";
import { choiceOption, numberOption, outFileOption, textOption, textOptions } from "../options.ts";
import type { OptionValues, Verb } from "../verb.ts";
import { writtenJson } from "./debrief.ts";
import { lineupChoices, lineupOptions } from "./lineup.ts";
import { athleteOptionHelp, planChoices, planOptions, planOptionsHelp } from "./read.ts";
import { lists, texts } from "../optionKinds.ts";

/** `you,coach` as two names. */
function names(values: OptionValues): readonly [string, string] | null {
  const text = textOption(values, "names");
  if (text === null) return null;
  const [first, second, ...more] = text.split(",").map((name) => name.trim());
  if (!first || !second || more.length > 0) throw new Failure("names-not-two", { text });
  return [first, second];
}

const { show: _, ...clipOptions } = lineupOptions;
/** A pair is never slowed as a shot is. */
const { "slow-sound": __, ...fileOptions } = outputOptions;

export const compare: Verb = {
  name: "compare",
  summary: "two rides over one stretch of road: a table, and a film of both side by side",
  options: {
    ...texts("from", "to", "pass", "by", "names", "out", "preset"),
    ...lists("second"),
    ...clipOptions,
    ...planOptions,
    ...lookOptions,
    ...fileOptions,
  },
  help: `followcar compare RIDE_A RIDE_B [CLIP…] [--from PLACE] [--to PLACE] [--out FILE] [options]

Lays two rides on one road by place and compares them over a stretch that both rode in the same direction: time, power,
heart rate and breaks in pressure, part by part. What is said is said of RIDE_A. With --out also a film of both, side by
side (one above the other in an upright film); a side without footage shows its numbers and the road.

Options:
  --from PLACE           where the stretch begins in RIDE_A: 1:08:05, "timer 1:06:30", "clock 10:42:17", "32.41 km" or
                         "lap 3"; --to PLACE where it ends (default: the longest stretch that both rode)
  --pass N               which of RIDE_B's passes, where it went along there several times (default 1)
  --out FILE             the film (.mp4), at most 10 min of RIDE_A
  --by W                 place (default): both pictures are at one spot of the road, the second follows;
                         time: both as filmed from where the stretch begins, and a gap opens
  --names A,B            what the two are called on the picture (default: their days, or their files' names)
  --second CLIP          a clip that shows RIDE_B; the others show RIDE_A, or RIDE_B where they show nothing of RIDE_A
  --anchor CLIP@T=RIDE_T this instant of the clip is this instant of the ride that it shows (lineup --help)
  --device-delay S       how late the bike computer shows what happens, seconds (default 0)
  --accept-unsure        go on where a clip's place is not sure
  --preset P             draft, share (default), phone or archive
${fileOptionsHelp}
${lookOptionsHelp}
${planOptionsHelp}
${athleteOptionHelp}
  --json                 { "first", "second", "pass", "passes", "whole": ROW, "parts": [ROW], "written", "warnings" };
                         ROW: fromM, toM, gainedS, and for each ride startS, endS, powerW, heartRateBpm, breaks

Example:
  followcar compare sunday.fit three-weeks-ago.fit --from "32.4 km" --to "35.1 km" --out rise.mp4

Exit codes: 0 done, 2 wrong usage, 3 input not usable or no such stretch in both, 4 not sure where a clip belongs.`,
  async run(positionals, values, context) {
    if (positionals.length < 2) throw new Failure("verb-misused", { verb: "compare" });
    const { language } = context;
    const look = lookChoices(values);
    const pass = numberOption(values, "pass", "times", 1, 1000);
    const outcome = await compareJourney(
      {
        paths: positionals,
        secondClips: textOptions(values, "second"),
        ...lineupChoices(values),
        acceptUnsure: values["accept-unsure"] === true,
        from: textOption(values, "from"),
        to: textOption(values, "to"),
        pass: pass === null ? null : Math.round(pass),
        follow: choiceOption(values, "by", FOLLOW_WAYS) ?? "place",
        names: names(values),
        plan: planChoices(values),
        language,
        units: look.units ?? null,
        outPath: outFileOption(values, "film"),
        preset: choiceOption(values, "preset", PRESET_NAMES) ?? USUAL_PRESET,
        look,
        output: outputChoices(values),
      },
      hostHere(context.signal),
      context,
    );
    return {
      json: { ...comparedJson(outcome), ...writtenJson(outcome, language) },
      lines: [...comparedLines(outcome.stretch, outcome.files, language, outcome.units), ...outcome.written],
      warnings: outcome.warnings,
    };
  },
};
