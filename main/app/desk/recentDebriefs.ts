import { readdir, stat } from "node:fs/promises";
import { basename, join } from "node:path";
import type { RecentDebrief } from "../../contract/debriefApi.ts";
import { DEBRIEF_FILE, loadDebrief } from "../../debrief/debriefStore.edge.ts";
import { rideDateText } from "../../../overlay/words/dateText.ts";
import type { PathBook } from "./pathBook.ts";
import { knownFolders } from "./userLists.ts";

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
    const one = await entryOf(folder, paths);
    if (one !== null) found.push(one);
  }
  return found.sort((a, b) => b.modifiedUtcMs - a.modifiedUtcMs).slice(0, LISTED);
}

async function entryOf(folder: string, paths: PathBook): Promise<RecentDebrief | null> {
  try {
    const { mtimeMs } = await stat(join(folder, DEBRIEF_FILE));
    const { document } = await loadDebrief(folder);
    const { figures, plan, media, shownRideId } = document;
    const ridePath = media.find(({ id }) => id === shownRideId)?.path ?? null;
    const names = new Set(await readdir(folder));
    return {
      id: paths.idOf(folder),
      title:
        plan.title ?? plan.rider ?? (ridePath === null ? basename(folder) : (ridePath.split("/").at(-1) ?? ridePath)),
      folder,
      rideDateText:
        figures === null || figures.startUtcMs === null
          ? null
          : rideDateText(figures.startUtcMs, figures.utcOffsetMin, "en"),
      modifiedUtcMs: mtimeMs,
      prepared: document.prepared,
      handedOver: !document.prepared && names.has("film.mp4") && names.has("debrief.html"),
    };
  } catch {
    return null;
  }
}
