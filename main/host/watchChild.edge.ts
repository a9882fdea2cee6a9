import { readFileSync } from "node:fs";

/** Where the system does not tell what a process uses, it may be silent for so many times longer. */
const UNSEEN_FACTOR = 10;

/** An eye on a child process. */
export interface ChildWatch {
  /** It said something. */
  seen(): void;
  /** It ended by itself: nothing more is watched. */
  end(): void;
  /** True when it was ended because it hung. */
  hung(): boolean;
}

/**
 * Ends a child that for `limitS` neither says anything nor uses the processor: one that is busy but silent is let work. A
 * clock that is set meanwhile changes nothing.
 */
export function watchChild(child: { readonly pid: number | undefined; kill(): void }, limitS: number): ChildWatch {
  let lastSeenMs = performance.now();
  let lastTicks = processorTicks(child.pid);
  const limitMs = limitS * 1000 * (lastTicks === null ? UNSEEN_FACTOR : 1);
  let hung = false;
  const timer = setInterval(
    () => {
      const ticks = processorTicks(child.pid);
      if (ticks !== lastTicks) {
        lastTicks = ticks;
        lastSeenMs = performance.now();
      } else if (performance.now() - lastSeenMs > limitMs) {
        hung = true;
        child.kill();
      }
    },
    Math.min(1000, limitMs / 4),
  );
  timer.unref();
  return { seen: () => (lastSeenMs = performance.now()), end: () => clearInterval(timer), hung: () => hung };
}

/** Processor time used so far, in the kernel's ticks; null where the system does not tell. */
function processorTicks(pid: number | undefined): number | null {
  if (process.platform !== "linux" || pid === undefined) return null;
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ")[1]?.split(" ") ?? [];
    return Number(fields[11]) + Number(fields[12]);
  } catch {
    return null;
  }
}
