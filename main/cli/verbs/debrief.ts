import { Failure } from "../../contract/failure.ts";
import { LANGUAGES, type Language } from "../../contract/languageAndUnits.ts";
import { FOR_WHOM, PRESET_NAMES } from "../../contract/presets.ts";
import type { BatchShare } from "../../contract/squad.ts";
import { batchJourney, type Batch } from "../../journey/preparedRides.ts";
import { debriefJourney, type DebriefOutcome } from "../../journey/preparedDebrief.ts";
import {
  lookChoices,
  lookOptions,
  lookOptionsHelp,
  outputChoices,
  outputOptions,
  outputOptionsHelp,
} from "../lookOptions.ts";
import { choiceOption, numberOption, textOption } from "../options.ts";
import { hostHere } from "../../journey/host.ts";
import { ExitCode } from "../exitCode.ts";
import type { OptionValues, Verb, VerbOutcome } from "../verb.ts";
import { lineupChoices, lineupLines, lineupOptions, lineupOptionsHelp } from "./lineup.ts";
import { planChoices, planOptions, planOptionsHelp } from "./read.ts";
import { readLines } from "../../journey/judge.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import { note, type Notice } from "../../contract/notice.ts";
import { noticeTexts, failureText } from "../../../overlay/words/notices/noticeText.ts";
import { flags, texts } from "../optionKinds.ts";

/** Default length of a film, s. */
export const FILM_LENGTH_S = 120;

/** What a debrief made, for a person: the reading, where the clips sit, the film's story, the files. */
export function debriefLines(outcome: DebriefOutcome, why: boolean, language: Language): string[] {
  const words = cliWords(language);
  const { film, read, lineup, written } = outcome;
  return [
    ...readLines(read, language),
    "",
    ...lineupLines(lineup, language),
    ...(why
      ? [
          "",
          words.whyInFilm,
          ...film.items.map((item, index) => `  ${index + 1}. ${item.why}`),
          ...film.leftOut.map((line) => `  ${words.leftOut(line)}`),
        ]
      : []),
    "",
    words.written,
    ...written.map((path) => `  ${path}`),
  ];
}

/** The JSON of a verb that writes files and has no contract of its own. */
export function writtenJson(
  outcome: { readonly written: readonly string[]; readonly warnings: readonly Notice[] },
  language: Language,
) {
  return { written: outcome.written, warnings: noticeTexts(outcome.warnings, language, "command") };
}

/** Options of whatever hands a debrief over. */
export const handOverOptions = {
  ...texts("for", "consent", "page", "language"),
  ...flags("percent"),
} as const;

export const handOverOptionsHelp = `  --for WHOM             athlete (default), or lesson: for others, in a folder "lesson" of its own; names, dates, place,
                         notes and file names are dropped; the athlete must have agreed
  --percent              in a lesson: watts as percent of the plan, on pages and on the picture
  --consent WORDS        when and how the athlete agreed to a lesson; kept in athlete.json where there is one
  --page P               plain (default), or playing: also playing.html, film and chart in one file with a script of its
                         own: touch a line or the chart and the film goes there
  --language L           en (default) or de: of what is made and of what is said here; help stays English`;

/** Whether --page asks for the page that plays; null: it was not given. */
export function playingOption(values: OptionValues): boolean | null {
  const page = choiceOption(values, "page", ["plain", "playing"]);
  return page === null ? null : page === "playing";
}

/** `--share 2/5`: the second of five equal parts. Failure `usage` where it is none. */
function shareOption(values: OptionValues): BatchShare {
  const text = textOption(values, "share");
  if (text === null) return { part: 1, of: 1 };
  const [, part, of] = /^(\d{1,4})\/(\d{1,4})$/.exec(text)?.map(Number) ?? [];
  if (part === undefined || of === undefined || part < 1 || part > of) throw new Failure("option-no-share", { text });
  return { part, of };
}

function batchOutcome({ rides, squadPath }: Batch, language: Language): VerbOutcome {
  const words = cliWords(language);
  const failed = rides.filter(({ state }) => state === "failed");
  const texts = (warnings: readonly Notice[]) => noticeTexts(warnings, language, "command");
  const told = rides.map(({ failure, ...ride }) => ({
    ...ride,
    failure: failure && {
      code: failure.code,
      notice: failure.notice,
      ...failureText(failure.notice, language, "command"),
    },
  }));
  return {
    json: {
      written: [...rides.flatMap(({ written }) => written), squadPath],
      warnings: rides.flatMap(({ warnings }) => texts(warnings)),
      rides: told.map((ride) => ({ ...ride, warnings: texts(ride.warnings) })),
    },
    lines: [
      ...told.map(
        ({ ridePath, state, folder, failure }) =>
          `${words.batch[state]}: ${failure === null ? words.inFolder(ridePath, folder) : `${ridePath}: ${failure.sentence} ${failure.remedy}`}`,
      ),
      words.squad(squadPath),
    ],
    warnings: rides.flatMap(({ ridePath, warnings }) => warnings.map((of) => note("of-ride", { ridePath, of }))),
    exitCode: failed.length === 0 ? ExitCode.done : ExitCode.failed,
  };
}

