import type { CliFailures, MisusedVerb, OptionUnit, OutFile } from "../../../../main/contract/notices/cli.ts";
import type { FailureWords } from "../tables.ts";

const TAKES: Readonly<Record<MisusedVerb, string>> = {
  athlete: "athlete takes `files` or `delete`, and one athlete's folder.",
  compare: "compare takes two ride files, and clips of them.",
  debrief: "debrief takes a ride file and clips; none were given.",
  judge: "judge takes one debrief folder and at least one --break T=REASON or --skill NAME=TIMES.",
  overlay: "overlay takes a ride, at least one clip and --out.",
  plan: "plan takes no file but --plan FILE.",
  read: "read takes one ride file.",
  render: "render takes one debrief folder.",
  say: "say takes one debrief folder.",
  still: "still takes one debrief folder, --at and --out.",
  weeks: "weeks takes one folder of debriefs.",
};
const FILES: Readonly<Record<OutFile, string>> = {
  picture: "a PNG picture",
  film: "an MP4 film",
  track: "a QuickTime track",
};
const NUMBERS: Readonly<Record<OptionUnit, string>> = {
  seconds: "a number of seconds",
  minutes: "a number of minutes",
  times: "how many times it was done",
  watts: "a number of watts",
  MB: "a number of MB",
  "times the usual size": "a multiple of the usual size",
};
const ONE_AWAY = "Leave one of the two away.";

export const cliFailures: FailureWords<CliFailures> = {
  "verb-unknown": ({ verb, verbs, meant }) => [
    `There is no verb "${verb}".${meant === null ? "" : ` Did you mean ${meant}?`}`,
    `The verbs are ${verbs.join(", ")}; followcar --help says what each does.`,
  ],
  "verb-misused": ({ verb }) => [TAKES[verb], `See: followcar ${verb} --help.`],
  "option-unknown": ({ verb, option, meant }) => [
    `${verb} has no option ${option}.${meant === null ? "" : ` Did you mean --${meant}?`}`,
    `See: followcar ${verb} --help. A file whose name begins with a dash goes behind a lone --.`,
  ],
  "option-unclear": ({ verb, option, fault }) => {
    const remedy = `See: followcar ${verb} --help.`;
    switch (fault) {
      case "no value":
        return [`${option} needs a value behind it.`, remedy];
      case "value with a dash":
        return [
          `What stands behind ${option} begins with a dash: a value or another option?`,
          `Give such a value as ${option}=VALUE.`,
        ];
      case "takes no value":
        return [`${option} takes no value.`, `Give ${option} alone.`];
    }
  },
  "option-no-number": ({ option, text, unit, least, most }) => [
    `--${option} ${text}: ${NUMBERS[unit]} from ${least} to ${most} is wanted.`,
    `Give it like --${option} ${Math.max(least, Math.min(most, 120))}.`,
  ],
  "option-not-one-of": ({ option, text, choices }) => [
    `--${option} ${text} is not known.`,
    `It is one of: ${choices.join(", ")}.`,
  ],
  "option-no-time": ({ option, text }) => [`--${option} ${text} is no time.`, "Give seconds or m:ss.s, like 0:31.5."],
  "option-no-panel": ({ text, panel, panels }) => [
    panel === ""
      ? `--panels ${text}: a name is missing between two commas.`
      : `--panels ${text}: there is no panel "${panel}".`,
    `The panels are ${panels.join(", ")}; none leaves all of them away.`,
  ],
  "out-wrong-ending": ({ fileName, file, ending, better }) => [
    `--out ${fileName}: ${FILES[file]} is written, which ends in ${ending}.`,
    `Name it ${better}.`,
  ],
  "option-idle": ({ option, transparent }) =>
    transparent
      ? [
          `--${option} changes nothing with --transparent: the track is as large as the clips, and lossless or ProRes.`,
          `Leave --${option} away.`,
        ]
      : [`--${option} is for a transparent track.`, `Leave --${option} away, or add --transparent.`],
  "names-not-two": ({ text }) => [`--names ${text} holds no two names.`, "Give two with a comma: --names you,coach."],
  "option-no-share": ({ text }) => [
    `--share ${text} is not a part of a whole.`,
    "Give it like --share 2/5: the second of five parts.",
  ],
  "share-without-batch": () => ["--share goes with --batch DIR.", "Leave --share away, or add --batch."],
  "break-form": ({ text }) => [`--break ${text} has no time or no reason.`, "Give it like --break 1:54:00=descent."],
  "break-reason-unknown": ({ text, reason, reasons }) => [
    `--break ${text}: ${reason} is not known.`,
    `It is one of: ${reasons.join(", ")}; or words of your own, two at least.`,
  ],
  "questions-too-many": () => ["A debrief asks three questions at most.", "Leave some away."],
  "made-and-said": ({ what }) => [`--made ${what} takes back what another option says here.`, ONE_AWAY],
  "option-empty": ({ option }) => [`--${option} says nothing.`, `The made line comes back with --made ${option}.`],
  "as-filmed-and-shape": () => ["--as-filmed and --shape say two different things.", ONE_AWAY],
  "hand-over-and-out": () => ["--hand-over writes into the debrief's folder and takes no --out.", ONE_AWAY],
  "batch-and-files": () => [
    "--batch DIR takes no files, no --anchor and no --out of its own.",
    "Put the rides and their clips into the folder.",
  ],
};
