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
