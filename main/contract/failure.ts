/**
 * What can go wrong, as data. A cancelled job is a result, not a failure.
 */
import { failureText } from "../../overlay/words/notices/noticeText.ts";
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
export type FailureCode = FailureKind;

/** A failure in the form that crosses processes and the bridge: plain data, no stack. */
export interface FailureData {
  readonly code: FailureKind;
  /** One plain sentence that names the file or the setting at fault. */
  readonly sentence: string;
  /** What the person can do about it; one sentence. */
  readonly remedy: string;
}

/** How a failure is made: its code, its facts, and what caused it where something did. */
type FailureArgs = {
  readonly [C in keyof FailureFacts]: readonly [code: C, facts: FailureFacts[C], cause?: unknown];
}[keyof FailureFacts];

/** Of rooms whose sentences are not data yet. */
type ProseArgs = readonly [kind: FailureKind, sentence: string, remedy: string, cause?: unknown];

/** The one error type that our own code throws for something a person can act on. */
export class Failure extends Error {
  /** What happened, as data; `overlay/words/notices/` has the words. */
  readonly notice: FailureNotice;
  /** As `kind`, until every room gives its failures as data. */
  readonly code: FailureKind;

  constructor(...args: FailureArgs | ProseArgs) {
    const [code, facts, third, fourth] = args as readonly [string, object | string, unknown, unknown];
    const notice = (
      typeof facts === "string"
        ? { code: "prose", facts: { kind: code, sentence: facts, remedy: third } }
        : { code, facts }
    ) as FailureNotice;
    const cause = typeof facts === "string" ? fourth : third;
    super(`${notice.code} ${JSON.stringify(notice.facts)}`, cause === undefined ? undefined : { cause });
    this.name = "Failure";
    this.notice = notice;
    this.code = kindOf(notice);
  }

  /** @deprecated The words are made where they are shown, by `failureText`. */
  get sentence(): string {
    return failureText(this.notice, "en", "command").sentence;
  }

  /** @deprecated as `sentence` */
  get remedy(): string {
    return failureText(this.notice, "en", "command").remedy;
  }
}
