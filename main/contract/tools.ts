import type { StartChild } from "./childLine.ts";

/** Programs that edges start; found once by set-up's search order and handed down. */
export interface Tools {
  /** Path of ffmpeg. */
  readonly ffmpeg: string;
  /** Path of ffprobe. */
  readonly ffprobe: string;
  /** Starts a process of ours; a Node process where it is not said. */
  readonly startChild?: StartChild;
}
