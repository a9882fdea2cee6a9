import type { Language } from "../contract/languageAndUnits.ts";
import { join } from "node:path";
import { loadAthlete } from "../debrief/athleteStore.edge.ts";
import { debriefsUnder } from "../debrief/debriefsUnder.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import { roadLines } from "../weeks/roadTable.ts";
import { weeksHtml } from "../weeks/weeksHtml.tsx";
import { weeksLog, type WeeksLog } from "../weeks/weeksLog.ts";
import type { WeeksRoad } from "../weeks/weeksRoads.ts";
import { pageFonts } from "../host/pageFonts.edge.ts";
import { note, type Notice } from "../contract/notice.ts";
import type { RideWork } from "./host.ts";
import { RIDES_HERE } from "./judge.ts";
import { withOlderRoads } from "./olderRoads.ts";

interface WeeksOptions {
  /** Debriefs outside the folder. */
  readonly elsewhere?: readonly string[];
  readonly rides?: RideWork;
  /** The page says its title itself. */
  readonly headed?: boolean;
}

/**
 * The log over the debriefs in a folder and elsewhere, of the athlete whose file lies there where no name is given, as
 * a page without scripts; `leftOut`: what is left out and why. Debriefs made before roads were looked for are compared
 * now.
 */
export async function weeksPage(
  folder: string,
  athleteName: string | null,
  language: Language,
  { elsewhere = [], rides = RIDES_HERE, headed = true }: WeeksOptions = {},
): Promise<{ log: WeeksLog; html: string; leftOut: readonly Notice[] }> {
  const { debriefs: found, warnings } = await debriefsUnder(folder, elsewhere);
  const { debriefs, notCompared } = await withOlderRoads(folder, found, rides);
  const unread = notCompared.length === 0 ? [] : [note("roads-not-compared", { debriefs: notCompared })];
  const log = weeksLog(debriefs);
  const name = athleteName ?? (await loadAthlete(folder))?.name ?? null;
  return { log, html: weeksHtml(log, name, language, await pageFonts(), headed), leftOut: [...warnings, ...unread] };
}

/** The same, written as `weeks.html` into the folder. */
export async function weeksJourney(
  folder: string,
  athleteName: string | null,
  language: Language,
): Promise<{ log: WeeksLog; written: string[]; warnings: readonly Notice[] }> {
  const { log, html, leftOut } = await weeksPage(folder, athleteName, language);
  const path = join(folder, "weeks.html");
  await writeAtomic(path, html);
  return { log, written: [path], warnings: leftOut };
}

/** The roads of a log in words, and as `weeks --json` gives them: seconds, metres, watts, beats. */
export function weeksRoadsSaid(
  { roads }: WeeksLog,
  language: Language,
): { readonly lines: readonly string[]; readonly json: readonly WeeksRoad[] } {
  return { lines: roadLines(roads, language), json: roads };
}
