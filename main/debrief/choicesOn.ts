import type { AskedChoice, MomentChoice } from "../contract/debrief.ts";
import type { Moment } from "../contract/reading.ts";
import { matchSpans } from "../maths/matchSpans.ts";

/** What a coach said, on the moments of the ride as it is read now. */
export interface ChoicesOnMoments {
  /** For each moment, in the reading's order, what was said about it; null: nothing. */
  readonly of: readonly (MomentChoice | null)[];
  /** What no longer surely belongs to one of them. A drop of something that is not there any more asks nothing. */
  readonly asked: readonly Extract<AskedChoice, { readonly what: "choice" }>[];
}

/** Which choice is about which moment: the one place where film, page, window and command line know it from. */
export function choicesOn(
  moments: readonly Pick<Moment, "kind" | "startS" | "endS">[],
  choices: readonly MomentChoice[],
): ChoicesOnMoments {
  const of = moments.map((): MomentChoice | null => null);
  const asked: Extract<AskedChoice, { readonly what: "choice" }>[] = [];
  matchSpans(choices, moments).forEach(({ sure, among }, at) => {
    const choice = choices[at]!;
    if (sure !== null) of[sure] = choice;
    else if (among.length > 0 || saysMore(choice)) asked.push({ what: "choice", choice, among });
  });
  return { of, asked };
}

/** More than that something is to be left out. */
function saysMore({ keep, span, name, note }: MomentChoice): boolean {
  return keep === true || span !== null || name !== null || note !== null;
}
