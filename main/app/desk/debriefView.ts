import { join } from "node:path";
import type { DebriefDocument } from "../../contract/debrief.ts";
import type { ClipView, DebriefView, GatheredFile } from "../../contract/debriefApi.ts";
import type { Film } from "../../contract/film.ts";
import type { Clip } from "../../contract/footage.ts";
import type { Ride } from "../../contract/ride.ts";
import { columnsAsLists } from "../../debrief/filmSchema.ts";
import { blocksAsked } from "../../journey/judge.ts";
import { taughtParts } from "../../journey/taughtParts.ts";
import { toldReading } from "../../journey/toldReading.ts";
import { leavesFolder } from "../../debrief/mediaPath.ts";
import { choicesOn } from "../../debrief/choicesOn.ts";
import { anchorWarnings } from "../../journey/clipDoubts.ts";
import { filmClock } from "../../../overlay/instant/filmClock.ts";
import { clipFileWords, rideFileWords } from "../../../overlay/words/gatherWords.ts";
import { momentWords } from "../../../overlay/words/reading/momentWords.ts";
import { roadViews } from "./besideEdits.ts";
import { excusedParts } from "./filmEdits.ts";
import type { Session } from "./session.ts";
import { noticeTexts } from "../../../overlay/words/notices/noticeText.ts";
import { distinctNotices } from "../../contract/notice.ts";

/** Where things that do not cross as JSON are lent for one debrief. */
export interface ViewAddresses {
  readonly columns: string;
  readonly frames: string;
  readonly signals: string;
}

/** What the window can see of a clip by now. */
export type ClipPictures = Pick<ClipView, "picture" | "proxySpans" | "address" | "filmstrip">;

/** Everything the window draws of the debrief on the desk, as plain JSON. */
export function debriefView(
  session: Session,
  more: {
    readonly addresses: ViewAddresses;
    readonly athleteId: string | null;
    readonly pictures: (clip: Clip) => ClipPictures;
    readonly lendSound: (path: string) => string;
  },
): DebriefView {
  const { document } = session;
  const { lineup, standing } = session.debrief;
  const judged = standing?.judged ?? null;
  const film = standing?.film ?? null;
  const clips = session.clipsInUse();
  const reading = judged && withoutColumns(judged.reading);
  const wireFilm = film && filmOnWire(film);
  return {
    folder: session.folder ?? "",
    readOnly: session.readOnly,
    saved: session.saver.state,
    place: session.place,
    edit: session.edit,
    undo: session.history.undo.at(-1)?.[0]?.label ?? null,
    redo: session.history.redo.at(-1)?.[0]?.label ?? null,
    document: documentOnWire(document, film, wireFilm),
    athleteId: more.athleteId,
    athleteName: session.rider.athlete?.name ?? null,
    files: filesView(session),
    clips: clips.map((clip) => ({
      id: clip.id,
      name: clip.fileName,
      durationS: clip.durationS,
      widthPx: clip.widthPx,
      heightPx: clip.heightPx,
      frames: clip.frames.ticks.length,
      hasSound: clip.audio !== null,
      hasSignals: session.media.signals.has(clip.id),
      ...more.pictures(clip),
    })),
    lineup,
    reading,
    told: standing && toldReading(standing),
    momentWords: judged?.reading.moments.map((moment) => momentWords(moment, judged.plan.units)) ?? [],
    plannedBlocks: judged === null ? [] : blocksAsked(judged),
    momentChoices: judged === null ? [] : choicesOn(judged.reading.moments, document.choices).of,
    asked: standing?.asked ?? [],
    film: wireFilm,
    excusedParts: standing === null ? [] : excusedParts(standing),
    taughtParts: standing === null ? [] : taughtParts(standing),
    roads: judged === null ? [] : roadViews(session.debrief),
    filmLengthS: film && filmClock(film).lengthS,
    addresses: more.addresses,
    commentAddresses: commentAddresses(film, session.folder, more.lendSound),
    missingMedia: session.missing.map(({ id, path }) => ({ id, name: path.split("/").at(-1) ?? path })),
    warnings: distinctNotices([
      ...session.notes,
      ...(lineup ? [...lineup.warnings, ...anchorWarnings(clips, lineup)] : []),
      ...(judged?.reading.warnings ?? []),
      ...(standing?.warnings ?? []),
    ]),
  };
}

function commentAddresses(
  film: Film | null,
  folder: string | null,
  lend: (path: string) => string,
): Record<string, string> {
  if (film === null || folder === null) return {};
  return Object.fromEntries(
    film.items.flatMap(({ id, commentPath }) =>
      commentPath === null || leavesFolder(commentPath) ? [] : [[id, lend(join(folder, commentPath))]],
    ),
  );
}

function withoutColumns<T extends { readonly columns: unknown }>({
  columns: _columns,
  ...rest
}: T): Omit<T, "columns"> {
  return rest;
}

const films = new WeakMap<Film, Film>();

/** A film whose columns are lists, with null for a missing value. */
export function filmOnWire(film: Film): Film {
  const known = films.get(film);
  if (known !== undefined) return known;
  const plain = JSON.parse(JSON.stringify(film, columnsAsLists)) as Film;
  films.set(film, plain);
  return plain;
}

function documentOnWire(document: DebriefDocument, film: Film | null, wireFilm: Film | null): DebriefDocument {
  if (document.film === null) return document;
  return { ...document, film: document.film === film ? wireFilm : filmOnWire(document.film) };
}

function filesView(session: Session): GatheredFile[] {
  const { document } = session;
  const files = document.media.flatMap(({ id, kind }): GatheredFile[] => {
    const ride = session.rides.get(id)?.ride;
    if (kind === "ride" && ride !== undefined) {
      return [
        {
          id,
          kind,
          name: ride.fileName,
          ...rideWords(ride, document),
          failure: null,
          shown: id === document.shownRideId,
          durationS: ride.elapsedS,
        },
      ];
    }
    const clip = session.clips.get(id);
    if (kind === "clip" && clip !== undefined)
      return [
        { id, kind, name: clip.fileName, ...clipWords(clip), failure: null, shown: false, durationS: clip.durationS },
      ];
    return [];
  });
  return [...files, ...session.unusable.map(({ view }) => view)];
}

function rideWords(ride: Ride, document: DebriefDocument) {
  const { grid } = ride;
  return rideFileWords({
    everySecond: ride.mode === "every second",
    trainer: document.plan.setting === "trainer",
    has: {
      power: grid.power !== null,
      heartRate: grid.heartRate !== null,
      cadence: grid.cadence !== null,
      speed: grid.speed !== null,
      position: grid.position !== null,
      altitude: grid.altitude !== null,
      calendar: ride.startUtcMs !== null,
    },
    warnings: noticeTexts(ride.warnings, "en", "window"),
  });
}

function clipWords(clip: Clip) {
  return clipFileWords({
    widthPx: clip.widthPx,
    heightPx: clip.heightPx,
    framesPerSecond: clip.frameRate.num / clip.frameRate.den,
    variableRate: clip.variableRate,
    hasSound: clip.audio !== null,
    hdr: clip.colour.hdr,
    hasTelemetry: clip.hasTelemetry,
    hasClock: clip.createdUtcMs !== null,
    warnings: noticeTexts(clip.warnings, "en", "window"),
  });
}
