import type { Athlete } from "../contract/athlete.ts";
import type { AskedChoice, DebriefDocument } from "../contract/debrief.ts";
import type { Film } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Lineup } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import type { ClipSignals } from "../contract/signals.ts";
import type { ClipTelemetry } from "../contract/telemetry.ts";
import { newDebrief } from "../debrief/debriefDocument.ts";
import { defaultPlan } from "../reading/plan/defaultPlan.ts";
import type { RideFigures } from "../contract/rideFigures.ts";
import type { RoadBefore } from "../contract/roads.ts";
import type { HeardClips } from "./heardClips.ts";
import type { ReadOutcome } from "./judge.ts";
import type { Note } from "../contract/notice.ts";

/** A ride in memory. */
export interface LoadedRide {
  readonly path: string;
  readonly ride: Ride;
}

/** What is in memory of a debrief's files, by media id; may hold more than the document names (for undo). */
export interface Media {
  readonly rides: ReadonlyMap<string, LoadedRide>;
  readonly clips: ReadonlyMap<string, Clip>;
  /** The camera's own small clip beside each clip that has one. */
  readonly companions: ReadonlyMap<string, Clip>;
  readonly telemetry: ReadonlyMap<string, ClipTelemetry>;
  /** What was seen and heard of the clips that were looked at by now. */
  readonly signals: ReadonlyMap<string, ClipSignals>;
}

export const NO_MEDIA: Media = {
  rides: new Map(),
  clips: new Map(),
  companions: new Map(),
  telemetry: new Map(),
  signals: new Map(),
};

/** The athlete of a debrief and the folder of their file; nulls: no athlete. */
export interface Rider {
  readonly athlete: Athlete | null;
  readonly athleteDir: string | null;
}

const NO_RIDER: Rider = { athlete: null, athleteDir: null };

/** A debrief with its ride judged as the document says: what film, pages and window speak from. */
export interface DebriefStanding {
  readonly document: DebriefDocument;
  /** The ride with home hidden from its positions; the reading's moments with the coach's own ones after them. */
  readonly judged: ReadOutcome;
  readonly clips: readonly Clip[];
  readonly lineup: Lineup;
  /** The film in force: the coach's on today's numbers, else picked anew. */
  readonly film: Film;
  /** A person's words that a lesson could not carry, one sentence each. */
  readonly warnings: readonly Note[];
  /** What the coach is asked about: choices, reasons of breaks and parts of the film without a sure place. */
  readonly asked: readonly AskedChoice[];
}

/** What the steps made by now; null: not made, or nothing to make it from. */
interface Made {
  readonly lineup: Lineup | null;
  /** What had to be read of the footage for the line-up; null when nothing had. */
  readonly heard: HeardClips | null;
  /** The ride as judged, its positions whole. */
  readonly judged: ReadOutcome | null;
  /** Figures of the athlete's rides before this one. */
  readonly earlier: readonly RideFigures[];
  /** Earlier rides over this one's roads. */
  readonly roads: readonly RoadBefore[];
  readonly standing: DebriefStanding | null;
}

const NOTHING_MADE: Made = { lineup: null, heard: null, judged: null, earlier: [], roads: [], standing: null };

/** What every step takes and gives: a document, its files in memory, and what the steps made of them. Never changed in place. */
export interface Debrief extends Made {
  /** Where it is or will be; null: not known yet. */
  readonly folder: string | null;
  readonly document: DebriefDocument;
  readonly media: Media;
  readonly rider: Rider;
}

/** A document of which nothing is read yet. */
export function unreadDebrief(document: DebriefDocument, folder: string | null, rider: Rider = NO_RIDER): Debrief {
  return { ...NOTHING_MADE, folder, document, media: NO_MEDIA, rider };
}

/** The clips that the document names and that are in memory, in its order. */
export function clipsOf({ document, media }: Pick<Debrief, "document" | "media">): Clip[] {
  return document.media.flatMap(({ id, kind }) => (kind === "clip" ? (media.clips.get(id) ?? []) : []));
}

/** The ride whose numbers are shown, or null. */
export function shownRideOf({ document, media }: Debrief): LoadedRide | null {
  return document.media.some(({ id }) => id === document.shownRideId)
    ? (media.rides.get(document.shownRideId) ?? null)
    : null;
}

/** The other riders' rides. */
export function otherRidesOf({ document, media }: Debrief): Ride[] {
  return document.media.flatMap(({ id, kind }) =>
    kind === "ride" && id !== document.shownRideId ? (media.rides.get(id)?.ride ?? []) : [],
  );
}

/** A debrief about which nothing is said and that has no files yet. */
export function emptyDebrief(): Debrief {
  return unreadDebrief(newDebrief(defaultPlan(), [], ""), null);
}
