import type { FormFault, FormRule } from "../../../../main/contract/formFault.ts";
import { listed } from "../parts.ts";

const RULES: Readonly<Record<FormRule, string>> = {
  duration: "Minuten als Zahl schreiben, oder Text wie „10:00“, „1:30:00“ oder „2 h 30“",
  "lower number first": "die erste Zahl muss die kleinere sein",
  "to after from": "„to“ muss nach „from“ liegen",
  "target or range": "entweder ein Ziel mit Toleranz angeben oder einen Bereich",
  "range without tolerance": "ein Bereich braucht keine Toleranz",
  "tolerance needs target": "eine Toleranz braucht ein Ziel",
  "tolerance below target": "die Toleranz muss kleiner sein als das Ziel",
  "event under 10 minutes":
    "ein Ziel unter 10 Minuten: Stunden als „2:00:00“ oder „2 h“ schreiben, in athlete.json Sekunden",
  "blocks in order": "Blöcke müssen der Reihe nach kommen und dürfen sich nicht überschneiden",
  "length of its parts": "die ganze Ausfahrt muss so lang sein wie Blöcke, Einrollen und Ausrollen",
  day: "den Tag als JJJJ-MM-TT schreiben",
};

const TYPES: Readonly<Record<string, string>> = {
  number: "eine Zahl",
  int: "eine ganze Zahl",
  string: "Text",
  boolean: "true oder false",
  array: "eine Liste",
  tuple: "eine Liste",
  object: "ein Objekt mit Schlüsseln",
};

/** What is wrong with a form, as part of a sentence. */
export function formFaultDe(fault: FormFault): string {
  if (fault.kind === "not JSON")
    return `das ist kein JSON${fault.at === null ? ", oder es bricht ab" : ` (${fault.at})`}`;
  const at = fault.path === "" ? "die Datei als Ganzes" : `„${fault.path}“`;
  switch (fault.kind) {
    case "unknown keys":
      return `${listed(
        fault.keys.map((key) => `„${key}“`),
        "und",
      )} ${fault.keys.length === 1 ? "ist kein bekannter Schlüssel" : "sind keine bekannten Schlüssel"}${fault.path === "" ? "" : ` in ${at}`}`;
    case "rule":
      return `${at}: ${RULES[fault.rule]}`;
    case "type":
      return `${at}: dort gehört ${TYPES[fault.wanted] ?? fault.wanted} hin`;
    case "too small":
      return `${at}: zu klein oder zu kurz, mindestens ${fault.least}`;
    case "too big":
      return `${at}: zu groß oder zu lang, höchstens ${fault.most}`;
    case "not one of":
      return `${at}: möglich sind ${fault.choices.join(", ")}`;
    case "other":
      return `${at} ist nicht so, wie es sein soll`;
  }
}
