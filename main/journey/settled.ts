import { Failure } from "../contract/failure.ts";
import type { JobResult } from "../contract/job.ts";
import { Cancelled } from "./cancelled.ts";

/** The value of a finished job; throws Cancelled or the job's Failure. */
export function settled<T>(result: JobResult<T>): T {
  if (result.kind === "done") return result.value;
  if (result.kind === "cancelled") throw new Cancelled();
  throw new Failure(result.failure.code, result.failure.sentence, result.failure.remedy);
}
