import { writeEvidence } from "../../journey/evidencePictures.ts";
import { nowhere, notSure } from "../../journey/clipDoubts.ts";
import { clockFrames, type ClockFrame } from "../../journey/clockFrames.ts";
import { lineupJourney, type LineupOutcome } from "../../journey/linedUpClips.ts";
import { ExitCode } from "../exitCode.ts";
import { numberOption, textOption, textOptions } from "../options.ts";
import { hostHere } from "../../journey/host.ts";
import type { OptionValues, Verb } from "../verb.ts";
import type { Language } from "../../contract/languageAndUnits.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import { clockText } from "../../../overlay/words/numbers.ts";
import { placementReasonText } from "../../../overlay/words/notices/placementReason.ts";
import { flags, lists, texts } from "../optionKinds.ts";

export const lineupOptions = {
  ...lists("anchor"),
  ...texts("device-delay", "show"),
  ...flags("accept-unsure"),
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
                         (local time of day), "32.41 km", "lap 3" (its beginning). "slow 4" or "fast 30" behind it:
                         the clip plays so many times slower or faster than life
  --device-delay S       how late the bike computer shows what happens, seconds (default 0)
  --accept-unsure        go on where a clip's place is not sure
  --show RIDE            whose numbers are shown, with several rides (default: the first)`;

/** One line a clip for a person. */
export function lineupLines({ clips, lineup }: LineupOutcome, language: Language): string[] {
  const words = cliWords(language);
  return lineup.clips.map((placement) => {
    const clip = clips.find((entry) => entry.id === placement.clipId)!;
    const at = placement.found === null ? null : clockText(placement.found.offsetS);
    const place = words.clipAt(clip.fileName, at, words.verdicts[placement.verdict], placement.uncertaintyS);
    return `${place}: ${placementReasonText(placement.reason, language)}.`;
  });
}

/** One line for each ride beside the shown one. */
function rideLines({ lineup }: LineupOutcome, language: Language): string[] {
  return lineup.rides
    .filter((ride) => !ride.shown)
    .map(({ file, offsetS, uncertaintyS }) => cliWords(language).rideOff(file, offsetS, uncertaintyS));
}

/** The frames in which a clock may be read, each with the anchor that it would make. */
function frameLines(frames: readonly ClockFrame[], language: Language): string[] {
  const words = cliWords(language);
  if (frames.length === 0) return [words.noFrame];
  return [
    words.sharpFrames,
    ...frames.map(
      ({ fileName, mediaS, path }) =>
        `  --anchor "${fileName}@${mediaS.toFixed(3)}=clock 14:03:27"${path === null ? "" : `   ${path}`}`,
    ),
  ];
}

/** What looking and listening took, where it was needed. */
function heardLines({ heard }: LineupOutcome, language: Language): string[] {
  if (heard === null) return [];
  const words = cliWords(language);
  return [
    heard.bytesRead === 0
      ? words.signalsKept
      : words.signalsTook(heard.tookS, heard.bytesRead / 1e6, heard.bytes / 1e6),
  ];
}

export const lineup: Verb = {
  name: "lineup",
  summary: "finds where the clips sit in the ride, and says how sure that is",
  options: { ...lineupOptions, ...flags("trainer"), ...texts("evidence", "frames") },
  help: `followcar lineup RIDE… CLIP… [options]

Puts footage and ride on one clock. An anchor that you set always wins; then the camera's own positions; then what can
be seen and heard: stop and go, wind and tyres, turns. A camera's clock alone is never called sure. With several rides
the first (or --show) places the clips, and the others are lined up to it by where they rode together.

Options:
${lineupOptionsHelp}
  --trainer              the ride is on a trainer: nothing moves, so set one anchor
  --evidence DIR         writes a picture per clip: ride speed over the footage's motion, sound and turns
  --frames CLIP@T        names the sharpest frames within 2 s of that instant, where a filmed clock is read best
                         (pictures of them into --evidence DIR), and lines nothing up
  --json                 offset, clock rate, method and confidence of each clip

Example:
  followcar lineup sunday.fit bar-1.mp4 bar-2.mp4 --anchor "bar-1.mp4@0:12=clock 10:42:17"

Exit codes: 0 every clip is sure, 4 at least one is not (with --accept-unsure: none lies in the ride), 2 wrong usage,
3 input not usable.`,
  async run(positionals, values, context) {
    const { language } = context;
    const about = textOption(values, "frames");
    if (about !== null) {
      const frames = await clockFrames(
        positionals,
        about,
        textOption(values, "evidence"),
        hostHere(context.signal),
        context,
      );
      return { json: { frames }, lines: frameLines(frames, language), warnings: [] };
    }
    const request = { paths: positionals, ...lineupChoices(values), indoors: values["trainer"] === true };
    const host = hostHere(context.signal);
    const outcome = await lineupJourney(request, host, context);
    const doubt = (values["accept-unsure"] ? nowhere : notSure)(outcome.clips, outcome.lineup);
    const evidenceDir = textOption(values, "evidence");
    const pictures = evidenceDir === null ? [] : await writeEvidence(outcome, evidenceDir, host, context);
    return {
      json: outcome.json,
      lines: [
        ...lineupLines(outcome, language),
        ...rideLines(outcome, language),
        ...heardLines(outcome, language),
        ...pictures,
      ],
      warnings: outcome.lineup.warnings,
      doubt,
      exitCode: doubt ? ExitCode.notSure : ExitCode.done,
    };
  },
};
