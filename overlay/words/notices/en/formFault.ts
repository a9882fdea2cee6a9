import type { FormFault, FormRule } from "../../../../main/contract/formFault.ts";
import { listed } from "../parts.ts";

const RULES: Readonly<Record<FormRule, string>> = {
  duration: 'write minutes as a number, or text such as "10:00", "1:30:00" or "2 h 30"',
  "lower number first": "the first number must be the lower one",
  "to after from": '"to" must come after "from"',
  "target or range": "give either a target with a tolerance, or a range",
  "range without tolerance": "a range needs no tolerance",
  "tolerance needs target": "a tolerance needs a target",
  "tolerance below target": "the tolerance must be smaller than the target",
  "event under 10 minutes":
    'an event of less than 10 minutes: write hours as "2:00:00" or "2 h", in athlete.json seconds',
  "blocks in order": "blocks must come in order and not overlap",
  "length of its parts": "the whole ride must be as long as its blocks, warm-up and cool-down",
  day: "write the day as YYYY-MM-DD",
};

const TYPES: Readonly<Record<string, string>> = {
  number: "a number",
  int: "a whole number",
  string: "text",
  boolean: "true or false",
  array: "a list",
  tuple: "a list",
  object: "an object with keys",
};

/** What is wrong with a form, as part of a sentence. */
export function formFaultEn(fault: FormFault): string {
  if (fault.kind === "not JSON") return `it is not JSON${fault.at === null ? ", or it was cut off" : `: ${fault.at}`}`;
  const at = fault.path === "" ? "the file as a whole" : `"${fault.path}"`;
  switch (fault.kind) {
    case "unknown keys":
      return `${listed(
        fault.keys.map((key) => `"${key}"`),
        "and",
      )} ${fault.keys.length === 1 ? "is not a key" : "are not keys"} it knows${fault.path === "" ? "" : ` in ${at}`}`;
    case "rule":
      return `${at}: ${RULES[fault.rule]}`;
    case "type":
      return `${at}: ${TYPES[fault.wanted] ?? fault.wanted} belongs there`;
    case "too small":
      return `${at}: too small or too short, ${fault.least} is the least`;
    case "too big":
      return `${at}: too large or too long, ${fault.most} is the most`;
    case "not one of":
      return `${at}: it is one of ${fault.choices.join(", ")}`;
    case "other":
      return `${at} is not as it should be`;
  }
}
