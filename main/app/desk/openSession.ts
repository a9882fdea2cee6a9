import { copyFile, readdir, readFile, stat } from "node:fs/promises";
import { basename, dirname, isAbsolute, join } from "node:path";
import type { DebriefDocument, MediaRef } from "../../contract/debrief.ts";
import { Failure } from "../../contract/failure.ts";
import { DEBRIEF_FILE, loadDebrief } from "../../debrief/debriefStore.edge.ts";
import { editHistory } from "../../debrief/editHistory.ts";
import { findMedia } from "../../debrief/findMedia.edge.ts";
import { leavesFolder } from "../../debrief/mediaPath.ts";
import { parseDebrief, type OpenedDebrief } from "../../debrief/parseDebrief.ts";
import { fingerprintFile } from "../../footage/fingerprint.edge.ts";
import { probeClip } from "../../footage/probeClip.edge.ts";
import { commentLengths } from "../../debrief/commentLengths.ts";
import { noteMadeHere, wasMadeHere } from "../../debrief/madeHere.edge.ts";
import { athleteOf } from "../../journey/openDebrief.ts";
import type { DeskContext } from "./deskContext.ts";
import { failureData } from "./failureData.ts";
import { Session } from "./session.ts";
import { soundLengthS } from "../../footage/soundLength.edge.ts";

/** Ids stand in addresses of the window. */
const ID_FORM = /^[A-Za-z0-9_-]{1,64}$/;

/**
 * A debrief from its folder (or the debrief.json in it) on the desk: locked, what a crash left taken up, its media found.
 * Media that are gone are listed as missing. A debrief of a batch counts as opened by a person from here on.
 *
 * @throws Failure: `file-unreadable`, `debrief-not-usable` (also: it points out of its folder and nobody agreed)
 */
export async function openSession(path: string, trustPaths: boolean, desk: DeskContext): Promise<Session> {
  const folder = folderOfDebrief(path);
  const { opened, recovered } = await loadOrRecover(folder);
  const { document } = opened;
  if (document.media.some(({ id }) => !ID_FORM.test(id)))
    throw new Failure(
      "debrief-not-usable",
      `The debrief in ${folder} names its media in a way this program does not.`,
      "Make it again from its ride and clips.",
    );
  const consent = trustPaths || (await wasMadeHere(folder));
  if (!consent) refuseStrayPaths(document, folder);
  const session = new Session(document, { folder, onDisk: true }, desk.reader, desk.changed);
  try {
    session.readOnly = opened.readOnly;
    await session.lock();
    if (recovered) session.notes.push("The last save was damaged: the copy before it was opened.");
    if (recovered && session.readOnly === null)
      await copyFile(join(folder, `${DEBRIEF_FILE}.bak`), join(folder, DEBRIEF_FILE));
    await findAthlete(session, consent);
    const missing: MediaRef[] = [];
    for (const media of document.media)
      if (!(await loadMedia(session, media, consent, [folder, dirname(folder)], desk))) missing.push(media);
    session.missing = missing;
    await measureComments(session, desk);
    await session.refresh();
    if (trustPaths && session.readOnly === null) await noteMadeHere(folder);
    if (document.prepared && session.readOnly === null) await session.note({ prepared: false });
    return session;
  } catch (error) {
    await session.close();
    throw error;
  }
}

/** The folder of a debrief that was named by itself or by its debrief.json. */
export function folderOfDebrief(path: string): string {
  return basename(path) === DEBRIEF_FILE ? dirname(path) : path;
}

/** Looks for what is missing in one more folder and right below it, by content. Gives how many were found. */
export async function lookForMissing(session: Session, places: readonly string[], desk: DeskContext): Promise<number> {
  const still: MediaRef[] = [];
  for (const media of session.missing) if (!(await loadMedia(session, media, true, places, desk))) still.push(media);
  const found = session.missing.length - still.length;
  session.missing = still;
  if (found === 0) return 0;
  const { folder } = session;
  if (folder !== null) {
    const media: MediaRef[] = [];
    for (const one of session.document.media) {
      const path = session.rides.get(one.id)?.path ?? session.clips.get(one.id)?.path;
      media.push(path === undefined ? one : await session.refer(path, one.id, one.kind));
    }
    await session.note({ media });
    if (session.readOnly === null) await noteMadeHere(folder);
  }
  return found;
}

/** A folder (or a file's folder) and the folders right below it. */
export async function placesBelow(path: string): Promise<string[]> {
  const isFolder = (await stat(path).catch(() => null))?.isDirectory() ?? false;
  const folder = isFolder ? path : dirname(path);
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  return [folder, ...entries.filter((entry) => entry.isDirectory()).map(({ name }) => join(folder, name))];
}

/** The document; where the last save is damaged, the copy before it. */
async function loadOrRecover(folder: string): Promise<{ opened: OpenedDebrief; recovered: boolean }> {
  try {
    return { opened: await loadDebrief(folder), recovered: false };
  } catch (error) {
    const backup = await readFile(join(folder, `${DEBRIEF_FILE}.bak`), "utf8").catch(() => null);
    if (backup === null || (error instanceof Failure && error.sentence.includes("newer version"))) throw error;
    try {
      return { opened: parseDebrief(backup, join(folder, `${DEBRIEF_FILE}.bak`)), recovered: true };
    } catch {
      throw error;
    }
  }
}

/** All that lies outside is named at once, so that a person is asked once. */
function refuseStrayPaths(document: DebriefDocument, folder: string): void {
  const stray = [
    ...document.media.map(({ path }) => path),
    ...(document.athletePath === null ? [] : [document.athletePath]),
  ].filter(leavesFolder);
  if (stray.length === 0) return;
  throw new Failure(
    "debrief-not-trusted",
    `The debrief in ${folder} was not made here and points outside its folder: ${stray.join(", ")}.`,
    "Open it all the same if you trust who made it.",
  );
}

async function findAthlete(session: Session, consent: boolean): Promise<void> {
  const { folder, document } = session;
  if (folder === null || document.athletePath === null) return;
  try {
    session.athlete = await athleteOf(folder, document, consent);
    session.athleteDir = isAbsolute(document.athletePath) ? document.athletePath : join(folder, document.athletePath);
  } catch (error) {
    // It may be looked at; a hand-over asks again, since the place to hide stands in that file.
    session.notes.push(failureData(error).sentence);
  }
}

/** A part of the film holds until its comment ends: the lengths are those of the files as they now are. */
async function measureComments(session: Session, desk: DeskContext): Promise<void> {
  const { document, folder } = session;
  if (folder === null || document.film === null) return;
  try {
    const film = await commentLengths(document.film, false, (path) =>
      soundLengthS(join(folder, path), desk.surroundings.tools),
    );
    session.history = editHistory({ ...document, film });
  } catch (error) {
    session.notes.push(failureData(error).sentence);
  }
}

async function loadMedia(
  session: Session,
  media: MediaRef,
  consent: boolean,
  searchIn: readonly string[],
  desk: DeskContext,
): Promise<boolean> {
  const { folder } = session;
  if (folder === null) return false;
  const path = await findMedia(folder, media, { consent, searchIn, fingerprint: fingerprintFile });
  if (path === null) return false;
  try {
    if (media.kind === "ride") session.rides.set(media.id, { path, ride: await desk.reader.read(path, path) });
    else await session.takeClip(await probeClip(path, media.id, desk.surroundings.tools));
    return true;
  } catch (error) {
    session.notes.push(failureData(error).sentence);
    return false;
  }
}
