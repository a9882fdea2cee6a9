import type { Language } from "../contract/languageAndUnits.ts";
import { readdir } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import { ATHLETE_FILE, loadAthlete } from "../debrief/athleteStore.edge.ts";
import { DEBRIEF_FILE } from "../debrief/debriefStore.edge.ts";
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
import { ridesOnce } from "./ridesOnce.ts";
import { withOlderRoads } from "./olderRoads.ts";

interface WeeksOptions {
  /** Debriefs outside the folder. */
  readonly elsewhere?: readonly string[];
  readonly rides?: RideWork;
  /** The page says its title itself. */
  readonly headed?: boolean;
}

interface WeeksPage {
  readonly log: WeeksLog;
  readonly html: string;
  readonly leftOut: readonly Notice[];
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
  options: WeeksOptions = {},
): Promise<WeeksPage> {
  return pageOf(folder, await debriefsUnder(folder, options.elsewhere), athleteName, language, options);
}

async function pageOf(
  folder: string,
  found: Awaited<ReturnType<typeof debriefsUnder>>,
  athleteName: string | null,
  language: Language,
  { rides = RIDES_HERE, headed = true }: WeeksOptions = {},
): Promise<WeeksPage> {
  const { once, notes } = await ridesOnce(folder, found.debriefs);
  const { debriefs, notCompared } = await withOlderRoads(folder, once, rides);
  const unread = notCompared.length === 0 ? [] : [note("roads-not-compared", { debriefs: notCompared })];
  const log = weeksLog(debriefs);
  const name = athleteName ?? (await loadAthlete(folder))?.name ?? null;
  return {
    log,
    html: weeksHtml(log, name, language, await pageFonts(), headed),
    leftOut: [...found.warnings, ...notes, ...unread],
  };
}

/**
 * The same, written as `weeks.html` into the folder; nothing is written where no debrief there can be used. Failures
 * `debriefs-folder-empty`, and `debrief-not-folder-of` for the folder of one debrief.
 */
export async function weeksJourney(
  folder: string,
  athleteName: string | null,
  language: Language,
): Promise<{ log: WeeksLog; written: string[]; warnings: readonly Notice[] }> {
  const found = await debriefsUnder(folder);
  const inside = await readdir(folder);
  // An athlete's own folder may be a debrief as well.
  const isOne = inside.includes(DEBRIEF_FILE) && !inside.includes(ATHLETE_FILE);
  if (isOne && found.debriefs.length + found.warnings.length === 1)
    throw new Failure("debrief-not-folder-of", { name: basename(resolve(folder)), parent: dirname(resolve(folder)) });
  if (found.debriefs.length + found.warnings.length === 0) throw new Failure("debriefs-folder-empty", { folder });
  const { log, html, leftOut } = await pageOf(folder, found, athleteName, language);
  if (found.debriefs.length === 0) return { log, written: [], warnings: leftOut };
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
