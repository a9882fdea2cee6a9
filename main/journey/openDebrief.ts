import { basename, dirname, isAbsolute, join, resolve } from "node:path";
import { stat } from "node:fs/promises";
import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import type { Ride } from "../contract/ride.ts";
import type { Tools } from "../contract/tools.ts";
import type { DebriefDocument, FilmSettings } from "../contract/debrief.ts";
import type { Athlete } from "../debrief/athlete.ts";
import { loadAthlete } from "../debrief/athleteStore.edge.ts";
import { DEBRIEF_FILE, loadDebrief } from "../debrief/debriefStore.edge.ts";
import { findMedia } from "../debrief/findMedia.edge.ts";
import { leavesFolder } from "../debrief/mediaPath.ts";
import { fingerprintFile } from "../footage/fingerprint.edge.ts";
import { probeClip } from "../footage/probeClip.edge.ts";
import { readRide } from "../ride/readRide.edge.ts";
import { commentLengths } from "../debrief/commentLengths.ts";
import { earlierReadings } from "./earlierReadings.ts";
import { debriefStanding, type DebriefStanding } from "./standing.ts";
import { placeByAll } from "./place.ts";
import { wasMadeHere } from "../debrief/madeHere.edge.ts";
import { soundLengthS } from "../footage/soundLength.edge.ts";

export interface OpenDebrief {
  readonly folder: string;
  readonly standing: DebriefStanding;
  readonly athlete: Athlete | null;
}

/**
 * A debrief with its media found, its ride read and its clips placed again, as its document stands. `path` is its folder
 * or the debrief.json in it. Files outside its folder are opened when it was made here, or when the person says so
 * (`trustPaths`). `settings` replace the document's for this time.
 * Failures: `file-unreadable`, `debrief-not-usable` (also: a file it needs is gone, or its athlete's).
 */
export async function openDebrief(
  path: string,
  tools: Tools,
  trustPaths: boolean,
  settings: Partial<FilmSettings> = {},
): Promise<OpenDebrief> {
  const isFile = basename(path) === DEBRIEF_FILE && (await stat(path).catch(() => null))?.isFile();
  const folder = isFile ? dirname(path) : path;
  const loaded = (await loadDebrief(folder)).document;
  const consent = trustPaths || (await wasMadeHere(folder));
  const film =
    loaded.film && (await commentLengths(loaded.film, consent, (one) => soundLengthS(join(folder, one), tools)));
  const document = {
    ...loaded,
    film,
    settings: { ...loaded.settings, ...settings, look: { ...loaded.settings.look, ...settings.look } },
  };
  let ride: Ride | null = null;
  const clips: Clip[] = [];
  for (const media of document.media) {
    const found = await findMedia(folder, media, {
      consent,
      searchIn: [folder, dirname(folder)],
      fingerprint: fingerprintFile,
    });
    if (found === null) {
      throw new Failure(
        "debrief-not-usable",
        `${media.path}, which the debrief in ${folder} needs, was not found.`,
        "Put the file back, or beside the debrief's folder.",
      );
    }
    if (media.kind === "clip") clips.push(await probeClip(found, media.id, tools));
    else if (media.id === document.shownRideId) ride = await readRide(found);
  }
  if (ride === null)
    throw new Failure(
      "debrief-not-usable",
      `The debrief in ${folder} names no ride to show.`,
      "Make it again with: followcar debrief.",
    );
  const athlete = await athleteOf(folder, document, consent);
  const { lineup } = await placeByAll(
    ride,
    clips,
    document.anchors,
    document.deviceDelayS,
    { indoors: document.plan.setting === "trainer" },
    tools,
  );
  const { athletePath, plan } = document;
  const earlier = await earlierReadings(
    athletePath === null ? null : resolve(folder, athletePath),
    ride.startUtcMs,
    plan.setting,
  );
  return { folder, athlete, standing: debriefStanding({ document, ride, clips, lineup, athlete, earlier }) };
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
  if (athletePath === null) return null;
  if (leavesFolder(athletePath) && !consent)
    throw new Failure(
      "debrief-not-usable",
      `The debrief points at ${athletePath}, outside its folder.`,
      "Agree to open it if you trust who made the debrief.",
    );
  const athlete = await loadAthlete(isAbsolute(athletePath) ? athletePath : join(folder, athletePath));
  if (athlete !== null) return athlete;
  throw new Failure(
    "debrief-not-usable",
    `The athlete's file in ${athletePath}, which the debrief in ${folder} needs, was not found.`,
    "Put athlete.json back: the place to hide stands in it.",
  );
}
