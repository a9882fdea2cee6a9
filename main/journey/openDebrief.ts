import { constants, copyFile, stat } from "node:fs/promises";
import { basename, dirname, isAbsolute, join } from "node:path";
import type { DebriefDocument, FilmSettings } from "../contract/debrief.ts";
import { Failure } from "../contract/failure.ts";
import type { Film } from "../contract/film.ts";
import type { JobContext } from "../contract/job.ts";
import type { Athlete } from "../debrief/athlete.ts";
import { loadAthlete } from "../debrief/athleteStore.edge.ts";
import { commentLengths } from "../debrief/commentLengths.ts";
import { DEBRIEF_FILE, loadDebrief } from "../debrief/debriefStore.edge.ts";
import { noteMadeHere, wasMadeHere } from "../debrief/madeHere.edge.ts";
import { leavesFolder } from "../debrief/mediaPath.ts";
import { parseDebrief, type OpenedDebrief } from "../debrief/parseDebrief.ts";
import { makeAtomic } from "../host/writeAtomic.edge.ts";
import { soundLengthS } from "../footage/soundLength.edge.ts";
import { type DebriefStanding, shownRideOf, unreadDebrief } from "./debrief.ts";
import { gatherRef } from "./gather.ts";
import type { Host } from "./host.ts";
import { stand } from "./stand.ts";
import type { ReadOnlyReason } from "../contract/notices/debrief.ts";
import { readText } from "../host/readText.edge.ts";

/** A debrief that was opened and stands, ready to be rendered. */
export interface OpenDebrief {
  readonly folder: string;
  readonly standing: DebriefStanding;
  readonly athlete: Athlete | null;
}

/** A document from its folder, nothing of it read yet. */
export interface OpenedFolder {
  readonly folder: string;
  readonly document: DebriefDocument;
  /** Why it may only be looked at, or null. */
  readonly readOnly: ReadOnlyReason | null;
  /** The last save was damaged: this is the copy before it. */
  readonly recovered: boolean;
  /** Files outside its folder may be opened: it was made here, or a person said so. */
  readonly consent: boolean;
}

/** The folder of a debrief that was named by itself or by its debrief.json. */
export async function folderOfDebrief(path: string): Promise<string> {
  const isFile = basename(path) === DEBRIEF_FILE && (await stat(path).catch(() => null))?.isFile();
  return isFile ? dirname(path) : path;
}

/**
 * Loads a debrief's document. `path` is its folder or the debrief.json in it; `recover`: where the last save is damaged,
 * the copy before it is taken. Failures: `file-unreadable`, `debrief-not-usable`.
 */
export async function loadFolder(path: string, trustPaths: boolean, recover: boolean): Promise<OpenedFolder> {
  const folder = await folderOfDebrief(path);
  const { opened, recovered } = recover
    ? await loadOrRecover(folder)
    : { opened: await loadDebrief(folder), recovered: false };
  return { ...opened, folder, recovered, consent: trustPaths || (await wasMadeHere(folder)) };
}

/** The document; where the last save is damaged, the copy before it. */
async function loadOrRecover(folder: string): Promise<{ opened: OpenedDebrief; recovered: boolean }> {
  try {
    return { opened: await loadDebrief(folder), recovered: false };
  } catch (error) {
    const backup = await readText(join(folder, `${DEBRIEF_FILE}.bak`)).catch(() => null);
    if (backup === null || (error instanceof Failure && error.notice.code === "debrief-newer")) throw error;
    try {
      return { opened: parseDebrief(backup, join(folder, `${DEBRIEF_FILE}.bak`)), recovered: true };
    } catch {
      throw error;
    }
  }
}

/** A document with the length of every spoken comment as its file below `folder` now is. Failures as `commentLengths`. */
export async function withCommentLengths<T extends Film | null>(
  film: T,
  folder: string,
  consent: boolean,
  host: Host,
): Promise<T> {
  if (film === null) return film;
  return (await commentLengths(film, consent, (path) => soundLengthS(join(folder, path), host.tools))) as T;
}

/** The copy before a damaged save takes its place: whole or not at all, and in no other file that shares its bytes. */
export async function keepRecovered(folder: string): Promise<void> {
  await makeAtomic(join(folder, DEBRIEF_FILE), (unfinished) =>
    copyFile(join(folder, `${DEBRIEF_FILE}.bak`), unfinished, constants.COPYFILE_EXCL),
  );
}

/** A person said that files outside a debrief's folder may be opened. */
export const trustFolder = noteMadeHere;

/** Where a debrief's athlete is; null: it has none. */
export function athleteDirOf(folder: string, { athletePath }: Pick<DebriefDocument, "athletePath">): string | null {
  return athletePath === null ? null : isAbsolute(athletePath) ? athletePath : join(folder, athletePath);
}

/**
 * A debrief with its media found, its ride read and its clips placed again, as its document stands. Files outside its
 * folder are opened when it was made here, or when the person says so (`trustPaths`). `settings`, and the
 * other parts in `changed`, replace the document's for this time.
 * Failures: `file-unreadable`, `debrief-not-usable` (also: a file it needs is gone, or its athlete's).
 */
export async function openDebrief(
  path: string,
  host: Host,
  trustPaths: boolean,
  settings: Partial<FilmSettings> = {},
  context?: JobContext,
  changed: Partial<DebriefDocument> = {},
): Promise<OpenDebrief> {
  const { folder, document: loaded, consent } = await loadFolder(path, trustPaths, false);
  const document = {
    ...loaded,
    ...changed,
    film: await withCommentLengths(loaded.film, folder, consent, host),
    settings: { ...loaded.settings, ...settings, look: { ...loaded.settings.look, ...settings.look } },
  };
  let debrief = unreadDebrief(document, folder);
  for (const ref of document.media) {
    const read = await gatherRef(debrief, ref, { consent, searchIn: [folder, dirname(folder)] }, host);
    if (read === null) {
      throw new Failure("debrief-media-missing", { path: ref.path, folder });
    }
    debrief = { ...debrief, media: read };
  }
  if (shownRideOf(debrief) === null) throw new Failure("debrief-without-ride", { folder });
  const athlete = await athleteOf(folder, document, consent);
  const rider = { athlete, athleteDir: athleteDirOf(folder, document) };
  const { standing } = await stand({ ...debrief, rider }, host, { listen: true, ...(context && { context }) });
  return { folder, athlete, standing: standing! };
}

/**
 * The athlete of a debrief; null where it has none. Without the file it names nothing can be handed over: the home zone
 * stands in it. Failure `debrief-not-usable`.
 */
export async function athleteOf(
  folder: string,
  document: Pick<DebriefDocument, "athletePath">,
  consent: boolean,
): Promise<Athlete | null> {
  const { athletePath } = document;
  const athleteDir = athleteDirOf(folder, document);
  if (athletePath === null || athleteDir === null) return null;
  if (leavesFolder(athletePath) && !consent) throw new Failure("path-outside-debrief", { path: athletePath });
  const athlete = await loadAthlete(athleteDir);
  if (athlete !== null) return athlete;
  throw new Failure("debrief-athlete-missing", { path: athletePath, folder });
}
