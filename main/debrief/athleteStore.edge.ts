import { chmod, lstat, mkdir, readdir, rm, rmdir, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import { type Athlete, parseAthlete } from "./athlete.ts";
import { DEBRIEF_FILE } from "./debriefStore.edge.ts";
import { leavesFolder } from "./mediaPath.ts";
import { isOfDebrief, isWritten } from "./ownFiles.ts";
import { parseDebrief } from "./parseDebrief.ts";
import { refuseLinks } from "../host/refuseLinks.edge.ts";
import { inFolder, rememberFolder } from "../host/heldFolder.edge.ts";
import { PRIVATE, writeAtomic } from "../host/writeAtomic.edge.ts";
import { readText } from "../host/readText.edge.ts";

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
    text = await readText(path);
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
  await writeAtomic(join(folder, ATHLETE_FILE), `${JSON.stringify(athlete, null, 2)}\n`, PRIVATE);
}

export interface AthleteFiles {
  /**
   * What is the athlete's: their file, debriefs with all that was made of them, and the rides and clips of those in the
   * folder. A link is listed as such, never followed.
   */
  readonly files: readonly string[];
  /** Files of somebody else in the athlete's folder, and folders of other athletes (with `/` at the end): they stay. */
  readonly others: readonly string[];
  /** Rides and clips the debriefs point at outside the folder: they stay, and the person is told. */
  readonly outside: readonly string[];
}

interface Found {
  readonly path: string;
  /** Lies in a debrief's folder or below it. */
  readonly inDebrief: boolean;
}

/** Every file below a folder, by name; a folder with an `athlete.json` of its own is given as one. */
async function filesUnder(folder: string, inDebrief = false): Promise<Found[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const here = inDebrief || entries.some(({ name }) => name === DEBRIEF_FILE);
  const found: Found[] = [];
  for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = join(folder, entry.name);
    if (!entry.isDirectory()) found.push({ path, inDebrief: here });
    else if (await isFile(join(path, ATHLETE_FILE))) found.push({ path: `${path}/`, inDebrief: false });
    else found.push(...(await filesUnder(path, here)));
  }
  return found;
}

function isFile(path: string): Promise<boolean> {
  return stat(path).then(
    (found) => found.isFile(),
    () => false,
  );
}

/**
 * The page over a squad's rides in the folder above, where it tells of this athlete. It holds the others' rides too, and
 * is made again by the same command.
 */
async function squadPageWith(folder: string): Promise<string[]> {
  const path = join(dirname(resolve(folder)), SQUAD_PAGE);
  const page = await readText(path).catch(() => "");
  const name = basename(resolve(folder));
  return [name, encodeURIComponent(name)].some((one) => page.includes(`${one}/`)) ? [path] : [];
}

/** Rides and clips that a debrief's file points at; one that can't be read points nowhere. */
async function mediaOf(path: string): Promise<readonly { readonly path: string; readonly leaves: boolean }[]> {
  try {
    const { document } = parseDebrief(await readText(path), path);
    return document.media.map((media) => ({
      path: resolve(dirname(path), media.path),
      leaves: leavesFolder(media.path),
    }));
  } catch {
    return [];
  }
}

/**
 * What `deleteAthlete` would remove, to be shown first. Failure `usage` for a folder without `athlete.json`.
 * @param elsewhere folders of the athlete's debriefs outside the athlete's own
 */
export async function athleteFiles(folder: string, elsewhere: readonly string[] = []): Promise<AthleteFiles> {
  if ((await loadAthlete(folder)) === null) throw new Failure("athlete-folder-without-file", { folder });
  const found = await filesUnder(folder);
  for (const one of elsewhere) found.push(...(await filesUnder(one)));
  const media = new Set<string>();
  const away = new Set<string>();
  for (const { path } of found.filter((one) => basename(one.path) === DEBRIEF_FILE))
    for (const one of await mediaOf(path)) {
      media.add(one.path);
      if (one.leaves) away.add(one.path);
    }
  const own = ({ path, inDebrief }: Found): boolean =>
    !path.endsWith("/") &&
    (inDebrief ? isOfDebrief(basename(path)) : isWritten(basename(path)) || media.has(resolve(path)));
  const files = [...found.filter(own).map(({ path }) => path), ...(await squadPageWith(folder))];
  const gone = new Set(files.map((path) => resolve(path)));
  return {
    files,
    others: found.filter((one) => !own(one)).map(({ path }) => path),
    outside: [...away].filter((path) => !gone.has(path)).sort(),
  };
}

/** Removes a folder and those in it where nothing is in them; never through a link that a folder's name was given to. */
async function removeEmpty(folder: string): Promise<void> {
  const entries = await inFolder(folder, (through) => readdir(through, { withFileTypes: true })).catch(() => []);
  for (const entry of entries) if (entry.isDirectory()) await removeEmpty(join(folder, entry.name));
  await inFolder(dirname(folder), (through) => rmdir(join(through, basename(folder)))).catch(() => undefined);
}

/** Removes a file, one that may not be written too; a link goes, what it points at stays. False where it can't be. */
async function removed(path: string): Promise<boolean> {
  const folder = dirname(path);
  const gone = () =>
    inFolder(folder, (through) => rm(join(through, basename(path)), { force: true })).then(
      () => true,
      () => false,
    );
  if (await gone()) return true;
  // It may lie in a folder that may not be written; the folder is the athlete's, so it may be made so.
  const { isFile: plain } = await lstat(path).then(
    (found) => ({ isFile: found.isFile() }),
    () => ({ isFile: false }),
  );
  await inFolder(folder, async (through) => {
    await chmod(through, 0o700);
    if (plain) await chmod(join(through, basename(path)), 0o600);
  }).catch(() => undefined);
  return gone();
}

/**
 * Removes every file that was shown, then the empty folders. Nothing is removed when the folder holds another list
 * than the one shown. Gives back what could not be removed. The athlete's file goes last, so that a broken-off deletion
 * can be taken up again.
 */
export async function deleteAthlete(
  folder: string,
  shown: readonly string[],
  elsewhere: readonly string[] = [],
): Promise<{ readonly removed: readonly string[]; readonly kept: readonly string[] }> {
  // Nothing is removed but in these folders, whatever their names are given to meanwhile.
  for (const root of [folder, ...elsewhere]) await rememberFolder(root);
  const { files } = await athleteFiles(folder, elsewhere);
  const agreed = new Set(shown);
  if (files.length !== shown.length || files.some((path) => !agreed.has(path)))
    throw new Failure("athlete-files-changed", { folder });
  const went: string[] = [];
  const kept: string[] = [];
  const last = join(folder, ATHLETE_FILE);
  for (const path of [...files.filter((one) => one !== last), last]) {
    if (path === last && kept.length > 0) break;
    ((await removed(path)) ? went : kept).push(path);
  }
  if (kept.length === 0) for (const root of [folder, ...elsewhere]) await removeEmpty(root);
  // One that is gone may be made anew.
  for (const root of [folder, ...elsewhere]) await rememberFolder(root);
  return { removed: went, kept };
}
