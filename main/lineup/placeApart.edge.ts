import { Worker } from "node:worker_threads";
import { Failure } from "../contract/failure.ts";
import type { Lineup } from "../contract/lineup.ts";
import type { PlaceClipsInput } from "./placeClips.ts";
import { projectFile } from "../host/projectFile.edge.ts";
import { Cancelled } from "../contract/job.ts";

/** `placeClips` in a thread of its own, so that the caller stays free. Throws Cancelled after the signal. */
export function placeApart(input: PlaceClipsInput, signal: AbortSignal | null): Promise<Lineup> {
  if (signal?.aborted) throw new Cancelled();
  return new Promise((resolve, reject) => {
    const worker = new Worker(projectFile("dist", "placeClipsWorker.mjs"), { workerData: input });
    const stop = (): void => void worker.terminate();
    signal?.addEventListener("abort", stop, { once: true });
    worker.once("message", resolve);
    worker.once("error", (error) => reject(new Failure("placing-broke-off", {}, error)));
    worker.once("exit", () => {
      signal?.removeEventListener("abort", stop);
      // After an answer this changes nothing.
      reject(signal?.aborted ? new Cancelled() : new Failure("placing-broke-off", {}));
    });
  });
}
