import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { Failure, type FailureData } from "../contract/failure.ts";
import { Cancelled, type JobContext } from "../contract/job.ts";
import type { BatchShare } from "../contract/squad.ts";
import { ATHLETE_FILE } from "../debrief/athleteStore.edge.ts";
import { SQUAD_ROW_FILE } from "../debrief/squadRow.edge.ts";
import type { Host } from "./host.ts";
import { DEBRIEF_FILE } from "../debrief/debriefStore.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import { coachHtml } from "../handover/coachHtml.tsx";
import { type DebriefRequest, prepareDebrief } from "./preparedDebrief.ts";
import { defaultFolder } from "./savedDebrief.ts";
import { keepFailure, keepTold, keptRows, writeSquadPage } from "./squad.ts";
import { sortFiles } from "./gather.ts";
import { handoverData, renderStanding } from "./handOver.ts";
import type { Note } from "../contract/notice.ts";

/** One ride of a folder: prepared, there already, or why not. */
interface BatchRide {
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
  /** Folder of the nearest athlete.json; null: none. */
  readonly athleteDir: string | null;
  readonly folder: string;
  /** Set for a folder that can't be read: no ride of it is known. */
  readonly unreadable: Failure | null;
}

type BatchRequest = Omit<DebriefRequest, "paths" | "outDir">;

/** A ride file with the clips, the plan.json and the athlete.json that lie beside it; folders with debriefs are passed over. */
async function outingsIn(
  folder: string,
  request: Pick<BatchRequest, "athleteDir">,
  above: string | null,
): Promise<Outing[]> {
  let entries;
  try {
    entries = await readdir(folder, { withFileTypes: true });
  } catch (error) {
    throw new Failure("rides-folder-unreadable", { folder }, error);
  }
  const there = (name: string): boolean => entries.some((entry) => entry.name === name);
  if (there(DEBRIEF_FILE) || there(SQUAD_ROW_FILE)) return [];
  const { ridePaths, clipPaths } = await sortFiles(
    entries.filter((entry) => entry.isFile()).map(({ name }) => join(folder, name)),
  );
  const planPath = there(PLAN_FILE) ? join(folder, PLAN_FILE) : null;
  const athleteDir = request.athleteDir ?? (there(ATHLETE_FILE) ? folder : above);
  return ridePaths
    .filter((path) => RIDE_NAMES.test(path))
    .sort()
    .map((ridePath) => ({
      ridePath,
      clipPaths: clipPaths.sort(),
      planPath,
      athleteDir,
      folder: defaultFolder(ridePath, request.athleteDir),
      unreadable: null,
    }));
}

/** A folder that can't be read stands for the rides in it. */
function unreadableFolder(folder: string, error: unknown): Outing {
  if (!(error instanceof Failure)) throw error;
  return { ridePath: folder, clipPaths: [], planPath: null, athleteDir: null, folder, unreadable: error };
}

/** Two rides whose debriefs would have one name (`sunday.fit` and `sunday.gpx`) get two. */
function inFoldersOfTheirOwn(outings: readonly Outing[]): Outing[] {
  const taken = new Set<string>();
  return outings.map((outing) => {
    let { folder } = outing;
    for (let n = 2; taken.has(folder); n++) folder = `${outing.folder}-${n}`;
    taken.add(folder);
    return { ...outing, folder };
  });
}

/** Every ride of a batch, in an order that is the same on every machine. Failure `usage` for a folder without rides. */
async function outingsOf(root: string, request: Pick<BatchRequest, "athleteDir">): Promise<Outing[]> {
  const below = await readdir(root, { withFileTypes: true }).catch(() => []);
  const above = below.some(({ name }) => name === ATHLETE_FILE) ? root : null;
  const outings = await outingsIn(root, request, null);
  for (const entry of below.filter((one) => one.isDirectory()).sort((a, b) => (a.name < b.name ? -1 : 1)))
    outings.push(
      ...(await outingsIn(join(root, entry.name), request, above).catch((error: unknown) => [
        unreadableFolder(join(root, entry.name), error),
      ])),
    );
  if (outings.length === 0) throw new Failure("rides-folder-empty", { folder: root });
  return inFoldersOfTheirOwn(outings);
}

/** The rides of a batch's folder as they were kept, in reading order. Failure `usage` for a folder without rides. */
export async function batchRows(root: string): ReturnType<typeof keptRows> {
  const outings = await outingsOf(root, { athleteDir: null });
  return keptRows(
    root,
    outings.map((outing) => ({ ...outing, failure: outing.unreadable?.notice ?? null })),
  );
}

/** What a batch did. */
export interface Batch {
  /** The rides of this share, in their order. */
  readonly rides: readonly BatchRide[];
  /** Path of the page over all rides, those of other shares too. */
  readonly squadPath: string;
}

/**
 * Prepares every ride of a folder and of the folders right below it, each with its folder's athlete: line-up, reading,
 * film and the coach's page; then the squad's page over all of them. Nothing for the athlete is written before a person
 * has looked. A ride that can't be done is named and does not end the rest; one that has a debrief already is left as it
 * is. Failure `usage` for a folder without rides; Cancelled ends it.
 * @param share only so many of the rides; the page is over all
 */
export async function batchJourney(
  root: string,
  request: BatchRequest,
  host: Host,
  context: JobContext,
  share: BatchShare = { part: 1, of: 1 },
): Promise<Batch> {
  const outings = await outingsOf(root, request);
  const mine = outings.filter((_, index) => index % share.of === share.part - 1);
  const rides: BatchRide[] = [];
  for (const [index, outing] of mine.entries()) {
    const part: JobContext = {
      signal: context.signal,
      report: (progress) =>
        context.report({
          ...progress,
          done: (index + progress.done) / mine.length,
          leftS: null,
          step: { what: "ride", number: index + 1, count: mine.length, step: progress.step },
        }),
    };
    rides.push(await prepareOne(outing, request, host, part));
  }
  const all = outings.map((outing) => ({
    ...outing,
    failure: rides.find(({ folder }) => folder === outing.folder)?.failure?.notice ?? null,
  }));
  const squadPath = await writeSquadPage(root, all, request.language ?? "en", host, context);
  return { rides, squadPath };
}

async function prepareOne(outing: Outing, request: BatchRequest, host: Host, context: JobContext): Promise<BatchRide> {
  const { folder, ridePath, athleteDir } = outing;
  const ride = { ridePath, folder, written: [], warnings: [], failure: null };
  if ((await readdir(folder).catch((): string[] => [])).includes(DEBRIEF_FILE))
    return { ...ride, state: "there already" };
  try {
    if (outing.unreadable !== null) throw outing.unreadable;
    const plan = { ...request.plan, athleteDir, planPath: request.plan.planPath ?? outing.planPath };
    const prepared = await prepareDebrief(
      { ...request, plan, athleteDir, paths: [ridePath, ...outing.clipPaths], outDir: folder },
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
    await keepTold(prepared.standing, folder, host, context);
    return {
      ...ride,
      state: "prepared",
      written: [join(folder, DEBRIEF_FILE), film.path, coachPath],
      warnings: [...prepared.warnings, ...film.warnings],
    };
  } catch (error) {
    if (error instanceof Cancelled) throw error;
    const failure = error instanceof Failure ? error : new Failure("ride-failed-inside", { ridePath }, error);
    if (outing.unreadable === null) await keepFailure(folder, failure);
    return { ...ride, state: "failed", failure: failure.data() };
  }
}
