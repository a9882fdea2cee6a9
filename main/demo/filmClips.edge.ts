import { rm } from "node:fs/promises";
import path from "node:path";
import { Failure } from "../contract/failure.ts";
import { clearUnfinished } from "../host/leftovers.edge.ts";
import { startNodeChild } from "../host/nodeChild.edge.ts";
import type { FilmOrder, FilmReport } from "./filmOrder.ts";
import { Cancelled } from "../contract/job.ts";
import { errorLine } from "../contract/childLine.ts";

/** Painting takes most of a core, encoding the rest of another. */
const AT_ONCE = 2;

/**
 * Films clips, two at a time, each in a child of its own.
 *
 * @param onFrames called with the frames drawn so far of one of the orders.
 * @returns paths in the order of the orders; after a failure or the signal no half clip is left.
 * @throws Failure, or Cancelled after the signal.
 */
export async function filmClips(
  orders: readonly FilmOrder[],
  signal: AbortSignal,
  onFrames: (index: number, frames: number) => void,
): Promise<readonly string[]> {
  const all = new AbortController();
  const stop = (): void => all.abort();
  signal.addEventListener("abort", stop, { once: true });
  if (signal.aborted) stop();
  let next = 0;
  const work = async (): Promise<void> => {
    for (let i = next++; i < orders.length && !all.signal.aborted; i = next++) {
      await filmInChild(orders[i]!, all.signal, (frames) => onFrames(i, frames));
    }
  };
  // The longest clip is the first; one failure ends the others, and all have ended before it is told.
  const ends = await Promise.allSettled(
    Array.from({ length: AT_ONCE }, () =>
      work().catch((error: unknown) => {
        stop();
        throw error;
      }),
    ),
  );
  signal.removeEventListener("abort", stop);
  if (signal.aborted) throw new Cancelled();
  const failed = ends.filter((end) => end.status === "rejected").find((end) => !(end.reason instanceof Cancelled));
  if (failed) throw failed.reason;
  return orders.map((order) => path.join(order.outDir, order.clip.fileName));
}

async function filmInChild(order: FilmOrder, signal: AbortSignal, onFrames: (frames: number) => void): Promise<void> {
  if (signal.aborted) throw new Cancelled();
  const child = (order.tools.startChild ?? startNodeChild)("filmClipChild");
  child.tell(Buffer.from(JSON.stringify(order), "utf8"));
  // An empty message asks the child to stop ffmpeg and tidy up; what does not obey is killed.
  let kill: NodeJS.Timeout | undefined;
  const stop = (): void => {
    child.tell(new Uint8Array(0));
    kill = setTimeout(() => child.kill(), 5000);
  };
  signal.addEventListener("abort", stop, { once: true });
  let failure: Failure | null = null;
  for (let message = await child.take(); message !== null; message = await child.take()) {
    const report = JSON.parse(Buffer.from(message).toString("utf8")) as FilmReport;
    if ("frames" in report) onFrames(report.frames);
    else failure = Failure.from(report.failure);
  }
  const code = await child.ended;
  clearTimeout(kill);
  signal.removeEventListener("abort", stop);
  if (code === 0) return;
  await rm(`${path.join(order.outDir, order.clip.fileName)}.wav.part`, { force: true });
  await clearUnfinished(order.outDir, order.clip.fileName);
  if (signal.aborted) throw new Cancelled();
  if (failure) throw failure;
  throw new Failure("demo-clip-not-drawn", { fileName: order.clip.fileName, said: errorLine(child.said()) });
}
