/** Progress and results of anything that takes time. */
import type { FailureData } from "./failure.ts";

export interface Progress {
  /** 0 to 1. */
  readonly done: number;
  readonly leftS: number | null;
  /** What is being worked on, in words, e.g. `shot 2 of 6`. */
  readonly step: string;
}

export type JobResult<T> =
  | { readonly kind: "done"; readonly value: T }
  | { readonly kind: "cancelled" }
  | { readonly kind: "failed"; readonly failure: FailureData };

/** What a long job is given: it reports at most 5 times a second and stops soon after the signal. */
export interface JobContext {
  readonly signal: AbortSignal;
  readonly report: (progress: Progress) => void;
}
