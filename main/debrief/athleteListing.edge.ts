import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Athlete } from "./athlete.ts";
import { athleteFiles, deleteAthlete, loadAthlete } from "./athleteStore.edge.ts";
import { cacheFolder } from "../host/cacheFolder.edge.ts";

/** Rooms of the cache that may hold pictures and sound of any athlete; all of it can be made again. */
const PICTURE_ROOMS = ["parts", "proxies", "filmstrips"];

export interface AthleteListing {
  readonly athlete: Athlete;
  /** Every file that would go: the athlete's folder, and pictures kept for speed. */
  readonly files: readonly string[];
  /** Rides and clips elsewhere that the debriefs point at: they stay. */
  readonly outside: readonly string[];
}

async function pictureCaches(): Promise<string[]> {
  const rooms = await readdir(cacheFolder()).catch((): string[] => []);
  return PICTURE_ROOMS.filter((room) => rooms.includes(room)).map((room) => join(cacheFolder(), room));
}

/** What deleting an athlete would remove. Failure `usage` for a folder without an athlete's file. */
export async function athleteListing(folder: string): Promise<AthleteListing> {
  const athlete = await loadAthlete(folder);
  if (athlete === null) throw new Failure("athlete-folder-without-file", { folder });
  return { athlete, ...(await athleteFiles(folder, await pictureCaches())) };
}

/**
 * Deletes an athlete whole, once the person has seen the list and typed the name. Gives what is gone and what could not
 * be removed. Failure `usage` when the name is another or the files are no longer those listed: nothing is deleted then.
 */
export async function deleteListed(
  folder: string,
  listing: AthleteListing,
  confirmName: string,
): Promise<{ readonly removed: readonly string[]; readonly kept: readonly string[] }> {
  if (confirmName.trim() !== listing.athlete.name)
    throw new Failure("athlete-name-differs", { typed: confirmName.trim(), name: listing.athlete.name });
  return deleteAthlete(folder, listing.files, await pictureCaches());
}
