/**
 * What can go wrong, as data. A cancelled job is a result, not a failure.
 *
 * The code is from a closed list; the sentence is for a person and names the file; the remedy says what to do next.
 */
export type FailureCode =
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

/** A failure in the form that crosses processes and the bridge: plain data, no stack. */
export interface FailureData {
  readonly code: FailureCode;
  /** One plain sentence that names the file or the setting at fault. */
  readonly sentence: string;
  /** What the person can do about it; one sentence. */
  readonly remedy: string;
}

/** The one error type that our own code throws for something a person can act on. */
export class Failure extends Error {
  readonly code: FailureCode;
  readonly sentence: string;
  readonly remedy: string;

  constructor(code: FailureCode, sentence: string, remedy: string, cause?: unknown) {
    super(`${sentence} ${remedy}`, cause === undefined ? undefined : { cause });
    this.name = "Failure";
    this.code = code;
    this.sentence = sentence;
    this.remedy = remedy;
  }
}
