import type { MomentChoice } from "../../main/contract/debrief.ts";
import type { Moment } from "../../main/contract/reading.ts";

/** What tells one moment from the others while the window is open. */
export type KnownMoment = Pick<Moment, "kind" | "startS">;

export function sameMoment(a: KnownMoment, b: KnownMoment): boolean {
  return a.kind === b.kind && Math.abs(a.startS - b.startS) < 0.5;
}

const NOTHING_SAID = { keep: null, span: null, name: null, note: null } as const;

/**
 * The choices with some of one moment's changed; one that says nothing any more goes.
 * @param before what is said about the moment so far; from here on it is known by the moment's times of today
 */
export function withChoice(
  choices: readonly MomentChoice[],
  moment: Pick<Moment, "kind" | "startS" | "endS">,
  before: MomentChoice | null,
  change: Partial<MomentChoice>,
): readonly MomentChoice[] {
  const { kind, startS, endS } = moment;
  const next: MomentChoice = { ...(before ?? NOTHING_SAID), kind, startS, endS, ...change };
  const says = next.keep !== null || next.span !== null || next.name !== null || next.note !== null;
  const rest = withoutChoice(choices, before);
  return says ? [...rest, next] : rest;
}

/** The choices without one. */
export function withoutChoice(choices: readonly MomentChoice[], choice: MomentChoice | null): readonly MomentChoice[] {
  const at = choices.findIndex(
    (one) =>
      one.kind === choice?.kind && one.startS === choice.startS && one.endS === choice.endS && one.note === choice.note,
  );
  return at < 0 ? choices : choices.filter((_, index) => index !== at);
}
