import type { MomentChoice } from "../../main/contract/debrief.ts";
import type { Moment } from "../../main/contract/reading.ts";

/** What tells one moment from the others, however often the ride is read anew. */
export type KnownMoment = Pick<Moment, "kind" | "startS">;

export function sameMoment(a: KnownMoment, b: KnownMoment): boolean {
  return a.kind === b.kind && Math.abs(a.startS - b.startS) < 0.5;
}

/** What the coach said about a moment; null: nothing yet. */
export function choiceOf(choices: readonly MomentChoice[], moment: KnownMoment): MomentChoice | null {
  return choices.find((one) => sameMoment(one, moment)) ?? null;
}

/** The choices with some of one moment's changed; one that says nothing any more goes. */
export function withChoice(
  choices: readonly MomentChoice[],
  moment: KnownMoment,
  change: Partial<MomentChoice>,
): readonly MomentChoice[] {
  const before = choiceOf(choices, moment) ?? {
    kind: moment.kind,
    startS: moment.startS,
    keep: null,
    span: null,
    name: null,
    note: null,
  };
  const next = { ...before, ...change };
  const says = next.keep !== null || next.span !== null || next.name !== null || next.note !== null;
  const rest = choices.filter((one) => !sameMoment(one, moment));
  return says ? [...rest, next] : rest;
}
