import type { AskedChoice } from "../../main/contract/debrief.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import { breakReasonWords } from "./reading/momentWords.ts";
import { clockText } from "./numbers.ts";

/** What is asked about, e.g. `the name "The bridge" of lapse at 0:31:35`. */
export function askedAbout(asked: AskedChoice, language: Language, momentName: (kind: string) => string): string {
  return language === "de" ? aboutDe(asked, momentName) : aboutEn(asked, momentName);
}

function aboutEn(asked: AskedChoice, momentName: (kind: string) => string): string {
  if (asked.what === "break") {
    const { startS, set } = asked.override;
    return `the reason "${typeof set === "string" ? breakReasonWords(set, "en") : set.coach}" of the break at ${clockText(startS)}`;
  }
  if (asked.what === "part")
    return `the part of the film on ${momentName(asked.key.kind)} at ${clockText(asked.key.startS)}`;
  const { kind, startS, keep, span, name, note } = asked.choice;
  const said = [
    ...(keep === null ? [] : [keep ? '"keep"' : '"drop"']),
    ...(name === null ? [] : [`the name "${name}"`]),
    ...(note === null ? [] : [`the note "${note}"`]),
    ...(span === null ? [] : ["the times set"]),
  ];
  return `${said.join(", ")} for ${momentName(kind)} at ${clockText(startS)}`;
}

function aboutDe(asked: AskedChoice, momentName: (kind: string) => string): string {
  if (asked.what === "break") {
    const { startS, set } = asked.override;
    const reason = typeof set === "string" ? breakReasonWords(set, "de") : set.coach;
    return `der Grund „${reason}“ der Druckpause bei ${clockText(startS)}`;
  }
  if (asked.what === "part")
    return `der Teil des Films über „${momentName(asked.key.kind)}“ bei ${clockText(asked.key.startS)}`;
  const { kind, startS, keep, span, name, note } = asked.choice;
  const said = [
    ...(keep === null ? [] : [keep ? "„behalten“" : "„weglassen“"]),
    ...(name === null ? [] : [`der Name „${name}“`]),
    ...(note === null ? [] : [`die Notiz „${note}“`]),
    ...(span === null ? [] : ["die gesetzten Zeiten"]),
  ];
  return `${said.join(", ")} zu „${momentName(kind)}“ bei ${clockText(startS)}`;
}

/** The same as a warning. `timesS`: ride time of those it may be. */
export function askedSentence(
  asked: AskedChoice,
  timesS: readonly number[],
  language: Language,
  momentName: (kind: string) => string,
): string {
  const about = askedAbout(asked, language, momentName);
  const times = timesS.map((atS) => clockText(atS));
  if (language === "de") {
    const near = times.length === 0 ? "in der Nähe ist nichts Ähnliches" : `vielleicht der bei ${times.join(" oder ")}`;
    return (
      `So, wie die Fahrt jetzt gelesen wird, ist eine Angabe keinem Moment sicher zuzuordnen: ${about} (${near}). Sie ` +
      "bleibt aufbewahrt und gilt für nichts: die Nachbesprechung öffnen und sagen, welcher Moment gemeint ist, oder sie verwerfen."
    );
  }
  const near = times.length === 0 ? "nothing like it is near" : `it may be the one at ${times.join(" or ")}`;
  return (
    `As the ride is read now, ${about} has no sure place (${near}). It is kept and ` +
    "holds for nothing: open the debrief and say which it is, or let it go."
  );
}
