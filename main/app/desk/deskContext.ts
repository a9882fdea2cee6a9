import type { Surroundings } from "../surroundings.ts";
import type { JobQueue } from "./jobQueue.ts";
import type { RideReader } from "./rideReader.ts";

/** What every part of the desk works with. */
export interface DeskContext {
  readonly surroundings: Surroundings;
  readonly reader: RideReader;
  readonly jobs: JobQueue;
  /** The state changed: the window is told once, soon. */
  readonly changed: () => void;
}
