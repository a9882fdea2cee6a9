import { readdir, stat } from "node:fs/promises";
import { basename, join } from "node:path";
import type { RecentDebrief } from "../contract/debriefApi.ts";
import { DEBRIEF_FILE, loadDebrief } from "../debrief/debriefStore.edge.ts";
import { debriefsUnder } from "../debrief/debriefsUnder.edge.ts";
import { rideDateText } from "../../overlay/words/dateText.ts";

/** How many debriefs lie in a folder, those that can't be read counted. */
export async function debriefsIn(folder: string): Promise<number> {
  const { debriefs, warnings } = await debriefsUnder(folder);
  return debriefs.length + warnings.length;
}

/** A debrief as a list shows it; null where the folder holds none that can be read. */
export async function listedDebrief(folder: string): Promise<Omit<RecentDebrief, "id"> | null> {
  try {
    const { mtimeMs } = await stat(join(folder, DEBRIEF_FILE));
    const { document } = await loadDebrief(folder);
    const { figures, plan, media, shownRideId } = document;
    const ridePath = media.find(({ id }) => id === shownRideId)?.path ?? null;
    const names = new Set(await readdir(folder));
    return {
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
