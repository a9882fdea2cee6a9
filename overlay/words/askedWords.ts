import { clockText } from "./numbers.ts";

/** A thing that a coach said or set and that has no sure place; the contract's `AskedChoice` is one. */
export type AskedForWords =
  | {
      readonly what: "choice";
      readonly choice: {
        readonly kind: string;
        readonly startS: number;
        readonly keep: boolean | null;
        readonly span: object | null;
        readonly name: string | null;
        readonly note: string | null;
      };
      readonly among: readonly number[];
    }
  | {
      readonly what: "break";
      readonly override: { readonly startS: number; readonly set: string | { readonly coach: string } };
      readonly among: readonly number[];
    }
  | {
      readonly what: "part";
      readonly key: { readonly kind: string; readonly startS: number };
      readonly among: readonly number[];
    };

/** What is asked about, e.g. `the name "The bridge" of lapse at 0:31:35`. */
export function askedAbout(asked: AskedForWords, momentName: (kind: string) => string): string {
  if (asked.what === "break") {
    const { startS, set } = asked.override;
    return `the reason "${typeof set === "string" ? set : set.coach}" of the break at ${clockText(startS)}`;
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

/** The same as a warning. `now`: what the ride has today, that `among` points into. */
export function askedSentence(
  asked: AskedForWords,
  now: readonly { readonly startS: number }[],
  momentName: (kind: string) => string,
): string {
  const times = asked.among.map((index) => clockText(now[index].startS));
  const near = times.length === 0 ? "nothing like it is near" : `it may be the one at ${times.join(" or ")}`;
  return (
    `As the ride is read now, ${askedAbout(asked, momentName)} has no sure place (${near}). It is kept and ` +
    "holds for nothing: open the debrief and say which it is, or let it go."
  );
}
