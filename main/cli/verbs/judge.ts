import { Failure } from "../../contract/failure.ts";
import { SKILLS, type Skill } from "../../contract/plan.ts";
import type { GivenReason } from "../../contract/reading.ts";
import { type BreakWord, judgeJourney } from "../../journey/coachSays.ts";
import { hostHere } from "../../journey/host.ts";
import { notYetLines } from "../notYetLines.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import { skillRows } from "../../../overlay/words/skillWords.ts";
import { breakLine } from "../../../overlay/words/breakWords.ts";
import { textOptions } from "../options.ts";
import { parseClockS } from "../parseClockS.ts";
import type { Verb } from "../verb.ts";
import { trustPathsHelp } from "./render.ts";
import { flags, lists } from "../optionKinds.ts";

/** Reasons by the words of the command line. */
const REASONS: Readonly<Record<string, GivenReason | null>> = {
  stopped: "stopped",
  corner: "corner",
  braking: "braking",
  descent: "steep descent",
  slowed: "slowed, cause not in the data",
  unexplained: "unexplained",
  "cannot-tell": "cannot tell",
  computed: null,
};

/** `1:54:00=descent`. Own words are two or more: a known reason with a slip in it must not excuse a break. */
function breakWord(text: string): BreakWord {
  const at = text.indexOf("=");
  const reason = text.slice(at + 1).trim();
  if (at < 1 || reason === "") throw new Failure("break-form", { text });
  const atS = parseClockS(text.slice(0, at), "break");
  if (Object.hasOwn(REASONS, reason)) return { atS, set: REASONS[reason]! };
  if (/\S\s+\S/.test(reason)) return { atS, set: { coach: reason } };
  throw new Failure("break-reason-unknown", { text, reason, reasons: Object.keys(REASONS) });
}

/** `drops=3`: how often a skill was done. */
function skillTick(text: string): { readonly skill: Skill; readonly done: number } {
  const [name = "", count = ""] = text.split("=").map((part) => part.trim());
  const skill = SKILLS.find((one) => one === name || one.replace(" ", "-") === name);
  if (skill === undefined) throw new Failure("option-not-one-of", { option: "skill", text, choices: SKILLS });
  if (!/^\d{1,2}$/.test(count))
    throw new Failure("option-no-number", { option: "skill", text, unit: "times", least: 0, most: 99 });
  return { skill, done: Number(count) };
}

export const judge: Verb = {
  name: "judge",
  summary: "gives a break your reason in place of the computed one, and ticks what was practised",
  options: {
    ...lists("break", "skill"),
    ...flags("trust-paths"),
  },
  help: `followcar judge DEBRIEF --break T=REASON | --skill NAME=TIMES [--break …] [--skill …]

Says of a break in pressure why it was one. T is a time of the ride (h:mm:ss) within the break, which may be
as short as 3 s. With the debrief's target, followcar read RIDE --breaks lists those of 10 s or more; a time without a
break is answered with the nearest one. The reading, and with it film and page, follow when they are next rendered.

Options:
  --break T=REASON       stopped, corner, braking, descent, slowed, unexplained, cannot-tell; computed takes yours back;
                         or words of your own (two at least), which excuse the break; may be given several times
  --skill NAME=TIMES     drops, one-hand, breathing or corners, and how often the rider did it; may be given several times
${trustPathsHelp}
  --json                 { "breaks": [{ "startS", "endS", "reason", "excused", "lapse" }], "skills": [{ "skill", "repeats",
                         "done" }] as they are judged now, "outdated": [paths of files that were handed over before
                         and do not say it yet] }

Example:
  followcar judge sunday-debrief --break 1:54:00=descent --break "0:31:40=van from the left"

Exit codes: 0 judged, 2 wrong usage, 3 the debrief cannot be used, has no break there, or is open in the window: nothing
was changed.`,
  async run(positionals, values, { signal, language }) {
    const [debriefPath, ...more] = positionals;
    const breaks = textOptions(values, "break").map(breakWord);
    const skills = textOptions(values, "skill").map(skillTick);
    if (debriefPath === undefined || more.length > 0 || breaks.length + skills.length === 0)
      throw new Failure("verb-misused", { verb: "judge" });
    const request = { debriefPath, breaks, skills, trustPaths: values["trust-paths"] === true };
    const words = cliWords(language);
    const { breaks: judged, skills: ticked, outdated } = await judgeJourney(request, hostHere(signal));
    return {
      json: { breaks: judged, skills: ticked, outdated },
      lines: [
        ...judged.map(
          (one) => breakLine(one, language) + (one.excused === true ? words.excused : one.lapse ? words.lapse : ""),
        ),
        ...skillRows(ticked, language).map(({ label, value }) => `${label}: ${value}`),
        ...notYetLines(outdated, debriefPath, values, language),
      ],
      warnings: [],
    };
  },
};
