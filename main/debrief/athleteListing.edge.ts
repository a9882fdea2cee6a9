import { readdir, realpath, rm } from "node:fs/promises";
import { join, resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import { cacheFolder } from "../host/cacheFolder.edge.ts";
import { knownFolders, remember } from "../host/knownFolders.edge.ts";
import { stateFolder } from "../host/stateFolder.edge.ts";
import type { Athlete } from "./athlete.ts";
import { athleteFiles, deleteAthlete, loadAthlete } from "./athleteStore.edge.ts";
import { DEBRIEF_FILE } from "./debriefStore.edge.ts";
import { parseDebrief } from "./parseDebrief.ts";
import { readText } from "../host/readText.edge.ts";

/** Rooms of the cache that may hold pictures, sound and motion of any athlete; all of it is made again when needed. */
const PICTURE_ROOMS = ["parts", "proxies", "filmstrips", "signals"];

export interface AthleteListing {
  readonly athlete: Athlete;
  /** Every file that would go: the athlete's, their debriefs' wherever the program knows of them, unsaved copies. */
  readonly files: readonly string[];
  /** Files of somebody else in the athlete's folder: they stay. */
  readonly others: readonly string[];
  /** Rides and clips elsewhere that the debriefs point at: they stay. */
  readonly outside: readonly string[];
}

const realPath = (path: string): Promise<string> => realpath(path).catch(() => resolve(path));

/** The folder of the athlete that the debrief in a folder names; null where there is no such debrief. */
async function athleteNamedIn(debriefFolder: string): Promise<string | null> {
  try {
    const path = join(debriefFolder, DEBRIEF_FILE);
    const { athletePath } = parseDebrief(await readText(path), path).document;
    return athletePath === null ? null : await realPath(resolve(debriefFolder, athletePath));
  } catch {
    return null;
  }
}

/** Debriefs of the athlete that lie elsewhere, of those that were opened or made in the window, and copies kept of them. */
async function debriefsElsewhere(folder: string): Promise<string[]> {
  const home = await realPath(folder);
  const found: string[] = [];
  for (const one of (await knownFolders()).debriefs) {
    const real = await realPath(one);
    if (!`${real}/`.startsWith(`${home}/`) && (await athleteNamedIn(one)) === home) found.push(one);
  }
  return found;
}

/** What deleting an athlete would remove. Failure `usage` for a folder without an athlete's file. */
export async function athleteListing(folder: string): Promise<AthleteListing> {
  const athlete = await loadAthlete(folder);
  if (athlete === null) throw new Failure("athlete-folder-without-file", { folder });
  return { athlete, ...(await athleteFiles(folder, await ownRoots(folder))) };
}

async function ownRoots(folder: string): Promise<string[]> {
  return [...(await debriefsElsewhere(folder)), ...(await unsavedCopies(folder))];
}

/** Copies of the athlete's documents that could not be saved where they belong: known by the place they were to go to. */
async function unsavedCopies(folder: string): Promise<string[]> {
  const room = join(stateFolder(), "unsaved");
  const home = await realPath(folder);
  const found: string[] = [];
  for (const name of await readdir(room).catch(() => [])) {
    const path = join(room, name);
    const from = await readText(join(path, "folder.txt")).catch(() => null);
    if (from === null) continue;
    const meant = await realPath(from.trim());
    if (`${meant}/`.startsWith(`${home}/`) || (await athleteNamedIn(from.trim())) === home) found.push(path);
  }
  return found;
}

/** @throws Failure `usage` when the name typed is another */
export function mustBeName({ athlete }: AthleteListing, typed: string): void {
  if (typed.trim() !== athlete.name)
    throw new Failure("athlete-name-differs", { typed: typed.trim(), name: athlete.name });
}

/**
 * Deletes an athlete whole, once the person has seen the list and typed the name; what was kept for speed goes with it,
 * that of other athletes too, since it is made again. Gives what is gone and what could not be removed. Failure `usage`
 * when the name is another or the files are no longer those listed: nothing is deleted then.
 */
export async function deleteListed(
  folder: string,
  listing: AthleteListing,
  confirmName: string,
): Promise<{ readonly removed: readonly string[]; readonly kept: readonly string[] }> {
  mustBeName(listing, confirmName);
  const roots = await ownRoots(folder);
  const { debriefs: opened, places, handedOver } = await knownFolders();
  const debriefs = new Set([...opened, ...places.map((one) => one.folder), ...handedOver.map((one) => one.folder)]);
  const home = await realPath(folder);
  const gone: string[] = [];
  for (const one of debriefs)
    if (roots.includes(one) || `${await realPath(one)}/`.startsWith(`${home}/`)) gone.push(one);
  const done = await deleteAthlete(folder, listing.files, roots);
  for (const room of PICTURE_ROOMS)
    await rm(join(cacheFolder(), room), { recursive: true, force: true }).catch(() => undefined);
  if (done.kept.length === 0) {
    for (const one of gone) await remember("debriefs", one, false);
    await remember("athletes", folder, false);
  }
  return done;
}
