/** Progress and results of anything that takes time. */
import type { WorkStep } from "./workStep.ts";
import { Failure, type FailureData } from "./failure.ts";

export interface Progress {
  /** 0 to 1. */
  readonly done: number;
  readonly leftS: number | null;
  readonly step: WorkStep;
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

/** From here on what is left of a part is too little to tell how long all of it takes. */
const MOSTLY_DONE = 0.9;

/**
 * The context of a part of a job: its progress stands within the whole one's, and its time left is the whole job's, so far
 * as the part tells its own. Without that a job of three parts says three times that it is about to end.
 *
 * @param from where the part begins, share of the whole, 0 to 1
 * @param share how much of the whole's time the part takes, 0 to 1
 */
export function partOfJob({ signal, report }: JobContext, from: number, share: number): JobContext {
  const afterIt = Math.max(0, 1 - from - share) / share;
  /** How long the whole part takes, s; null: it has not told yet. */
  let partS: number | null = null;
  return {
    signal,
    report({ done, leftS, step }) {
      if (leftS !== null && done < MOSTLY_DONE) partS = leftS / (1 - done);
      const ofPartS = leftS ?? (partS === null ? null : partS * Math.max(0, 1 - done));
      const afterS = afterIt === 0 ? 0 : partS === null ? null : partS * afterIt;
      report({
        done: from + share * done,
        leftS: ofPartS === null || afterS === null ? null : ofPartS + afterS,
        step,
      });
    },
  };
}

/** Thrown through a job when its signal was aborted: a result, not a failure. */
export class Cancelled extends Error {
  constructor() {
    super("Cancelled.");
    this.name = "Cancelled";
  }
}

/** The value of a finished job; throws Cancelled or the job's Failure. */
export function settled<T>(result: JobResult<T>): T {
  if (result.kind === "done") return result.value;
  if (result.kind === "cancelled") throw new Cancelled();
  throw Failure.from(result.failure);
}
