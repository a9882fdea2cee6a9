import type { DebriefApi, DeskState } from "../../main/contract/debriefApi.ts";
import type { Desk, Surroundings } from "../../main/app/surroundings.ts";
import { callSchemas } from "../../main/app/rpc/callSchemas.ts";

/** A desk that only notes what it was asked; `answer` may give or throw what a call gives. */
export function fakeDesk(
  answer: (name: string, args: readonly unknown[], surroundings: Surroundings) => unknown = () => null,
): {
  readonly makeDesk: (surroundings: Surroundings) => Desk;
  readonly asked: [string, readonly unknown[]][];
  surroundings(): Surroundings;
} {
  const asked: [string, readonly unknown[]][] = [];
  let given: Surroundings | null = null;
  const empty: DeskState = { debrief: null, jobs: [] };
  return {
    asked,
    surroundings: () => given!,
    makeDesk(surroundings) {
      given = surroundings;
      const calls = Object.keys(callSchemas).map((name) => [
        name,
        (...args: readonly unknown[]) => {
          asked.push([name, args]);
          return Promise.resolve().then(() => (name === "state" ? empty : answer(name, args, surroundings)));
        },
      ]);
      return { api: Object.fromEntries(calls) as DebriefApi, close: () => Promise.resolve() };
    },
  };
}
