import { lstat, mkdir, readFile, readdir, rm, rmdir } from "node:fs/promises";
import { basename, dirname, isAbsolute, join, resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import { type Athlete, parseAthlete } from "./athlete.ts";
import { DEBRIEF_FILE } from "./debriefStore.edge.ts";
import { leavesFolder } from "./mediaPath.ts";
import { parseDebrief } from "./parseDebrief.ts";
import { refuseLinks } from "../host/refuseLinks.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";

/** Name of the athlete's file in their folder. */
export const ATHLETE_FILE = "athlete.json";
/** Name of the page that a batch writes into its folder. */
export const SQUAD_PAGE = "squad.html";

/** Reads `athlete.json` of a folder; null where there is none. Failures: `file-unreadable`, `plan-not-valid`, `folder-with-links`. */
export async function loadAthlete(folder: string): Promise<Athlete | null> {
  await refuseLinks(folder, [ATHLETE_FILE]);
  const path = join(folder, ATHLETE_FILE);
  let text: string;
  try {
    text = await readFile(path, "utf8");
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "ENOENT") return null;
    throw new Failure("athlete-file-unreadable", { path }, error);
  }
  return parseAthlete(text, path);
}

/** Writes `athlete.json`, making the folder where it is missing. Failures: `output-not-writable`, `folder-with-links`. */
export async function saveAthlete(folder: string, athlete: Athlete): Promise<void> {
  await refuseLinks(folder, [ATHLETE_FILE]);
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    throw new Failure("folder-not-made", { folder }, error);
  }
  await writeAtomic(join(folder, ATHLETE_FILE), `${JSON.stringify(athlete, null, 2)}\n`);
}

export interface AthleteFiles {
  /** Every file in the athlete's folder and the caches given, deepest last name order; links are listed, never followed. */
  readonly files: readonly string[];
  /** Rides and clips the debriefs point at outside the folder: they stay, and the person is told. */
  readonly outside: readonly string[];
}

async function filesUnder(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const found: string[] = [];
  for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) found.push(...(await filesUnder(path)));
    else found.push(path);
  }
  return found;
}

/**
 * The page over a squad's rides in the folder above, where it tells of this athlete. It holds the others' rides too, and
 * is made again by the same command.
 */
async function squadPageWith(folder: string): Promise<string[]> {
  const path = join(dirname(resolve(folder)), SQUAD_PAGE);
  const page = await readFile(path, "utf8").catch(() => "");
  const name = basename(resolve(folder));
  return [name, encodeURIComponent(name)].some((one) => page.includes(`${one}/`)) ? [path] : [];
}

async function athleteRoots(folder: string, caches: readonly string[]): Promise<string[]> {
  if ((await loadAthlete(folder)) === null) throw new Failure("athlete-folder-without-file", { folder });
  return [folder, ...caches];
}

/** What `deleteAthlete` would remove, to be shown first. Failure `usage` for a folder without `athlete.json`. */
export async function athleteFiles(folder: string, caches: readonly string[] = []): Promise<AthleteFiles> {
  const files: string[] = [];
  for (const root of await athleteRoots(folder, caches)) files.push(...(await filesUnder(root)));
  files.push(...(await squadPageWith(folder)));
  const outside = new Set<string>();
  for (const path of files.filter((one) => one.endsWith(DEBRIEF_FILE))) {
    const text = await readFile(path, "utf8").catch(() => "");
    try {
      for (const media of parseDebrief(text, path).document.media)
        if (leavesFolder(media.path))
          outside.add(isAbsolute(media.path) ? media.path : resolve(dirname(path), media.path));
    } catch {
      // A debrief that can't be read points nowhere; it is deleted all the same.
    }
  }
  return { files, outside: [...outside].filter((path) => !files.includes(path)).sort() };
}

async function removeEmpty(folder: string): Promise<void> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  for (const entry of entries) if (entry.isDirectory()) await removeEmpty(join(folder, entry.name));
  await rmdir(folder).catch(() => undefined);
}

/**
 * Removes every file that was shown, then the empty folders. Nothing is removed when the folder holds another list
 * than the one shown. Gives back what could not be removed. The athlete's file goes last, so that a broken-off deletion
 * can be taken up again.
 */
export async function deleteAthlete(
  folder: string,
  shown: readonly string[],
  caches: readonly string[] = [],
): Promise<{ readonly removed: readonly string[]; readonly kept: readonly string[] }> {
  const { files } = await athleteFiles(folder, caches);
  const agreed = new Set(shown);
  if (files.length !== shown.length || files.some((path) => !agreed.has(path)))
    throw new Failure("athlete-files-changed", { folder });
  const removed: string[] = [];
  const kept: string[] = [];
  const last = join(folder, ATHLETE_FILE);
  for (const path of [...files.filter((one) => one !== last), last]) {
    if (path === last && kept.length > 0) break;
    await rm(path, { force: true }).catch(() => undefined);
    const there = await lstat(path).then(
      () => true,
      () => false,
    );
    (there ? kept : removed).push(path);
  }
  if (kept.length === 0) for (const root of [folder, ...caches]) await removeEmpty(root);
  return { removed, kept };
}
