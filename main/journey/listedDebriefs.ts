import { readdir, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import type { RecentDebrief } from "../contract/debriefApi.ts";
import { DEBRIEF_FILE, loadDebrief } from "../debrief/debriefStore.edge.ts";
import { debriefsUnder } from "../debrief/debriefsUnder.edge.ts";
import { rideDateText } from "../../overlay/words/dateText.ts";
import { wasMadeHere } from "../debrief/madeHere.edge.ts";
import { athleteDirOf, athleteOf } from "./openDebrief.ts";

/** How many debriefs an athlete has: those in their folder, unreadable ones counted, and those of them among `known`. */
export async function debriefsOf(athleteDir: string, known: readonly KnownDebrief[]): Promise<number> {
  const { debriefs, warnings } = await debriefsUnder(athleteDir, debriefsElsewhere(athleteDir, known));
  return debriefs.length + warnings.length;
}

/** Folders of an athlete's debriefs that lie elsewhere than in the athlete's folder, of those known. */
export function debriefsElsewhere(athleteDir: string, known: readonly KnownDebrief[]): string[] {
  const home = resolve(athleteDir);
  // Those in the folder and right below it are found there.
  const found = (folder: string): boolean => [resolve(folder), dirname(resolve(folder))].includes(home);
  return known.filter((one) => one.athleteDir === home && !found(one.folder)).map(({ folder }) => folder);
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

/** Whether a film and its page lie in a folder. */
async function holdsHandOver(folder: string): Promise<boolean> {
  const names = new Set(await readdir(folder).catch(() => []));
  return names.has("film.mp4") && names.has("debrief.html");
}

/**
 * A debrief as a list shows it; null where the folder holds none that can be read.
 *
 * @param elsewhere folders that it was handed over to besides its own: what is still there counts
 */
export async function listedDebrief(
  folder: string,
  elsewhere: readonly string[],
): Promise<Omit<RecentDebrief, "id"> | null> {
  try {
    const { mtimeMs } = await stat(join(folder, DEBRIEF_FILE));
    const { document } = await loadDebrief(folder);
    const { figures, plan, media, shownRideId } = document;
    const ridePath = media.find(({ id }) => id === shownRideId)?.path ?? null;
    // A debrief that came from elsewhere names no file to be read unasked.
    const athlete = await athleteOf(folder, document, await wasMadeHere(folder)).catch(() => null);
    const handedOver = await Promise.all([folder, ...elsewhere].map(holdsHandOver));
    return {
      title: plan.title ?? (ridePath === null ? basename(folder) : (ridePath.split("/").at(-1) ?? ridePath)),
      rider: athlete?.name ?? plan.rider,
      setting: figures?.setting ?? null,
      mainS: figures?.countedS ?? null,
      folder,
      rideDateText:
        figures === null || figures.startUtcMs === null
          ? null
          : rideDateText(figures.startUtcMs, figures.utcOffsetMin, "en"),
      modifiedUtcMs: mtimeMs,
      prepared: document.prepared,
      handedOver: !document.prepared && handedOver.includes(true),
    };
  } catch {
    return null;
  }
}
