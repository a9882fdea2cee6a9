import type { CoachWords } from "../../contract/debrief.ts";
import { Failure } from "../../contract/failure.ts";
import { sayJourney } from "../../journey/coachSays.ts";
import { hostHere } from "../../journey/host.ts";
import { numberOption, textOption, textOptions } from "../options.ts";
import { notYetLines } from "../notYetLines.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import type { OptionValues, Verb } from "../verb.ts";
import { trustPathsHelp } from "./render.ts";
import { flags, lists, texts } from "../optionKinds.ts";

const LINES = ["held", "change", "next"] as const;
const MADE = [...LINES, "next-length", "note", "questions"] as const;
/** A main part that may be asked for, min; as the form of the document has it. */
const NEXT_MIN = { least: 5, most: 1440 };

/** What is to be said: a line given, or one made by the program again. */
function wordsOf(values: OptionValues): Partial<CoachWords> {
  const own: Partial<Record<keyof CoachWords, string | number | readonly string[] | null>> = {};
  for (const line of LINES) {
    const text = textOption(values, line);
    if (text !== null) own[line] = said(line, text);
  }
  const nextMin = numberOption(values, "next-length", "minutes", NEXT_MIN.least, NEXT_MIN.most);
  if (nextMin !== null) own.nextS = Math.round(nextMin) * 60;
  const note = textOption(values, "note");
  if (note !== null) own.notes = said("note", note);
  const questions = textOptions(values, "question");
  if (questions.length > 3) throw new Failure("questions-too-many", {});
  if (questions.length > 0) own.questions = questions.map((question) => said("question", question));
  for (const what of textOptions(values, "made")) {
    const known = MADE.find((one) => one === what);
    if (known === undefined) throw new Failure("option-not-one-of", { option: "made", text: what, choices: MADE });
    const key = known === "note" ? "notes" : known === "next-length" ? "nextS" : known;
    if (own[key] !== undefined) throw new Failure("made-and-said", { what });
    own[key] = null;
  }
  return own as Partial<CoachWords>;
}

function said(option: string, text: string): string {
  if (text.trim() === "") throw new Failure("option-empty", { option });
  return text.trim();
}

export const say: Verb = {
  name: "say",
  summary: "puts your own words into a debrief, and shows what it says",
  options: {
    ...texts("held", "change", "next", "next-length", "note"),
    ...lists("question", "made"),
    ...flags("trust-paths"),
  },
  help: `followcar say DEBRIEF [options]

Puts your own words in place of the made ones, and prints all that the athlete will be told, each line marked made or
yours, with the message. Without options nothing is changed. Nothing is rendered: that is followcar render --hand-over, and
where message, page and film were made before, a last line says so.

Options:
  --held TEXT            what went well
  --change TEXT          the one thing to change
  --next TEXT            the next ride
  --next-length MIN      your own length of the next ride's main part, in the made line; it is read back with that ride
  --note TEXT            a note of yours, on the page
  --question TEXT        a question to the athlete; up to three times, in place of all made ones
  --made WHAT            the made words again: held, change, next, next-length, note or questions; may be given
                         several times
${trustPathsHelp}
  --json                 { "lines": [{ "what", "text", "by": "made" | "yours", "made" }], "message", "outdated": [paths of
                         files that were handed over before and do not say it yet] }

Example:
  followcar say sunday-debrief --change "Start the rise two gears lower."

Exit codes: 0 said, 2 wrong usage, 3 the debrief cannot be used, or it is open in the window: nothing was changed.`,
  async run(positionals, values, { signal, language }) {
    const words = cliWords(language);
    const [debriefPath, ...more] = positionals;
    if (debriefPath === undefined || more.length > 0) throw new Failure("verb-misused", { verb: "say" });
    const outcome = await sayJourney(
      { debriefPath, words: wordsOf(values), trustPaths: values["trust-paths"] === true },
      hostHere(signal),
    );
    return {
      json: outcome,
      lines: [
        ...outcome.lines.map(({ what, text, by }) => `${words.said[what]} (${words.by[by]}): ${text}`),
        "",
        words.message,
        ...outcome.message.trimEnd().split("\n"),
        ...notYetLines(outcome.outdated, debriefPath, values, language),
      ],
      warnings: [],
    };
  },
};
