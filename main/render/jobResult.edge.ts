import { Failure } from "../contract/failure.ts";
import { Cancelled, type JobContext, type JobResult } from "../contract/job.ts";
import type { WorkStep } from "../contract/workStep.ts";

/** Runs a job and turns whatever ends it into a result. */
export async function jobResult<T>(run: () => Promise<T>): Promise<JobResult<T>> {
  try {
    return { kind: "done", value: await run() };
  } catch (error) {
    if (error instanceof Cancelled) return { kind: "cancelled" };
    return { kind: "failed", failure: asFailure(error).data() };
  }
}

function asFailure(error: unknown): Failure {
  if (error instanceof Failure) return error;
  const { code, path, message } = error as NodeJS.ErrnoException;
  if (code === "ENOSPC" || code === "EDQUOT") {
    return new Failure("disk-full", { path: path ?? null }, error);
  }
  if (code === "EACCES" || code === "EPERM" || code === "EROFS" || code === "ENOTDIR" || code === "EISDIR") {
    return new Failure("output-forbidden", { path: path ?? null }, error);
  }
  return new Failure("render-broke-off", { said: message }, error);
}

const REPORTS_EVERY_MS = 200;
/** Before this the speed is not known well enough to speak of time left. */
const LEFT_AFTER_MS = 3000;

/**
 * Progress in work (frames, each as dear as it is), reported at most 5 times a second. `skip` counts work that was done
 * already.
 *
 * @param afterShare work that comes after all of it, as a share of it
 */
export function workProgress(
  context: JobContext,
  totalWork: number,
  afterShare = 0,
): {
  skip(work: number): void;
  at(work: number, step: WorkStep): void;
} {
  const startMs = Date.now();
  let lastMs = -Infinity;
  let skipped = 0;
  return {
    skip: (work) => (skipped += work),
    at(work, step) {
      const nowMs = Date.now();
      if (nowMs - lastMs < REPORTS_EVERY_MS) return;
      lastMs = nowMs;
      const made = work - skipped;
      const elapsedMs = nowMs - startMs;
      const leftWork = totalWork * (1 + afterShare) - work;
      const leftS = made > 0 && elapsedMs > LEFT_AFTER_MS ? (leftWork * elapsedMs) / made / 1000 : null;
      context.report({ done: Math.min(1, work / Math.max(1, totalWork)), leftS, step });
    },
  };
}
