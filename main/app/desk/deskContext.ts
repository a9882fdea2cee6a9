import type { Surroundings } from "../surroundings.ts";
import type { JobQueue } from "./jobQueue.ts";
import type { RidesApart } from "../../journey/apart/ridesApart.edge.ts";
import type { Host } from "../../journey/host.ts";

/** What every part of the desk works with. */
export interface DeskContext {
  readonly surroundings: Surroundings;
  /** Tools, cache and clock as the steps see them; its rides are read in a thread of their own. */
  readonly host: Host;
  readonly rides: RidesApart;
  readonly jobs: JobQueue;
  /** The state changed: the window is told once, soon. */
  readonly changed: () => void;
}
