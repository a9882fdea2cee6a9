import type { Language } from "../contract/languageAndUnits.ts";
import { type ForWhom, type PresetName, USUAL_PRESET } from "../contract/presets.ts";
import { basename, join } from "node:path";
import { clipsShownBy, type Film } from "../contract/film.ts";
import type { Plan, PlanSkill } from "../contract/plan.ts";
import type { FilmLook } from "../contract/filmLook.ts";
import { Cancelled, type JobContext } from "../contract/job.ts";
import type { DebriefDocument, FilmSettings } from "../contract/debrief.ts";
import type { Athlete } from "../debrief/athlete.ts";
import { DEBRIEF_FILE, loadDebrief } from "../debrief/debriefStore.edge.ts";
import { athleteIn, athletePathFrom, consentedAthlete } from "../debrief/athleteFolder.edge.ts";
import { carryOver } from "../debrief/carryOver.ts";
import { placedClips } from "../film/filmedSpan.ts";
import type { OutputWish } from "./outputChoice.ts";
import { anchorWarnings, nowhere, notUsable } from "./clipDoubts.ts";
import { type Debrief, type DebriefStanding, shownRideOf } from "./debrief.ts";
import { film } from "./film.ts";
import { handOver, mayHandOver } from "./handOver.ts";
import type { Host } from "./host.ts";
import { judge, type ReadOutcome } from "./judge.ts";
import { gatherOuting, lineupOutcome, placeOuting, type LineupOutcome, type LineupRequest } from "./linedUpClips.ts";
import { withCommentLengths } from "./openDebrief.ts";
import { defaultFolder, makeDebriefFolder, referTo, saveMade } from "./savedDebrief.ts";
import { planSource, type PlanChoices } from "./planSource.ts";
import { distinctNotices, note, type Note } from "../contract/notice.ts";

export interface DebriefRequest extends LineupRequest {
  /** Wishes for the look; they join those of an earlier run in the same folder. */
  readonly look?: Partial<FilmLook>;
  readonly output?: OutputWish;
  readonly plan: PlanChoices;
  readonly acceptUnsure: boolean;
  /** Null: a folder named after the ride, beside it or in the athlete's folder. */
  readonly outDir: string | null;
  readonly lengthS: number;
  /** Null: the athlete's, else `share`. */
  readonly preset: PresetName | null;
  readonly forWhom: ForWhom;
  /** In a lesson: watts as percent of the plan. */
  readonly asPercent: boolean;
  /** Also the page in which the film plays; missing: as in an earlier run in the same folder, else not. */
  readonly playingPage?: boolean;
  /** Null: the athlete's, else English. */
  readonly language: Language | null;
  /** Folder of the athlete's file, made where it is missing; null: no athlete. */
  readonly athleteDir: string | null;
  /** When and how the athlete agreed to a lesson, in the coach's words; null: as the athlete's file says. */
  readonly consent: string | null;
}

export interface DebriefOutcome {
  readonly folder: string;
  readonly film: Film;
  readonly read: ReadOutcome;
  readonly lineup: LineupOutcome;
  readonly written: readonly string[];
  readonly warnings: readonly Note[];
}

/** A debrief as it stands in its folder, before anything is rendered or handed over. */
export interface PreparedDebrief {
  readonly folder: string;
  readonly standing: DebriefStanding;
  readonly athlete: Athlete | null;
  readonly lineup: LineupOutcome;
  readonly warnings: readonly Note[];
}

/** The whole job: line up, read, pick, render, write. Throws a Failure or Cancelled; what is written is whole. */
export async function debriefJourney(
  request: DebriefRequest,
  host: Host,
  context: JobContext,
): Promise<DebriefOutcome> {
  const { folder, standing, athlete, lineup, warnings } = await prepareDebrief(request, host, context, false);
  const handed = await handOver(standing, folder, athlete, host, context, request.output);
  return {
    folder,
    film: standing.film,
    read: standing.judged,
    lineup,
    written: [join(folder, DEBRIEF_FILE), ...handed.written],
    warnings: distinctNotices([...warnings, ...handed.warnings]),
  };
}

/**
 * Line up, read, pick, and the document written. What a person decided in an earlier run in the same folder stays.
 * @param forLater a person looks at it before it is handed over: clips that are not sure are left out, not refused
 */
