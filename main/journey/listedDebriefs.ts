import { readdir, stat } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import type { RecentDebrief } from "../contract/debriefApi.ts";
import { athletePathFrom } from "../debrief/athleteFolder.edge.ts";
import { DEBRIEF_FILE, loadDebrief } from "../debrief/debriefStore.edge.ts";
import { debriefsUnder } from "../debrief/debriefsUnder.edge.ts";
import { leavesFolder } from "../debrief/mediaPath.ts";
import { rideDateText } from "../../overlay/words/dateText.ts";
import { athleteDirOf } from "./openDebrief.ts";

/** How many debriefs an athlete has: those in their folder, unreadable ones counted, and those of them among `known`. */
export async function debriefsOf(athleteDir: string, known: readonly KnownDebrief[]): Promise<number> {
  const { debriefs, warnings } = await debriefsUnder(athleteDir);
  const under = (folder: string): boolean => !leavesFolder(athletePathFrom(athleteDir, folder));
  const elsewhere = known.filter((one) => one.athleteDir === resolve(athleteDir) && !under(one.folder));
  return debriefs.length + warnings.length + elsewhere.length;
}

/** A debrief that was opened or made before, and whose it is. */
export interface KnownDebrief {
  readonly folder: string;
  readonly athleteDir: string;
}

/** Those of some folders that are debriefs of an athlete; what is gone or can't be read is left out. */
export async function debriefsOfAthletes(folders: readonly string[]): Promise<KnownDebrief[]> {
  const found: KnownDebrief[] = [];
  for (const folder of folders) {
    const opened = await loadDebrief(folder).catch(() => null);
    const athleteDir = opened === null ? null : athleteDirOf(folder, opened.document);
    if (athleteDir !== null) found.push({ folder, athleteDir: resolve(athleteDir) });
  }
  return found;
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
      title: plan.title ?? (ridePath === null ? basename(folder) : (ridePath.split("/").at(-1) ?? ridePath)),
      rider: plan.rider,
      setting: figures?.setting ?? null,
      mainS: figures?.countedS ?? null,
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
