import { Failure } from "../../contract/failure.ts";
import type { GivenReason } from "../../contract/reading.ts";
import { type BreakWord, judgeBreaksJourney } from "../../journey/coachSays.ts";
import { hostHere } from "../../journey/host.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import { breakLine } from "../../../overlay/words/breakWords.ts";
import { textOptions } from "../options.ts";
import { parseClockS } from "../parseClockS.ts";
import type { Verb } from "../verb.ts";
import { trustPathsHelp } from "./render.ts";

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

export const judge: Verb = {
  name: "judge",
  summary: "gives a break your reason in place of the computed one",
  options: { break: { type: "string", multiple: true }, "trust-paths": { type: "boolean" } },
  help: `followcar judge DEBRIEF --break T=REASON [--break …]

Says of a break in pressure why it was one. T is a time of the ride (h:mm:ss) within the break; followcar read RIDE
--breaks lists them. The reading, and with it film and page, follow when they are next rendered.

Options:
  --break T=REASON       stopped, corner, braking, descent, slowed, unexplained, cannot-tell; computed takes yours back;
                         or words of your own (two at least), which excuse the break; may be given several times
${trustPathsHelp}
  --json                 { "breaks": [{ "startS", "endS", "reason", "excused", "lapse" }] } as they are judged now

Example:
  followcar judge sunday-debrief --break 1:54:00=descent --break "0:31:40=van from the left"

Exit codes: 0 judged, 2 wrong usage, 3 the debrief cannot be used, has no break there, or is open in the window: nothing
was changed.`,
  async run(positionals, values, { signal, language }) {
    const [debriefPath, ...more] = positionals;
    const breaks = textOptions(values, "break").map(breakWord);
    if (debriefPath === undefined || more.length > 0 || breaks.length === 0)
      throw new Failure("verb-misused", { verb: "judge" });
    const request = { debriefPath, breaks, trustPaths: values["trust-paths"] === true };
    const words = cliWords(language);
    const judged = await judgeBreaksJourney(request, hostHere(signal));
    return {
      json: { breaks: judged },
      lines: judged.map(
        (one) => breakLine(one, language) + (one.excused === true ? words.excused : one.lapse ? words.lapse : ""),
      ),
      warnings: [],
    };
  },
};
