import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { Failure, type FailureData } from "../contract/failure.ts";
import { Cancelled, type JobContext } from "../contract/job.ts";
import type { Host } from "./host.ts";
import { DEBRIEF_FILE } from "../debrief/debriefStore.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import { coachHtml } from "../handover/coachHtml.tsx";
import { type DebriefRequest, prepareDebrief } from "./preparedDebrief.ts";
import { defaultFolder } from "./savedDebrief.ts";
import { sortFiles } from "./gather.ts";
import { handoverData, renderStanding } from "./handOver.ts";
import type { Note } from "../contract/notice.ts";

/** One ride of a folder: prepared, there already, or why not. */
export interface BatchRide {
  readonly ridePath: string;
  readonly folder: string;
  readonly state: "prepared" | "there already" | "failed";
  readonly written: readonly string[];
  readonly warnings: readonly Note[];
  readonly failure: FailureData | null;
}

const RIDE_NAMES = /\.(fit|gpx|tcx|csv)(\.gz)?$/i;
const PLAN_FILE = "plan.json";

interface Outing {
  readonly ridePath: string;
  readonly clipPaths: readonly string[];
  readonly planPath: string | null;
}

/** A ride file with the clips and the plan.json that lie beside it; folders with debriefs in them are passed over. */
async function outingsIn(folder: string): Promise<Outing[]> {
  let entries;
  try {
    entries = await readdir(folder, { withFileTypes: true });
  } catch (error) {
    throw new Failure("rides-folder-unreadable", { folder }, error);
  }
  if (entries.some(({ name }) => name === DEBRIEF_FILE)) return [];
  const { ridePaths, clipPaths } = await sortFiles(
    entries.filter((entry) => entry.isFile()).map(({ name }) => join(folder, name)),
  );
  const planPath = entries.some(({ name }) => name === PLAN_FILE) ? join(folder, PLAN_FILE) : null;
  return ridePaths
    .filter((path) => RIDE_NAMES.test(path))
    .sort()
    .map((ridePath) => ({ ridePath, clipPaths: clipPaths.sort(), planPath }));
}

/**
 * Prepares every ride of a folder and of the folders right below it: line-up, reading, film and the coach's page. Nothing
 * for the athlete is written before a person has looked. A ride that can't be done is named and does not end the rest; one
 * that has a debrief already is left as it is. Failure `usage` for a folder without rides; Cancelled ends it.
 */
export async function batchJourney(
  folder: string,
  request: Omit<DebriefRequest, "paths" | "outDir">,
  host: Host,
  context: JobContext,
): Promise<BatchRide[]> {
  const below = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const outings = await outingsIn(folder);
  for (const entry of below.filter((one) => one.isDirectory()).sort((a, b) => (a.name < b.name ? -1 : 1)))
    outings.push(...(await outingsIn(join(folder, entry.name))));
  if (outings.length === 0) throw new Failure("rides-folder-empty", { folder });
  const rides: BatchRide[] = [];
  for (const [index, outing] of outings.entries()) {
    const part: JobContext = {
      signal: context.signal,
      report: (progress) =>
        context.report({
          ...progress,
          done: (index + progress.done) / outings.length,
          leftS: null,
          step: `ride ${index + 1} of ${outings.length}: ${progress.step}`,
        }),
    };
    rides.push(await prepareOne(outing, request, host, part));
  }
  return rides;
}

async function prepareOne(
  outing: Outing,
  request: Omit<DebriefRequest, "paths" | "outDir">,
  host: Host,
  context: JobContext,
): Promise<BatchRide> {
  const folder = defaultFolder(outing.ridePath, request.athleteDir);
  const ride = { ridePath: outing.ridePath, folder, written: [], warnings: [], failure: null };
  if ((await readdir(folder).catch((): string[] => [])).includes(DEBRIEF_FILE))
    return { ...ride, state: "there already" };
  try {
    const plan = { ...request.plan, planPath: request.plan.planPath ?? outing.planPath };
    const prepared = await prepareDebrief(
      { ...request, plan, paths: [outing.ridePath, ...outing.clipPaths], outDir: folder },
      host,
      context,
      true,
    );
    const film = await renderStanding(
      prepared.standing,
      folder,
      join(folder, "film.mp4"),
      host,
      context,
      request.output,
    );
    const coachPath = join(folder, "coach.html");
    await writeAtomic(coachPath, coachHtml(await handoverData(prepared.standing, [])));
    return {
      ...ride,
      state: "prepared",
      written: [join(folder, DEBRIEF_FILE), film.path, coachPath],
      warnings: [...prepared.warnings, ...film.warnings],
    };
  } catch (error) {
    if (error instanceof Cancelled) throw error;
    if (!(error instanceof Failure)) throw error;
    const { code, sentence, remedy } = error;
    return { ...ride, state: "failed", failure: { code, sentence, remedy } };
  }
}