export async function prepareDebrief(
  request: DebriefRequest,
  host: Host,
  context: JobContext,
  forLater: boolean,
): Promise<PreparedDebrief> {
  const { lengthS, forWhom, asPercent, acceptUnsure, athleteDir } = request;
  const asked = await planSource({ ...request.plan, athleteDir });
  const outing = await gatherOuting(request, asked.on, host);
  const gathered = outing.debrief;
  const folder = request.outDir ?? defaultFolder(shownRideOf(gathered)!.path, athleteDir);
  const earlier = await loadDebrief(folder).then(
    (opened) => opened.document,
    () => null,
  );
  const media = await mediaOf(folder, gathered);
  const carried = carryOver(earlier, media);
  const plan = withTicks(gathered.document.plan, earlier?.plan.skills ?? []);
  const typed = gathered.document.anchors.length > 0;
  const anchors = typed ? gathered.document.anchors : carried.anchors;
  const named = { ...gathered, folder, document: { ...gathered.document, media, anchors } };
  const placed = await placeOuting({ ...outing, debrief: named }, host, context);
  const lineup = lineupOutcome(placed);
  const doubt = forLater ? null : (acceptUnsure ? nowhere : notUsable)(lineup.clips, lineup.lineup);
  if (doubt) throw doubt;

  const athlete = athleteDir === null ? null : await athleteIn(athleteDir, plan.rider ?? basename(athleteDir));
  const decided: DebriefDocument = {
    ...(earlier ?? placed.document),
    media,
    shownRideId: placed.document.shownRideId,
    plan,
    anchors,
    deviceDelayS: request.deviceDelayS,
    settings: {
      lengthS,
      preset: request.preset ?? athlete?.preset ?? USUAL_PRESET,
      language: request.language ?? athlete?.language ?? "en",
      forWhom,
      asPercent,
      acceptUnsure,
      ...playingWish(request.playingPage ?? earlier?.settings.playingPage),
      ...(earlier?.settings.slowSound === undefined ? {} : { slowSound: earlier.settings.slowSound }),
      look: { ...earlier?.settings.look, ...request.look },
    },
    film: carried.film,
    filmSetBy: carried.film === null ? "computed" : "coach",
    athletePath: athleteDir === null ? (earlier?.athletePath ?? null) : athletePathFrom(folder, athleteDir),
    prepared: forLater,
  };
  const consented = await consentedAthlete(folder, decided, athlete, request.consent);
  const refused = forLater ? null : mayHandOver(decided, consented);
  if (refused) throw refused;
  const measured = { ...decided, film: await withCommentLengths(carried.film, folder, true, host) };
  const judged = await judge({ ...placed, document: measured, rider: { athlete: consented, athleteDir } }, host);
  const filmed = film(judged);
  const standing = filmed.standing!;
  if (context.signal.aborted) throw new Cancelled();
  await makeDebriefFolder(folder);
  const document = await saveMade({ ...filmed, document: decided }, folder);
  const kept = earlier === null ? [] : keptNotes(folder, earlier, typed ? 0 : anchors.length, carried.film !== null);
  const warnings = [
    ...kept,
    ...unfilmedNotes(standing.film, lineup, acceptUnsure),
    ...lineup.lineup.warnings,
    ...anchorWarnings(lineup.clips, lineup.lineup),
    ...standing.judged.reading.warnings,
  ];
  return { folder, standing: { ...standing, document }, athlete: consented, lineup, warnings };
}

/** What a coach saw practised, over a change of plan: what was not asked for stands as such. */
function withTicks(plan: Plan, earlier: readonly PlanSkill[]): Plan {
  const seen = earlier.filter(({ done }) => done !== null);
  if (seen.length === 0) return plan;
  const skills = (plan.skills ?? []).map((one) => ({
    ...one,
    done: one.done ?? seen.find(({ skill }) => skill === one.skill)?.done ?? null,
  }));
  const unasked = seen.filter((one) => skills.every(({ skill }) => skill !== one.skill));
  return { ...plan, skills: [...skills, ...unasked.map((one) => ({ ...one, repeats: null }))] };
}

/** Says what of an earlier run in the same folder still counts: who runs it again may think to begin afresh. */
function keptNotes(folder: string, { overrides, words }: DebriefDocument, anchors: number, ownFilm: boolean): Note[] {
  const ownLines = Object.values(words).filter((line) => line !== null).length;
  if (anchors + overrides.length + ownLines === 0 && !ownFilm) return [];
  return [note("earlier-run-kept", { folder, anchors, overrides: overrides.length, ownLines, ownFilm })];
}

/** Says so where clips that may be used lie in the ride and the film shows none of them. */
function unfilmedNotes({ items }: Film, { clips, lineup }: LineupOutcome, acceptUnsure: boolean): Note[] {
  if (items.some((item) => clipsShownBy(item).length > 0)) return [];
  const inRide = placedClips(clips, lineup, acceptUnsure);
  const told = inRide.map(({ clip, startS, endS }) => ({
    fileName: clip.fileName,
    fromS: Math.max(0, startS),
    toS: endS,
  }));
  return told.length === 0 ? [] : [note("film-without-footage", { clips: told })];
}

/** Said in the document only where it is wished. */
function playingWish(playingPage: boolean | undefined): Partial<FilmSettings> {
  return playingPage === true ? { playingPage } : {};
}

/** The same references as paths from a folder, with what the files are known by. */
function mediaOf(folder: string, { document }: Debrief): Promise<DebriefDocument["media"]> {
  return Promise.all(document.media.map(({ id, kind, path }) => referTo(folder, path, id, kind)));
}
