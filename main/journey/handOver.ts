import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { JobContext } from "../contract/job.ts";
import type { Lineup } from "../contract/lineup.ts";
import type { Tools } from "../contract/tools.ts";
import type { DebriefDocument } from "../debrief/debriefDocument.ts";
import type { FilmJob } from "../render/renderFilm.edge.ts";
import type { ReadOutcome } from "./readJourney.ts";

export interface HandOverInput {
  readonly folder: string;
  readonly document: DebriefDocument;
  readonly judged: ReadOutcome;
  readonly film: Film;
  readonly clips: readonly Clip[];
  readonly lineup: Lineup;
  readonly job: FilmJob;
}

/** Writes everything that goes with the film into the debrief's folder. */
export async function handOver(_input: HandOverInput, _tools: Tools, _chromium: string | null, _context: JobContext): Promise<{ written: readonly string[]; warnings: readonly string[] }> {
  return { written: [], warnings: [] };
}
