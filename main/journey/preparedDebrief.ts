import type { Language } from "../contract/languageAndUnits.ts";
import type { ForWhom, PresetName } from "../contract/presets.ts";
import { basename, dirname, join } from "node:path";
import { localStartMs } from "../reading/plan/targetFor.ts";
import type { Film } from "../contract/film.ts";
import type { FilmLook } from "../contract/filmLook.ts";
import { Cancelled, type JobContext } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import type { Athlete } from "../debrief/athlete.ts";
import { newDebrief } from "../debrief/debriefDocument.ts";
import { loadDebrief, saveDebrief } from "../debrief/debriefStore.edge.ts";
import { mediaRef } from "../debrief/findMedia.edge.ts";
import { rideFigures } from "../debrief/rideFigures.ts";
import { fingerprintFile } from "../footage/fingerprint.edge.ts";
import { athleteIn, athletePathFrom, consentedAthlete } from "../debrief/athleteFolder.edge.ts";
import { carryOver } from "../debrief/carryOver.ts";
import { commentLengths } from "../debrief/commentLengths.ts";
import { earlierReadings } from "./earlierReadings.ts";
import { debriefStanding, type DebriefStanding } from "./standing.ts";
import { handOver, mayHandOver } from "./handOver.ts";
import {
  anchorWarnings,
  lineupJourney,
  notUsable,
  placeByAll,
  type LineupOutcome,
  type LineupRequest,
} from "./place.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { noteMadeHere } from "../debrief/madeHere.edge.ts";
import type { OutputWish } from "../render/outputChoices.edge.ts";
import { planSource, type PlanChoices } from "./planSource.ts";
import type { ReadOutcome } from "./judge.ts";
import { soundLengthS } from "../footage/soundLength.edge.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";

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
  readonly warnings: readonly string[];
}

/** A debrief as it stands in its folder, before anything is rendered or handed over. */
export interface PreparedDebrief {
  readonly folder: string;
  readonly standing: DebriefStanding;
  readonly athlete: Athlete | null;
  readonly lineup: LineupOutcome;
  readonly warnings: readonly string[];
}

/** The whole job: line up, read, pick, render, write. Throws a Failure or Cancelled; what is written is whole. */
export async function debriefJourney(
  request: DebriefRequest,
  tools: Tools,
  chromium: string | null,
  context: JobContext,
): Promise<DebriefOutcome> {
  const { folder, standing, athlete, lineup, warnings } = await prepareDebrief(request, tools, context, false);
  const handed = await handOver(standing, folder, athlete, tools, chromium, context, request.output);
  return {
    folder,
    film: standing.film,
    read: standing.judged,
    lineup,
    written: [join(folder, "debrief.json"), ...handed.written],
    warnings: [...new Set([...warnings, ...handed.warnings])],
  };
}

/**
 * Line up, read, pick, and the document written. What a person decided in an earlier run in the same folder stays.
 * @param forLater a person looks at it before it is handed over: clips that are not sure are left out, not refused
 */
export async function prepareDebrief(
  request: DebriefRequest,
  tools: Tools,
  context: JobContext,
  forLater: boolean,
): Promise<PreparedDebrief> {
  const asked = await planSource({ ...request.plan, athleteDir: request.athleteDir });
  const gathered = await lineupJourney({ ...request, indoors: asked.on(null).setting === "trainer" }, tools, context);
  const ridePath = gathered.ridePaths[gathered.shown.index];
  const plan = asked.on(localStartMs(gathered.shown.ride));
  const folder = request.outDir ?? defaultFolder(ridePath, request.athleteDir);
  const earlier = await loadDebrief(folder).then(
    (opened) => opened.document,
    () => null,
  );
  const media = await mediaOf(folder, gathered);
  const carried = carryOver(earlier, media);
  const anchors = gathered.anchors.length > 0 ? gathered.anchors : carried.anchors;
  const { ride } = gathered.shown;
  const lineup =
    anchors === gathered.anchors
      ? gathered
      : {
          ...gathered,
          anchors,
          ...(await placeByAll(
            ride,
            gathered.clips,
            anchors,
            request.deviceDelayS,
            { indoors: plan.setting === "trainer", others: gathered.rides.filter((other) => other !== ride) },
            tools,
            context,
          )),
        };
  const doubt = request.acceptUnsure || forLater ? null : notUsable(lineup.clips, lineup.lineup);
  if (doubt) throw doubt;

  const athlete =
    request.athleteDir === null
      ? null
      : await athleteIn(request.athleteDir, plan.rider ?? basename(request.athleteDir));
  const { lengthS, forWhom, asPercent, acceptUnsure } = request;
  const preset = request.preset ?? athlete?.preset ?? "share";
  const language = request.language ?? athlete?.language ?? "en";
  const shownRideId = `ride${gathered.shown.index + 1}`;
  const decided: DebriefDocument = {
    ...(earlier ?? newDebrief(plan, media, shownRideId)),
    media,
    shownRideId,
    plan,
    anchors,
    deviceDelayS: request.deviceDelayS,
    settings: {
      lengthS,
      preset,
      language,
      forWhom,
      asPercent,
      acceptUnsure,
      look: { ...earlier?.settings.look, ...request.look },
    },
    film: carried.film,
    filmSetBy: carried.film === null ? "computed" : "coach",
    athletePath:
      request.athleteDir === null ? (earlier?.athletePath ?? null) : athletePathFrom(folder, request.athleteDir),
    prepared: forLater,
  };
  const consented = await consentedAthlete(folder, decided, athlete, request.consent);
  const refused = forLater ? null : mayHandOver(decided, consented);
  if (refused) throw refused;
  const film =
    carried.film && (await commentLengths(carried.film, true, (path) => soundLengthS(join(folder, path), tools)));
  const earlierRides = await earlierReadings(request.athleteDir, ride.startUtcMs, plan.setting);
  const standing = debriefStanding({
    document: { ...decided, film },
    ride,
    clips: lineup.clips,
    lineup: lineup.lineup,
    athlete: consented,
    earlier: earlierRides,
  });
  await makeFolder(folder);
  if (context.signal.aborted) throw new Cancelled();
  // The document keeps the coach's film as the coach left it: what a lesson leaves out is not lost.
  const document = await saveDebrief(folder, {
    ...decided,
    film: carried.film ?? standing.film,
    figures: rideFigures(ride, plan, standing.judged.reading),
  });
  await noteMadeHere(folder);
  const warnings = [
    ...noticeTexts([...lineup.lineup.warnings, ...anchorWarnings(lineup.clips, lineup.lineup)], "en", "command"),
    ...noticeTexts(standing.judged.reading.warnings, "en", "command"),
  ];
  return { folder, standing: { ...standing, document }, athlete: consented, lineup, warnings };
}

/** `sunday.fit.gz` becomes `sunday-debrief` beside it, or in the athlete's folder. */
export function defaultFolder(ridePath: string, athleteDir: string | null = null): string {
  const name = basename(ridePath)
    .replace(/\.gz$/i, "")
    .replace(/\.[^.]+$/, "");
  return join(athleteDir ?? dirname(ridePath), `${name}-debrief`);
}

async function mediaOf(folder: string, lineup: LineupOutcome): Promise<DebriefDocument["media"]> {
  const media = [];
  for (const [index, path] of lineup.ridePaths.entries())
    media.push(await mediaRef(folder, path, `ride${index + 1}`, "ride", fingerprintFile));
  for (const clip of lineup.clips) media.push(await mediaRef(folder, clip.path, clip.id, "clip", fingerprintFile));
  return media;
}