export const debrief: Verb = {
  name: "debrief",
  summary: "the whole job: line up, read, pick, render the film, write the debrief",
  options: {
    ...planOptions,
    ...lineupOptions,
    ...texts("out", "length", "preset"),
    ...handOverOptions,
    ...texts("athlete", "batch", "share"),
    ...flags("why"),
    ...lookOptions,
    ...outputOptions,
  },
  help: `followcar debrief RIDE… [CLIP…] [options]

Makes a debrief film and the files that go with it, from one ride (or several riders' files of one outing) and any
number of clips in any order. Without clips it becomes a film of cards.

Options:
${planOptionsHelp}
${lineupOptionsHelp}
  --out DIR              where to write (default: RIDE-debrief beside the ride)
  --length S             wished length of the film, seconds (default ${FILM_LENGTH_S})
  --preset P             draft (540 lines, quick), share (default: as filmed, at most 1080 lines),
                         phone (upright 1080x1920), archive (as filmed, best quality)
${outputOptionsHelp}
${lookOptionsHelp}
${handOverOptionsHelp}
  --athlete DIR          the athlete's folder: its athlete.json (made where it is missing) says language, targets,
                         consent and the place around home to hide; the debrief goes there unless --out says else
  --batch DIR            prepares every ride file of a folder, and of the folders right below it, each with the clips,
                         the plan.json and the athlete.json beside it (else the athlete.json of DIR); nothing is written
                         for the athlete before a person has looked (in the window, or: followcar render DEBRIEF
                         --hand-over --seen). DIR/squad.html shows all of them on one page: what needs a look, three
                         lines, two pictures, the message. What could not be prepared is listed and tried again next time
  --share I/N            with --batch: only every N-th ride, from the I-th on, so that N machines with one folder share
                         the work; the page covers the rides of all
  --why                  says why each part is in the film and what was left out
  --json                 { "written": [paths], "warnings": [] }

Example:
  followcar debrief sunday.fit bar-1.mp4 bar-2.mp4 --plan sunday.json \\
    --anchor "bar-1.mp4@0:12=clock 10:42:17"

Exit codes: 0 done, 1 failed (with --batch: some ride could not be prepared), 2 wrong usage, 3 input not usable,
4 not sure where a clip belongs, 130 interrupted. A ride that fails does not end a batch: the others are prepared.`,
  async run(positionals, values, context) {
    const playingPage = playingOption(values);
    const shared = {
      ...lineupChoices(values),
      acceptUnsure: values["accept-unsure"] === true,
      plan: planChoices(values),
      lengthS: numberOption(values, "length", "seconds", 20, 1800) ?? FILM_LENGTH_S,
      preset: choiceOption(values, "preset", PRESET_NAMES),
      forWhom: choiceOption(values, "for", FOR_WHOM) ?? "athlete",
      asPercent: values.percent === true,
      ...(playingPage === null ? {} : { playingPage }),
      language: choiceOption(values, "language", LANGUAGES),
      athleteDir: textOption(values, "athlete"),
      consent: textOption(values, "consent"),
      look: lookChoices(values),
      output: outputChoices(values),
    } as const;
    const batch = textOption(values, "batch");
    if (batch !== null) {
      if (positionals.length > 0 || textOption(values, "out") !== null || shared.anchors.length > 0) {
        throw new Failure("batch-and-files", {});
      }
      return batchOutcome(
        await batchJourney(batch, shared, hostHere(context.signal), context, shareOption(values)),
        context.language,
      );
    }
    if (textOption(values, "share") !== null) throw new Failure("share-without-batch", {});
    if (positionals.length === 0) throw new Failure("verb-misused", { verb: "debrief" });
    const outcome = await debriefJourney(
      { ...shared, paths: positionals, outDir: textOption(values, "out") },
      hostHere(context.signal),
      context,
    );
    return {
      json: writtenJson(outcome, context.language),
      lines: debriefLines(outcome, values.why === true, context.language),
      warnings: outcome.warnings,
    };
  },
};
