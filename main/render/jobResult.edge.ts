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

const GONE = new Set(["ENOENT", "ENODEV", "ENXIO", "EIO", "ESTALE"]);

function asFailure(error: unknown): Failure {
  if (error instanceof Failure) return error;
  const { code, path, message } = error as NodeJS.ErrnoException;
  if (code === "ENOSPC" || code === "EDQUOT") {
    return new Failure("disk-full", { path: path ?? null }, error);
  }
  if (code === "EACCES" || code === "EPERM" || code === "EROFS" || code === "ENOTDIR" || code === "EISDIR") {
    return new Failure("output-forbidden", { path: path ?? null }, error);
  }
  // The folder was removed, or the drive pulled out, in the middle of it.
  if (path !== undefined && GONE.has(code ?? "")) return new Failure("file-not-written", { path, error: code! }, error);
  return new Failure("render-broke-off", { said: message }, error);
}

const REPORTS_EVERY_MS = 200;
/** Before this the speed is not known well enough to speak of time left: since the first frame, and in work since then. */
const LEFT_AFTER_MS = 3000;
const LEFT_AFTER_WORK = 45;

/** How far a job has come, told to whoever waits. */
export interface WorkProgress {
  /** Counts work that was done already. */
  skip(work: number): void;
  at(work: number, step: WorkStep): void;
  /** Work has to be done that was not foreseen. What is told as done does not go back for it. */
  more(work: number): void;
}

/**
 * Progress in work (frames, each as dear as it is), reported at most 5 times a second. Time left is reckoned from the
 * first frame on, so that a slow start is not taken for slow work.
 *
 * @param afterShare work that comes after all of it, as a share of it
 */
export function workProgress(context: JobContext, foreseenWork: number, afterShare = 0): WorkProgress {
  let totalWork = foreseenWork;
  let lastMs = -Infinity;
  let skipped = 0;
  let told = 0;
  let first: { readonly atMs: number; readonly made: number } | null = null;
  return {
    skip: (work) => (skipped += work),
    more: (work) => (totalWork += work),
    at(work, step) {
      const nowMs = performance.now();
      const made = work - skipped;
      if (first === null && made > 0) first = { atMs: nowMs, made };
      if (nowMs - lastMs < REPORTS_EVERY_MS) return;
      lastMs = nowMs;
      told = Math.max(told, Math.min(1, work / Math.max(1, totalWork)));
      const elapsedMs = nowMs - (first?.atMs ?? nowMs);
      const sinceFirst = made - (first?.made ?? made);
      const leftWork = totalWork * (1 + afterShare) - work;
      const known = elapsedMs > LEFT_AFTER_MS && sinceFirst >= LEFT_AFTER_WORK;
      context.report({ done: told, leftS: known ? (leftWork * elapsedMs) / sinceFirst / 1000 : null, step });
    },
  };
}
