import { readdir } from "node:fs/promises";
import { join } from "node:path";
import type { RecentDebrief } from "../../contract/debriefApi.ts";
import { listedDebrief } from "../../journey/listedDebriefs.ts";
import type { PathBook } from "./pathBook.ts";
import { knownFolders } from "../../host/knownFolders.edge.ts";

/** So many are listed, the last changed first. */
const LISTED = 40;

async function foldersBelow(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  return entries.filter((entry) => entry.isDirectory()).map(({ name }) => join(folder, name));
}

/** Debriefs opened or made before, and those that lie in the folders of known athletes; what is gone is left out. */
export async function recentDebriefs(paths: PathBook): Promise<RecentDebrief[]> {
  const known = await knownFolders();
  const candidates = new Set(known.debriefs);
  for (const athlete of known.athletes) for (const folder of await foldersBelow(athlete)) candidates.add(folder);
  const found: RecentDebrief[] = [];
  for (const folder of candidates) {
    const elsewhere = known.handedOver.filter((one) => one.folder === folder).map(({ into }) => into);
    const one = await listedDebrief(folder, elsewhere);
    if (one !== null) found.push({ ...one, id: paths.idOf(folder) });
  }
  return found.sort((a, b) => b.modifiedUtcMs - a.modifiedUtcMs).slice(0, LISTED);
}
