import type { MomentChoice } from "../../main/contract/debrief.ts";
import type { Moment } from "../../main/contract/reading.ts";

type Known = Pick<Moment, "kind" | "startS">;

function same(choice: MomentChoice, moment: Known): boolean {
  return choice.kind === moment.kind && Math.abs(choice.startS - moment.startS) < 0.5;
}

/** What the coach said about a moment; null: nothing yet. */
export function choiceOf(choices: readonly MomentChoice[], moment: Known): MomentChoice | null {
  return choices.find((one) => same(one, moment)) ?? null;
}

/** The choices with some of one moment's changed; one that says nothing any more goes. */
export function withChoice(choices: readonly MomentChoice[], moment: Known, change: Partial<MomentChoice>): readonly MomentChoice[] {
  const before = choiceOf(choices, moment) ?? { kind: moment.kind, startS: moment.startS, keep: null, span: null, name: null, note: null };
  const next = { ...before, ...change };
  const says = next.keep !== null || next.span !== null || next.name !== null || next.note !== null;
  const rest = choices.filter((one) => !same(one, moment));
  return says ? [...rest, next] : rest;
}
