import type { DebriefDocument } from "../../contract/debrief.ts";
import type { Clip } from "../../contract/footage.ts";
import type { Lineup } from "../../contract/lineup.ts";
import type { Ride } from "../../contract/ride.ts";
import type { ClipSignals } from "../../contract/signals.ts";
import type { Athlete } from "../../contract/athlete.ts";
import type { Setting } from "../../contract/plan.ts";
import { earlierReadings } from "../../journey/earlierReadings.ts";
import type { EarlierReading } from "../../reading/moments/momentContext.ts";
import { debriefStanding, type DebriefStanding } from "../../journey/standing.ts";
import { placeOn, type PlaceChoices } from "../../journey/place.ts";
import type { ReadOutcome } from "../../journey/judge.ts";
import type { RideReader } from "./rideReader.ts";

/** A ride in memory. */
export interface LoadedRide {
  readonly path: string;
  readonly ride: Ride;
}

/** What is in memory of the files of a debrief, by media id; may hold more than the document names (for undo). */
export interface LoadedMedia {
  readonly rides: ReadonlyMap<string, LoadedRide>;
  readonly clips: ReadonlyMap<string, Clip>;
  readonly signals: ReadonlyMap<string, ClipSignals>;
}

/** All that follows from a document and its files. Null where there is no ride to read. */
export interface Outcome {
  /** The ride as judged, its positions whole. */
  readonly judged: ReadOutcome | null;
  readonly lineup: Lineup | null;
  /** What the window, film and pages speak from. */
  readonly standing: DebriefStanding | null;
}

export const NO_OUTCOME: Outcome = { judged: null, lineup: null, standing: null };

/** The clips that the document names and that are in memory, in its order. */
export function clipsOf(document: DebriefDocument, media: LoadedMedia): Clip[] {
  return document.media.flatMap(({ id, kind }) =>
    kind === "clip" && media.clips.has(id) ? [media.clips.get(id)!] : [],
  );
}

/** The ride whose numbers are shown, or null. */
export function shownRideOf(document: DebriefDocument, media: LoadedMedia): LoadedRide | null {
  return document.media.some(({ id }) => id === document.shownRideId)
    ? (media.rides.get(document.shownRideId) ?? null)
    : null;
}

/** The athlete of a debrief and their folder. */
export interface Rider {
  readonly athlete: Athlete | null;
  readonly athleteDir: string | null;
}

let lastEarlier: { readonly key: string; readonly readings: Promise<readonly EarlierReading[]> } | null = null;

/** The athlete's earlier rides, looked up once for a ride: an edit should not read a folder of debriefs. */
function earlierOf(
  { athleteDir }: Rider,
  rideUtcMs: number | null,
  setting: Setting,
): Promise<readonly EarlierReading[]> {
  const key = `${athleteDir} ${rideUtcMs} ${setting}`;
  if (lastEarlier?.key !== key) lastEarlier = { key, readings: earlierReadings(athleteDir, rideUtcMs, setting) };
  return lastEarlier.readings;
}

const READING_PARTS = ["media", "shownRideId", "plan", "overrides", "ownMoments"] as const;
const LINEUP_PARTS = ["media", "shownRideId", "anchors", "deviceDelayS"] as const;

function same(before: DebriefDocument, now: DebriefDocument, parts: readonly (keyof DebriefDocument)[]): boolean {
  return parts.every((part) => before[part] === now[part]);
}

/** What is known of the clips and riders beside the files themselves. */
export function placeChoices(
  document: DebriefDocument,
  media: LoadedMedia,
): Required<Pick<PlaceChoices, "signals" | "indoors" | "others">> {
  return {
    signals: clipsOf(document, media).flatMap(({ id }) => media.signals.get(id) ?? []),
    indoors: document.plan.setting === "trainer",
    others: document.media.flatMap(({ id, kind }) =>
      kind === "ride" && id !== document.shownRideId && media.rides.has(id) ? [media.rides.get(id)!.ride] : [],
    ),
  };
}

/**
 * What follows from a document, with what still holds of what followed from the one before (null: everything anew).
 */
export async function recompute(
  now: DebriefDocument,
  before: { readonly document: DebriefDocument; readonly outcome: Outcome } | null,
  media: LoadedMedia,
  rider: Rider,
  reader: RideReader,
): Promise<Outcome> {
  const shown = shownRideOf(now, media);
  if (shown === null) return NO_OUTCOME;
  const { ride } = shown;
  const clips = clipsOf(now, media);
  let judged = before?.outcome.judged ?? null;
  if (before === null || judged === null || !same(before.document, now, READING_PARTS)) {
    const earlier = await earlierOf(rider, ride.startUtcMs, now.plan.setting);
    judged = { ...(await reader.judge(shown.path, now, { athlete: rider.athlete, earlier })), ride };
  }
  let lineup = before?.outcome.lineup ?? null;
  if (
    before === null ||
    lineup === null ||
    !same(before.document, now, LINEUP_PARTS) ||
    before.document.plan.setting !== now.plan.setting
  ) {
    lineup = await placeOn(ride, clips, now.anchors, now.deviceDelayS, placeChoices(now, media));
  }
  return {
    judged,
    lineup,
    standing: debriefStanding({ document: now, ride, clips, lineup, athlete: rider.athlete }, judged),
  };
}
