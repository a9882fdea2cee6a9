import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

/**
 * Collects what reading ride and clips has left over. Left alone, the collector would wait until a long render's own
 * leavings have come to as much again: measured on a clip of 3 h, 306 MB at most instead of 184.
 */
export function freeMemory(): void {
  setFlagsFromString("--expose-gc");
  (runInNewContext("gc") as () => void)();
}
