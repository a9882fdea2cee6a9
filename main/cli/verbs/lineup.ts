import { lineupJson } from "../../lineup/lineupJson.ts";
import { lineupJourney, notSure, type LineupOutcome } from "../../journey/lineupJourney.ts";
import { ExitCode } from "../exitCode.ts";
import { numberOption, textOption, textOptions } from "../options.ts";
import { toolsInUse } from "../toolsInUse.ts";
import type { OptionValues, Verb } from "../verb.ts";
import { clockText } from "../../../overlay/words/numbers.ts";

export const lineupOptions = {
  anchor: { type: "string", multiple: true },
  "device-delay": { type: "string" },
  "accept-unsure": { type: "boolean" },
  show: { type: "string" },
} as const;

/** What the command line says about the line-up. */
export function lineupChoices(values: OptionValues) {
  return {
    anchors: textOptions(values, "anchor"),
    deviceDelayS: numberOption(values, "device-delay", "seconds", -10, 10) ?? 0,
    show: textOption(values, "show"),
  };
}

export const lineupOptionsHelp = `  --anchor CLIP@T=RIDE_T this instant in a clip is this instant in the ride; may be given several times.
                         T: seconds or h:mm:ss.s into the clip. RIDE_T, whatever you can read off something:
                         1:08:05 (since the first record), "timer 1:06:30" (pauses out), "clock 10:42:17"
                         (local time of day), "32.41 km", "lap 3" (its beginning)
  --device-delay S       how late the bike computer shows what happens, seconds (default 0)
  --accept-unsure        go on where a clip's place is not sure
  --show RIDE            whose numbers are shown, with several rides (default: the first)`;

/** One line a clip for a person. */
export function lineupLines({ clips, lineup }: LineupOutcome): string[] {
  return lineup.clips.map((placement) => {
    const clip = clips.find((entry) => entry.id === placement.clipId)!;
    const at = placement.clock === null ? "nowhere" : `at ${clockText(placement.clock.offsetS)}`;
    const about = placement.uncertaintyS === null ? "" : `, to about ${placement.uncertaintyS.toFixed(1)} s`;
    return `${clip.fileName}: ${at} of the ride (${placement.verdict}${about}). ${placement.reason}`;
  });
}

export const lineup: Verb = {
  name: "lineup",
  summary: "finds where the clips sit in the ride, and says how sure that is",
  options: lineupOptions,
  help: `followcar lineup RIDE… CLIP… [options]

Puts footage and ride on one clock. An anchor that you set always wins; a camera's clock alone is never called sure.

Options:
${lineupOptionsHelp}
  --json                 offset, clock rate, method and confidence of each clip

Example:
  followcar lineup sunday.fit bar-1.mp4 bar-2.mp4 --anchor "bar-1.mp4@0:12=clock 10:42:17"

Exit codes: 0 every clip is sure, 4 at least one is not (unless --accept-unsure), 2 wrong usage, 3 input not usable.`,
  async run(positionals, values) {
    const outcome = await lineupJourney({ paths: positionals, ...lineupChoices(values) }, toolsInUse());
    const doubt = values["accept-unsure"] ? null : notSure(outcome.clips, outcome.lineup);
    return {
      json: lineupJson(outcome.lineup, outcome.clips),
      lines: lineupLines(outcome),
      warnings: [...outcome.lineup.warnings, ...(doubt ? [`${doubt.sentence} ${doubt.remedy}`] : [])],
      exitCode: doubt ? ExitCode.notSure : ExitCode.done,
    };
  },
};
