import { readdir, rm, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import type { DebriefDocument, MediaRef } from "../contract/debrief.ts";
import { DEBRIEF_FILE, lockDebrief, saveDebrief } from "../debrief/debriefStore.edge.ts";
import { mediaRef } from "../debrief/findMedia.edge.ts";
import { noteMadeHere } from "../debrief/madeHere.edge.ts";
import { rideFigures } from "../debrief/rideFigures.ts";
import { fingerprintFile } from "../footage/fingerprint.edge.ts";
import { rememberFolder } from "../host/heldFolder.edge.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { askedNextS } from "./automaticFilm.ts";
import { type Debrief, shownRideOf } from "./debrief.ts";

/** `sunday.fit.gz` becomes `sunday-debrief` beside it, or in the athlete's folder. */
export function defaultFolder(ridePath: string, athleteDir: string | null = null): string {
  const name = basename(ridePath)
    .replace(/\.gz$/i, "")
    .replace(/\.[^.]+$/, "");
  return join(athleteDir ?? dirname(ridePath), `${name}-debrief`);
}

/** As `defaultFolder`, with a number after it where a debrief is there already. */
export async function freeFolder(ridePath: string, athleteDir: string | null): Promise<string> {
  const wished = defaultFolder(ridePath, athleteDir);
  const taken = (folder: string): Promise<boolean> =>
    stat(join(folder, DEBRIEF_FILE)).then(
      () => true,
      () => false,
    );
  let folder = wished;
  for (let n = 2; await taken(folder); n++) folder = `${wished}-${n}`;
  return folder;
}

/** A folder to save into, made by us. Failure `output-not-writable`. */
export async function makeDebriefFolder(folder: string): Promise<void> {
  await makeFolder(folder);
  await rememberFolder(folder);
  await noteMadeHere(folder);
}

/** The lock of a debrief's folder; whoever gets it clears away what a crash left. */
export async function lockFolder(folder: string): ReturnType<typeof lockDebrief> {
  const lock = await lockDebrief(folder);
  if (lock.held)
    for (const name of await readdir(folder))
      if (/^\.debrief\.json\.\d+\.[0-9a-f]+\.part$/.test(name)) await rm(join(folder, name), { force: true });
  return lock;
}

/** A reference for a file, by its path from the folder of the debrief. */
export function referTo(folder: string, path: string, id: string, kind: MediaRef["kind"]): Promise<MediaRef> {
  return mediaRef(folder, path, id, kind, fingerprintFile);
}

/**
 * Saves the document with what was made of it: its film and the ride's figures. Gives it as saved, its revision counted
 * up. A film of the coach's is saved as the coach left it: what a lesson leaves out is not lost.
 */
export function saveMade(
  { document, judged, standing, ...debrief }: Debrief,
  folder: string,
): Promise<DebriefDocument> {
  const ride = shownRideOf({ ...debrief, document, judged, standing })?.ride ?? null;
  const figures =
    judged === null || ride === null
      ? document.figures
      : rideFigures(ride, judged.plan, judged.reading, judged.facts, askedNextS(judged, document));
  const coachs = document.filmSetBy === "coach" && document.film !== null;
  const film = coachs ? document.film : (standing?.film ?? document.film);
  return saveDebrief(folder, { ...document, film, figures });
}
