import { basename, dirname, join } from "node:path";
import type { Film } from "../contract/film.ts";
import type { JobContext } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";
import type { Language } from "../../overlay/words/phrases.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import { NO_WORDS, newDebrief } from "../debrief/debriefDocument.ts";
import { loadDebrief, saveDebrief } from "../debrief/debriefStore.edge.ts";
import { mediaRef } from "../debrief/findMedia.edge.ts";
import { rideFigures } from "../debrief/rideFigures.ts";
import { fingerprintFile } from "../footage/fingerprint.edge.ts";
import { PRESETS, type PresetName } from "../render/presets.ts";
import { renderFilm } from "../render/renderFilm.edge.ts";
import { automaticFilm } from "./automaticFilm.ts";
import { Cancelled } from "./cancelled.ts";
import { filmJob } from "./filmJob.ts";
import { chaptersOf, handOver } from "./handOver.ts";
import { anchorWarnings, lineupJourney, notUsable, type LineupOutcome, type LineupRequest } from "./lineupJourney.ts";
import { makeFolder } from "./makeFolder.ts";
import { noteMadeHere } from "./madeHere.ts";
import { planFor, type PlanChoices } from "./planFor.ts";
import { judge, type ReadOutcome } from "./readJourney.ts";
import { settled } from "./settled.ts";

export interface DebriefRequest extends LineupRequest {
  readonly plan: PlanChoices;
  readonly acceptUnsure: boolean;
  /** Null: a folder beside the ride, named after it. */
  readonly outDir: string | null;
  readonly lengthS: number;
  readonly preset: PresetName;
  readonly forWhom: "athlete" | "lesson";
  readonly language: Language;
}

export interface DebriefOutcome {
  readonly folder: string;
  readonly film: Film;
  readonly read: ReadOutcome;
  readonly lineup: LineupOutcome;
  readonly written: readonly string[];
  readonly warnings: readonly string[];
}

/** The whole job: line up, read, pick, render, write. Throws a Failure or Cancelled; what is written is whole. */
export async function debriefJourney(request: DebriefRequest, tools: Tools, chromium: string | null, context: JobContext): Promise<DebriefOutcome> {
  const plan = await planFor(request.plan);
  const lineup = await lineupJourney(request, tools);
  const doubt = request.acceptUnsure ? null : notUsable(lineup.clips, lineup.lineup);
  if (doubt) throw doubt;
  const judged = judge(lineup.shown.ride, plan, []);
  const folder = request.outDir ?? defaultFolder(lineup.ridePaths[lineup.shown.index]);
  const earlier = await loadDebrief(folder).then((opened) => opened.document, () => null);
  const { lengthS, preset, language, forWhom, acceptUnsure } = request;
  const film = automaticFilm({
    judged,
    clips: lineup.clips,
    lineup: lineup.lineup,
    settings: { lengthS, preset, language, forWhom, asPercent: false, acceptUnsure },
    choices: earlier?.choices ?? [],
    words: earlier?.words ?? NO_WORDS,
    riderName: lineup.rides.length > 1 ? (judged.plan.rider ?? basename(judged.ride.fileName)) : null,
  });

  await makeFolder(folder);
  stopIfAsked(context);
  const document = await saveDebrief(folder, await documentOf(request, folder, lineup, judged, film));
  await noteMadeHere(folder);

  const outPath = join(folder, "film.mp4");
  const chapters = chaptersOf(judged, film, request.language);
  const job = {
    ...filmJob({ ...judged, clips: lineup.clips, film }, PRESETS[request.preset], request.language, outPath),
    chapters,
  };
  settled(await renderFilm(job, tools, context));
  stopIfAsked(context);
  const handed = await handOver({ folder, document, judged, film, clips: lineup.clips, job }, tools, chromium, context);
  return {
    folder,
    film,
    read: judged,
    lineup,
    written: [join(folder, "debrief.json"), outPath, ...handed.written],
    warnings: [...new Set([...lineup.lineup.warnings, ...anchorWarnings(lineup.clips, lineup.lineup), ...judged.reading.warnings, ...handed.warnings])],
  };
}

/** `sunday.fit.gz` becomes `sunday-debrief` beside it. */
export function defaultFolder(ridePath: string): string {
  const name = basename(ridePath).replace(/\.gz$/i, "").replace(/\.[^.]+$/, "");
  return join(dirname(ridePath), `${name}-debrief`);
}

function stopIfAsked(context: JobContext): void {
  if (context.signal.aborted) throw new Cancelled();
}

/** The document of this run; the coach's own words and choices of an earlier run in the same folder stay. */
async function documentOf(request: DebriefRequest, folder: string, lineup: LineupOutcome, judged: ReadOutcome, film: Film): Promise<DebriefDocument> {
  const media = [];
  for (const [index, path] of lineup.ridePaths.entries()) media.push(await mediaRef(folder, path, `ride${index + 1}`, "ride", fingerprintFile));
  for (const clip of lineup.clips) media.push(await mediaRef(folder, clip.path, clip.id, "clip", fingerprintFile));
  const shownRideId = `ride${lineup.shown.index + 1}`;
  const before = await loadDebrief(folder).then((opened) => opened.document, () => null);
  return {
    ...(before ?? newDebrief(judged.plan, media, shownRideId)),
    media,
    shownRideId,
    plan: judged.plan,
    anchors: lineup.anchors,
    deviceDelayS: request.deviceDelayS,
    settings: { lengthS: request.lengthS, preset: request.preset, language: request.language, forWhom: request.forWhom, asPercent: false, acceptUnsure: request.acceptUnsure },
    film,
    figures: rideFigures(judged.ride, judged.plan, judged.reading),
  };
}
