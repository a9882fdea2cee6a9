import { basename, dirname } from "node:path";
import { stat } from "node:fs/promises";
import { Failure } from "../contract/failure.ts";
import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { Tools } from "../contract/tools.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import { DEBRIEF_FILE, loadDebrief } from "../debrief/debriefStore.edge.ts";
import { findMedia } from "../debrief/findMedia.edge.ts";
import { fingerprintFile } from "../footage/fingerprint.edge.ts";
import { probeClip } from "../footage/probeClip.edge.ts";
import { wasMadeHere } from "./madeHere.ts";
import { read } from "../reading/read.ts";
import { readRide } from "../ride/readRide.edge.ts";

export interface OpenDebrief {
  readonly folder: string;
  readonly document: DebriefDocument;
  readonly ride: Ride;
  readonly clips: readonly Clip[];
  readonly reading: Reading;
  readonly film: Film;
}

/**
 * A debrief with its media found and its ride read again. `path` is its folder or the debrief.json in it. Files outside
 * its folder are opened when it was made here, or when the person says so (`trustPaths`).
 * Failures: `file-unreadable`, `debrief-not-usable` (also: its film was never chosen, or a file it needs is gone).
 */
export async function openDebrief(path: string, tools: Tools, trustPaths: boolean): Promise<OpenDebrief> {
  const isFile = basename(path) === DEBRIEF_FILE && (await stat(path).catch(() => null))?.isFile();
  const folder = isFile ? dirname(path) : path;
  const { document } = await loadDebrief(folder);
  const consent = trustPaths || (await wasMadeHere(folder));
  if (document.film === null) {
    throw new Failure("debrief-not-usable", `The debrief in ${folder} has no film yet.`, "Make one with: followcar debrief.");
  }
  let ride: Ride | null = null;
  const clips: Clip[] = [];
  for (const media of document.media) {
    const found = await findMedia(folder, media, { consent, searchIn: [folder, dirname(folder)], fingerprint: fingerprintFile });
    if (found === null) {
      throw new Failure("debrief-not-usable", `${media.path}, which the debrief in ${folder} needs, was not found.`, "Put the file back, or beside the debrief's folder.");
    }
    if (media.kind === "clip") clips.push(await probeClip(found, media.id, tools));
    else if (media.id === document.shownRideId) ride = await readRide(found);
  }
  if (ride === null) throw new Failure("debrief-not-usable", `The debrief in ${folder} names no ride to show.`, "Make it again with: followcar debrief.");
  return { folder, document, ride, clips, reading: read(ride, document.plan, document.overrides), film: document.film };
}
