import { readdir, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { DebriefDocument, MediaRef } from "../../contract/debrief.ts";
import { Failure } from "../../contract/failure.ts";
import { leavesFolder } from "../../debrief/mediaPath.ts";
import { unreadDebrief } from "../../journey/debrief.ts";
import { gatherRef } from "../../journey/gather.ts";
import {
  athleteDirOf,
  athleteOf,
  keepRecovered,
  loadFolder,
  trustFolder,
  withCommentLengths,
} from "../../journey/openDebrief.ts";
import type { DeskContext } from "./deskContext.ts";
import { noticeOf } from "./failureData.ts";
import { Session } from "./session.ts";
import { note, type Notice } from "../../contract/notice.ts";
import { rememberedPlace } from "../../host/knownFolders.edge.ts";

/** Ids stand in addresses of the window. */
const ID_FORM = /^[A-Za-z0-9_-]{1,64}$/;

/**
 * A debrief from its folder (or the debrief.json in it) on the desk: locked, what a crash left taken up, its media found.
 * Media that are gone are listed as missing. A debrief of a batch counts as opened by a person from here on.
 *
 * @throws Failure: `file-unreadable`, `debrief-not-usable` (also: it points out of its folder and nobody agreed)
 */
export async function openSession(path: string, trustPaths: boolean, desk: DeskContext): Promise<Session> {
  const { folder, document, consent, recovered, readOnly } = await loadFolder(path, trustPaths, true);
  if (document.media.some(({ id }) => !ID_FORM.test(id))) throw new Failure("debrief-odd-media-names", { folder });
  if (!consent) refuseStrayPaths(document, folder);
  const notes: Notice[] = [];
  const film = await withCommentLengths(document.film, folder, false, desk.host).catch((error: unknown) => {
    notes.push(noticeOf(error));
    return document.film;
  });
  const session = new Session(unreadDebrief({ ...document, film }, folder), true, desk.host, desk.changed);
  try {
    session.readOnly = readOnly;
    await session.lock();
    if (recovered) session.notes.push(note("backup-opened", {}));
    if (recovered && session.readOnly === null) await keepRecovered(folder);
    await findAthlete(session, folder, consent);
    session.missing = await readMedia(session, document.media, consent, [folder, dirname(folder)], desk);
    session.notes.push(...notes);
    session.place = await rememberedPlace(folder);
    await session.refresh();
    if (trustPaths && session.readOnly === null) await trustFolder(folder);
    if (document.prepared && session.readOnly === null) await session.note({ prepared: false });
    return session;
  } catch (error) {
    await session.close();
    throw error;
  }
}

/** Looks for what is missing in one more folder and right below it, by content. Gives how many were found. */
export async function lookForMissing(session: Session, places: readonly string[], desk: DeskContext): Promise<number> {
  const still = await readMedia(session, session.missing, true, places, desk);
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
    if (session.readOnly === null) await trustFolder(folder);
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

/** All that lies outside is named at once, so that a person is asked once. */
function refuseStrayPaths(document: DebriefDocument, folder: string): void {
  const stray = [
    ...document.media.map(({ path }) => path),
    ...(document.athletePath === null ? [] : [document.athletePath]),
  ].filter(leavesFolder);
  if (stray.length === 0) return;
  throw new Failure("debrief-not-trusted", { folder, paths: stray });
}

async function findAthlete(session: Session, folder: string, consent: boolean): Promise<void> {
  const { document } = session;
  try {
    session.rider = {
      athlete: await athleteOf(folder, document, consent),
      athleteDir: athleteDirOf(folder, document),
    };
  } catch (error) {
    // It may be looked at; a hand-over asks again, since the place to hide stands in that file.
    session.rider = { athlete: null, athleteDir: athleteDirOf(folder, document) };
    session.notes.push(noticeOf(error));
  }
}

/** Takes the files that are found into memory; gives those that are not, with a note where one can't be read. */
async function readMedia(
  session: Session,
  media: readonly MediaRef[],
  consent: boolean,
  searchIn: readonly string[],
  { host }: DeskContext,
): Promise<MediaRef[]> {
  const missing: MediaRef[] = [];
  for (const ref of media) {
    const { folder, media: before } = session;
    let read = null;
    try {
      read = await gatherRef({ folder, media: before }, ref, { consent, searchIn }, host);
    } catch (error) {
      session.notes.push(noticeOf(error));
    }
    if (read === null) missing.push(ref);
    else session.media = read;
  }
  return missing;
}
