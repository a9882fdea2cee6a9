/** What can go wrong, as data. A cancelled job is a result, not a failure. */
import { kindOf } from "./failureKinds.ts";
import type { FailureFacts, FailureNotice } from "./notice.ts";

/** What sort of thing is at fault; it decides the exit code. */
export type FailureKind =
  | "usage"
  | "file-unreadable"
  | "ride-not-usable"
  | "clip-not-usable"
  | "plan-not-valid"
  | "anchor-not-valid"
  | "debrief-not-usable"
  | "debrief-not-trusted"
  | "no-overlap"
  | "lineup-not-sure"
  | "output-not-writable"
  | "disk-full"
  | "tool-missing"
  | "tool-failed"
  | "tool-hung"
  | "internal";

/** A failure in the form that crosses processes and the bridge: plain data. */
export interface FailureData {
  readonly code: FailureKind;
  /** What happened; `overlay/words/notices/` has the words. */
  readonly notice: FailureNotice;
  /** What caused it, the nearest first, as text; empty in what crosses to the window. */
  readonly causes: readonly string[];
}

/** How a failure is made: its code, its facts, and what caused it where something did. */
type FailureArgs = {
  readonly [C in keyof FailureFacts]: readonly [code: C, facts: FailureFacts[C], cause?: unknown];
}[keyof FailureFacts];

/** The one error type that our own code throws for something a person can act on. */
export class Failure extends Error {
  /** What happened, as data; `overlay/words/notices/` has the words. */
  readonly notice: FailureNotice;
  /** Its kind. */
  readonly code: FailureKind;

  constructor(...[code, facts, cause]: FailureArgs) {
    super(`${code} ${JSON.stringify(facts)}`, cause === undefined ? undefined : { cause });
    this.name = "Failure";
    this.notice = { code, facts } as FailureNotice;
    this.code = kindOf(this.notice);
  }

  /** The failure that `data()` was made of, its causes as far as text tells them. */
  static from({ notice, causes }: Pick<FailureData, "notice" | "causes">): Failure {
    const cause = causes.reduceRight<Error | undefined>((below, text) => {
      const error = new Error(text.split("\n")[0], below && { cause: below });
      error.stack = text;
      return error;
    }, undefined);
    return new Failure(...([notice.code, notice.facts, cause] as unknown as FailureArgs));
  }

  /** As plain data; where it was thrown stands first among its causes. */
  data(): FailureData {
    return { code: this.code, notice: this.notice, causes: [this.stack ?? this.message, ...causesOf(this)] };
  }
}

/** Where an error was thrown and all that caused it, for whoever looks for a fault. */
export function debugText(error: unknown): string {
  const own = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return [own, ...causesOf(error)].join("\ncaused by: ");
}

/** The first line of what something thrown says, without its stack. */
export function firstLineOf(error: unknown): string {
  const [said = ""] = (error instanceof Error ? error.message : String(error)).split("\n");
  return said;
}

/** What caused an error, the nearest first: the stack of each, or the text of what is no error. */
function causesOf(error: unknown): string[] {
  const causes: string[] = [];
  for (let at = error; at instanceof Error && at.cause !== undefined && causes.length < 20; at = at.cause)
    causes.push(at.cause instanceof Error ? (at.cause.stack ?? JSON.stringify(at.cause)) : JSON.stringify(at.cause));
  return causes;
}
