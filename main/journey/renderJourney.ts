import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { JobContext } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";
import { filmFrames } from "../../overlay/instant/filmAt.ts";
import { filmShape } from "../film/filmShape.ts";
import { PRESETS, type PresetName } from "../render/presets.ts";
import { renderFilm, type FilmJob } from "../render/renderFilm.edge.ts";
import { renderStill } from "../render/renderStill.edge.ts";
import { filmJob } from "./filmJob.ts";
import { openDebrief } from "./openDebrief.ts";
import { settled } from "./settled.ts";

async function jobOf(debriefPath: string, preset: PresetName | null, outPath: string | null, tools: Tools, trustPaths: boolean): Promise<FilmJob> {
  const { folder, document, ride, clips, reading, film } = await openDebrief(debriefPath, tools, trustPaths);
  const { settings, plan } = document;
  const chosen = preset ?? settings.preset;
  const shaped = chosen === settings.preset ? film : { ...film, ...filmShape(clips, chosen) };
  return filmJob({ ride, plan, reading, clips, film: shaped }, PRESETS[chosen], settings.language, outPath ?? join(folder, "film.mp4"));
}

/** Renders the film of a debrief as it stands in its document. Gives the path written. */
export async function renderJourney(
  request: { readonly debriefPath: string; readonly preset: PresetName | null; readonly outPath: string | null; readonly trustPaths: boolean },
  tools: Tools,
  context: JobContext,
): Promise<string> {
  const job = await jobOf(request.debriefPath, request.preset, request.outPath, tools, request.trustPaths);
  return settled(await renderFilm(job, tools, context)).path;
}

/** One frame of a debrief's film, composited, as PNG; `atS` is film time. */
export async function stillJourney(
  request: { readonly debriefPath: string; readonly atS: number; readonly outPath: string; readonly trustPaths: boolean },
  tools: Tools,
  context: JobContext,
): Promise<string> {
  const job = await jobOf(request.debriefPath, null, request.outPath, tools, request.trustPaths);
  const { num, den } = job.film.frameRate;
  const lengthS = (filmFrames(job.film) * den) / num;
  if (request.atS >= lengthS) {
    throw new Failure("usage", `--at ${request.atS} is outside the film, which lasts ${lengthS.toFixed(1)} s.`, "Give a film time inside it.");
  }
  return settled(await renderStill({ ...job, atS: request.atS }, tools, context)).path;
}
