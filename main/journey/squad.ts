import { readdir } from "node:fs/promises";
import { join, relative } from "node:path";
import { Failure } from "../contract/failure.ts";
import { Cancelled, type JobContext } from "../contract/job.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import type { SquadKept, SquadLook, SquadRow, SquadTold } from "../contract/squad.ts";
import { SQUAD_PAGE } from "../debrief/athleteStore.edge.ts";
import { DEBRIEF_FILE, loadDebrief } from "../debrief/debriefStore.edge.ts";
import { portablePath } from "../debrief/mediaPath.ts";
import { loadSquadRow, saveSquadRow } from "../debrief/squadRow.edge.ts";
import { inReadingOrder, squadHtml } from "../handover/squadHtml.tsx";
import { firstMoment, squadTold } from "../handover/squadTold.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { pageFonts } from "../host/pageFonts.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import type { DebriefStanding } from "./debrief.ts";
import { handoverData, jobOfStanding, stillsOf } from "./handOver.ts";
import type { Host } from "./host.ts";
import { openDebrief } from "./openDebrief.ts";

/** Rounds after which a page is left as it is though other runs go on writing: each of them writes it anew. */
const MOST_ROUNDS = 5;

/** A ride of a batch with the folder of its debrief. */
export interface SquadRide {
  readonly ridePath: string;
  readonly folder: string;
  /** Why this run could not prepare it; null: it could, or another run has it. */
  readonly failure: SquadKept["failure"];
}

/** What the squad's page tells of a debrief as it stands. `folder` is the debrief's. */
async function told(standing: DebriefStanding, folder: string, host: Host, context: JobContext): Promise<SquadTold> {
  const { film, asked, lineup, clips, document } = standing;
  const bare = await handoverData(standing, []);
  const first = firstMoment(bare);
  const filmed = first !== null && film.items.some((item) => item.type === "shot" && item.moment === first);
  const job = filmed ? jobOfStanding(standing, folder, join(folder, "film.mp4"), host) : null;
  const stills = job === null ? [] : await stillsOf(film, job, host.tools, context, first);
  const unsure = lineup.clips.filter(({ sure, verdict }) => !sure && verdict !== "no match");
  const looks: SquadLook[] = [
    ...(unsure.length === 0
      ? []
      : [
          {
            what: "clips" as const,
            fileNames: unsure.map(({ clipId }) => clips.find(({ id }) => id === clipId)?.fileName ?? clipId),
          },
        ]),
    ...(asked.length === 0 ? [] : [{ what: "asked" as const, count: asked.length }]),
  ];
  return squadTold({ ...bare, stills }, document.revision, looks);
}

/** Keeps what is told of a debrief that was just prepared. */
export async function keepTold(
  standing: DebriefStanding,
  folder: string,
  host: Host,
  context: JobContext,
): Promise<void> {
  await saveSquadRow(folder, { told: await told(standing, folder, host, context), failure: null });
}

/** Keeps why a ride could not be prepared, so that every run that makes the page can say it. Best effort: it was said once. */
export async function keepFailure(folder: string, { notice }: Failure): Promise<void> {
  try {
    await makeFolder(folder);
    await saveSquadRow(folder, { told: null, failure: notice });
  } catch {
    // The folder can't be written: that is what the failure says.
  }
}

const failed = (error: unknown): SquadKept => {
  if (!(error instanceof Failure)) throw error;
  return { told: null, failure: error.notice };
};

/** A ride's row as it was kept. `revision`: of its debrief now; null: there is none that can be read. */
async function keptRow(
  root: string,
  ride: SquadRide,
): Promise<{ readonly row: SquadRow; readonly revision: number | null }> {
  const { ridePath, folder } = ride;
  const names = new Set(await readdir(folder).catch((): string[] => []));
  const row = {
    ride: portablePath(relative(root, ridePath)),
    folder: portablePath(relative(root, folder)),
    hasFilm: names.has("film.mp4") && names.has("coach.html"),
    seen: false,
  };
  try {
    const kept = await loadSquadRow(folder);
    const failure = ride.failure ?? kept?.failure ?? null;
    if (!names.has(DEBRIEF_FILE)) return { row: { ...row, kept: failure && { told: null, failure } }, revision: null };
    const { revision, prepared } = (await loadDebrief(folder)).document;
    return { row: { ...row, kept: kept?.told ? kept : null, seen: !prepared }, revision };
  } catch (error) {
    return { row: { ...row, kept: failed(error) }, revision: null };
  }
}

/** A ride's row as its debrief now is: told anew where it was changed since. Cancelled ends it. */
async function rowOf(root: string, ride: SquadRide, host: Host, context: JobContext): Promise<SquadRow> {
  const { row, revision } = await keptRow(root, ride);
  if (revision === null || row.kept?.told?.revision === revision) return row;
  const { folder } = ride;
  try {
    const { standing } = await openDebrief(folder, host, false, {}, context);
    const kept = { told: await told(standing, folder, host, context), failure: null };
    await saveSquadRow(folder, kept);
    return { ...row, kept };
  } catch (error) {
    return { ...row, kept: failed(error) };
  }
}

/** The rows of a batch as they were kept, in reading order, with whether a debrief is there to open. */
export async function keptRows(
  root: string,
  rides: readonly SquadRide[],
): Promise<{ readonly row: SquadRow; readonly there: boolean }[]> {
  const rows = await Promise.all(rides.map((ride) => keptRow(root, ride)));
  const listed = rows.map(({ row, revision }) => ({ ...row, there: revision !== null }));
  return inReadingOrder(listed).map(({ there, ...row }) => ({ row, there }));
}

/** The rows of a batch, in the order given. */
async function squadRows(
  root: string,
  rides: readonly SquadRide[],
  host: Host,
  context: JobContext,
): Promise<SquadRow[]> {
  const rows: SquadRow[] = [];
  for (const ride of rides) {
    if (context.signal.aborted) throw new Cancelled();
    rows.push(await rowOf(root, ride, host, context));
  }
  return rows;
}

/**
 * Writes `squad.html` of a batch into its folder. Runs that share a batch each write it: what another one finished
 * meanwhile is written by a further round, so that the last page written is whole.
 * @returns its path. Failures: `output-not-writable`, `disk-full`
 */
export async function writeSquadPage(
  root: string,
  rides: readonly SquadRide[],
  language: Language,
  host: Host,
  context: JobContext,
): Promise<string> {
  const path = join(root, SQUAD_PAGE);
  let rows = await squadRows(root, rides, host, context);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    await writeAtomic(path, squadHtml(rows, language, await pageFonts()));
    const now = await squadRows(root, rides, host, context);
    if (JSON.stringify(now) === JSON.stringify(rows)) break;
    rows = now;
  }
  return path;
}
