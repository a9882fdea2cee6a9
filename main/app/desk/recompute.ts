import { basename } from "node:path";
import type { DebriefDocument } from "../../contract/debrief.ts";
import type { Film } from "../../contract/film.ts";
import type { Clip } from "../../contract/footage.ts";
import type { Lineup } from "../../contract/lineup.ts";
import type { Reading } from "../../contract/reading.ts";
import type { Ride } from "../../contract/ride.ts";
import type { ClipSignals } from "../../contract/signals.ts";
import { automaticFilm } from "../../journey/automaticFilm.ts";
import { placeOn } from "../../journey/lineupJourney.ts";
import type { ReadOutcome } from "../../journey/readJourney.ts";
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
  readonly judged: ReadOutcome | null;
  readonly lineup: Lineup | null;
  /** The film in force. */
  readonly film: Film | null;
}

export const NO_OUTCOME: Outcome = { judged: null, lineup: null, film: null };

/** The clips that the document names and that are in memory, in its order. */
export function clipsOf(document: DebriefDocument, media: LoadedMedia): Clip[] {
  return document.media.flatMap(({ id, kind }) => (kind === "clip" && media.clips.has(id) ? [media.clips.get(id)!] : []));
}

/** The ride whose numbers are shown, or null. */
export function shownRideOf(document: DebriefDocument, media: LoadedMedia): LoadedRide | null {
  return document.media.some(({ id }) => id === document.shownRideId) ? (media.rides.get(document.shownRideId) ?? null) : null;
}

const READING_PARTS = ["media", "shownRideId", "plan", "overrides", "ownMoments"] as const;
const LINEUP_PARTS = ["media", "shownRideId", "anchors", "deviceDelayS"] as const;

function same(before: DebriefDocument, now: DebriefDocument, parts: readonly (keyof DebriefDocument)[]): boolean {
  return parts.every((part) => before[part] === now[part]);
}

/** The reading with the coach's own moments after the found ones, so that one index names any of them. */
function withOwnMoments(reading: Reading, document: DebriefDocument): Reading {
  return document.ownMoments.length === 0 ? reading : { ...reading, moments: [...reading.moments, ...document.ownMoments] };
}

/**
 * What follows from a document, with what still holds of what followed from the one before (null: everything anew).
 * `signalsNew` places the clips again though the document is the same.
 */
export async function recompute(
  now: DebriefDocument,
  before: { readonly document: DebriefDocument; readonly outcome: Outcome } | null,
  media: LoadedMedia,
  reader: RideReader,
): Promise<Outcome> {
  const shown = shownRideOf(now, media);
  if (shown === null) return NO_OUTCOME;
  const clips = clipsOf(now, media);
  let judged = before?.outcome.judged ?? null;
  if (before === null || judged === null || !same(before.document, now, READING_PARTS)) {
    const found = await reader.judge(shown.path, now.plan, now.overrides);
    judged = { ...found, ride: shown.ride, reading: withOwnMoments(found.reading, now) };
  }
  let lineup = before?.outcome.lineup ?? null;
  if (before === null || lineup === null || !same(before.document, now, LINEUP_PARTS) || before.document.plan.setting !== now.plan.setting) {
    lineup = await placeOn(shown.ride, clips, now.anchors, now.deviceDelayS);
  }
  return { judged, lineup, film: filmInForce(now, judged, clips, lineup) };
}

/** The coach's film with the clocks of the line-up as it is now, or the automatic one. */
function filmInForce(document: DebriefDocument, judged: ReadOutcome, clips: readonly Clip[], lineup: Lineup): Film {
  const { settings, choices, words } = document;
  if (document.filmSetBy === "coach" && document.film !== null) return withClocks(document.film, lineup);
  const rides = document.media.filter(({ kind }) => kind === "ride").length;
  const riderName = rides > 1 ? (document.plan.rider ?? basename(judged.ride.fileName)) : null;
  return automaticFilm({ judged, clips, lineup, settings, choices, words, riderName });
}

function withClocks(film: Film, lineup: Lineup): Film {
  const items = film.items.map((item) => {
    if (item.type === "card") return item;
    const clock = lineup.clips.find(({ clipId }) => clipId === item.clipId)?.clock;
    return clock ? { ...item, clock: { offsetS: clock.offsetS + lineup.deviceDelayS, rate: clock.rate } } : item;
  });
  return { ...film, items };
}
