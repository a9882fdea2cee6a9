import { fitFor, type Fit, type Preset, type SlowSound } from "../contract/presets.ts";
import { existsSync } from "node:fs";
import { readdir, rm, stat, open } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { Failure } from "../contract/failure.ts";
import { clipsShownBy, type Film, type FilmItem } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { JobContext, JobResult } from "../contract/job.ts";
import type { WorkStep } from "../contract/workStep.ts";
import type { Tools } from "../contract/tools.ts";
import type { RideColumns } from "../contract/rideColumns.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { routePath } from "../../overlay/instant/routePath.ts";
import { layoutFor, type Layout, type LayoutOptions } from "../../overlay/layout/layout.ts";
import type { AlphaCodec } from "./alphaTrack.ts";
import { inFolder } from "../host/heldFolder.edge.ts";
import { clearUnfinished, unfinishedName } from "../host/leftovers.edge.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { checkDiskSpace, neededBytes } from "./diskSpace.edge.ts";
import { encodingFor, type VideoEncoder } from "./encoding.ts";
import { ffmpegVersion, missingFilters } from "../host/ffmpegFacts.edge.ts";
import { note, type Note } from "../contract/notice.ts";
import { freeMemory } from "./freeMemory.edge.ts";
import { jobResult, workProgress } from "./jobResult.edge.ts";
import { joinParts, type Chapter } from "./joinParts.edge.ts";
import { startPaintClient } from "./paintClient.edge.ts";
import type { PaintSetup } from "./paintMessages.ts";
import type { Paging, PanelJob } from "./panelPictures.ts";
import { partName } from "./partName.edge.ts";
import { hdrFilters } from "./pictureFilters.ts";
import { partWork } from "./partWork.ts";
import { planPart, type PartPlan } from "./planFilm.ts";
import { planParts } from "./planParts.ts";
import { renderPart } from "./renderPart.edge.ts";
import { sizeBudget } from "./sizeBudget.ts";
import { SAMPLE_RATE_HZ } from "./soundFilters.ts";

export interface FilmJob {
  readonly film: Film;
  readonly clips: readonly Clip[];
  readonly columns: RideColumns;
  readonly outPath: string;
  readonly preset: Preset;
  /** How the panels look; their picture size is the film's, whatever stands here. */
  readonly layoutOptions: LayoutOptions;
  /** Finished parts are kept here and found again by a later run. */
  readonly cacheDir: string;
  readonly chapters?: readonly Chapter[];
  /** libx264 unless another was chosen (`chooseEncoder`). */
  readonly encoder?: VideoEncoder;
  /** The preset's own unless given: `crop` fills the film's shape, `pad` keeps the whole picture. */
  readonly fit?: Fit;
  /** The panels alone, with alpha, in a .mov without sound. */
  readonly transparent?: AlphaCodec;
  /** `stretched` unless given. */
  readonly slowSound?: SlowSound;
  /** Makes again what an earlier run has finished. */
  readonly anew?: boolean;
  /** How the thread's page turns; `turning` for overlays over whole clips. */
  readonly paging?: Paging;
}

export interface RenderedFilm {
  readonly path: string;
  readonly frames: number;
  readonly durationS: number;
  readonly ffmpegVersion: string;
  /** Parts that were there from an earlier run, and their frames. */
  readonly partsKept: number;
  readonly framesKept: number;
  /** Says so where some were. */
  readonly notes: readonly Note[];
}

/** Of the progress, what putting the parts together is counted as. */
const JOINING_SHARE = 0.05;

/** Parts of earlier films may take so much of the cache, bytes; the oldest go first. */
const CACHE_LIMIT_BYTES = 8e9;

/**
 * Renders a film: parts one by one, then joined. The file is there under its name only when it is whole; finished parts
 * stay in the cache when it is broken off.
 */
export function renderFilm(job: FilmJob, tools: Tools, context: JobContext): Promise<JobResult<RenderedFilm>> {
  return jobResult(() => render(job, tools, context));
}

async function render(job: FilmJob, tools: Tools, context: JobContext): Promise<RenderedFilm> {
  const { film, preset } = job;
  const { frames, lengthS } = filmClock(film);
  if (frames === 0) throw new Failure("film-empty", {});
  const version = await ffmpegVersion(tools);
  await checkClips(job, tools);
  const folder = join(job.cacheDir, "parts");
  await checkOutput(job, folder, neededBytes(preset, film.widthPx, film.heightPx, frames / lengthS, lengthS));

  const setup = paintSetup(job);
  const layout = layoutFor(setup.layoutOptions);
  const encoder = job.encoder ?? "libx264";
  const budget =
    preset.sizeMb === null || encoder !== "libx264" || job.transparent !== undefined
      ? null
      : sizeBudget(film, preset, preset.sizeMb, lengthS);
  const fit = job.fit ?? fitFor(preset, null, null);
  const slowSound = job.slowSound ?? "stretched";
  const filmParts = planParts(film);
  const work = filmParts.map((part) => partWork(part, film));
  const total = work.reduce((sum, one) => sum + one, 0);
  const progress = workProgress(
    { ...context, report: (made) => context.report({ ...made, done: made.done * (1 - JOINING_SHARE) }) },
    total,
    JOINING_SHARE,
  );
  const parts: { name: string; frames: number }[] = [];
  const made = new Set<string>();
  let kept = 0;
  let framesKept = 0;
  let done = 0;
  const paint = startPaintClient(setup, tools, context.signal);
  freeMemory();
  /** Makes a part that is not there yet, and notes what it took of the size. */
  const makePart = async (index: number, ceilingKbps: number | null): Promise<void> => {
    const encoding = job.transparent ?? encodingFor(preset, encoder, lengthS, ceilingKbps);
    const plan = planPart(panelJob(job, layout), filmParts[index]!);
    const name = `${await partName(plan, { film, paint: setup, encoding, fit, slowSound, ffmpegVersion: version })}.mov`;
    const { frames: partFrames } = plan.part;
    parts[index] = { name, frames: partFrames };
    const path = join(folder, name);
    const step = stepOf(plan, job);
    if (existsSync(path) && (made.has(name) || job.anew !== true)) {
      // A part that the film has twice is made once.
      if (!made.has(name)) {
        kept += 1;
        framesKept += partFrames;
      }
      progress.skip(work[index]!);
    } else {
      progress.at(done, step);
      const onFrames = (count: number): void => progress.at(done + (work[index]! * count) / partFrames, step);
      const partJob = { film, plan, layout, fit, encoding, slowSound, paint, signal: context.signal, onFrames };
      await renderPart(partJob, path, tools);
      made.add(name);
    }
    budget?.took(index, 8 * ((await stat(path)).size - soundBytes(partFrames, film)));
  };
  try {
    for (const index of filmParts.keys()) {
      await makePart(index, budget === null ? null : budget.ceilingKbps(index));
      done += work[index]!;
    }
    // Each is made anew with what is now known; twice at most, since the first hits but for rare films.
    for (let pass = 0; budget !== null && pass < 2; pass += 1) {
      const again = [...budget.secondPass()];
      progress.more(again.reduce((sum, [index]) => sum + work[index]!, 0));
      for (const [index, ceilingKbps] of again) {
        await makePart(index, ceilingKbps);
        done += work[index]!;
      }
    }
  } finally {
    paint.close();
  }
  const joining = (joined: number): void =>
    context.report({
      done: 1 - JOINING_SHARE * (1 - Math.min(1, joined / frames)),
      leftS: null,
      step: { what: "joining" },
    });
  joining(0);
  await joinParts(
    {
      folder,
      parts,
      frameRate: film.frameRate,
      frames,
      audioKbps: job.transparent === undefined ? preset.audioKbps : null,
      loudness: job.paging === "turning" ? "as recorded" : "film",
      container: job.transparent === undefined ? "mp4" : "mov",
      chapters: job.chapters ?? [],
      outPath: job.outPath,
      signal: context.signal,
      onFrames: joining,
    },
    tools,
  );
  context.report({ done: 1, leftS: 0, step: { what: "file", name: basename(job.outPath) } });
  await clearUnfinished(folder);
  await pruneParts(folder, new Set(parts.map(({ name }) => name)));
  const perFrameS = lengthS / frames;
  return {
    path: job.outPath,
    frames,
    durationS: lengthS,
    ffmpegVersion: version,
    partsKept: kept,
    framesKept,
    notes: framesKept > 0 ? [note("parts-kept", { keptS: framesKept * perFrameS, ofS: lengthS })] : [],
  };
}

/** What the painting child must know for a job. */
export function paintSetup(
  job: Pick<FilmJob, "film" | "columns" | "layoutOptions">,
): Omit<PaintSetup, "kind" | "fontsFolder"> {
  const { film, columns } = job;
  const layoutOptions = { ...job.layoutOptions, widthPx: film.widthPx, heightPx: film.heightPx };
  const route = layoutOptions.panels.includes("route") ? routePath(columns) : null;
  return { layoutOptions, route, bandW: layoutOptions.showPlan ? columns.bandW : null };
}

/** What the panels of a job are reckoned from. */
export function panelJob(
  job: Pick<FilmJob, "film" | "clips" | "columns" | "preset" | "paging">,
  layout: Layout,
): PanelJob {
  return {
    hasPanels: layout.band.width > 0 && layout.band.height > 0,
    film: job.film,
    clips: new Map(job.clips.map((clip) => [clip.id, clip])),
    columns: job.columns,
    threadStepsPerSecond: job.preset.threadStepsPerSecond,
    paging: job.paging ?? "shot",
  };
}

/** @throws Failure where a clip of the film is gone, or needs filters that this ffmpeg has not */
export async function checkClips(job: Pick<FilmJob, "film" | "clips">, tools: Tools): Promise<void> {
  const used = new Set(job.film.items.flatMap(clipsShownBy));
  for (const clip of job.clips) {
    if (!used.has(clip.id)) continue;
    if (!existsSync(clip.path)) {
      throw new Failure("clip-moved", { fileName: clip.fileName, path: clip.path });
    }
    if (!clip.colour.hdr) continue;
    const missing = await missingFilters(tools, hdrFilters);
    if (missing.length > 0) {
      throw new Failure("clip-hdr-unconvertible", { fileName: clip.fileName, filters: missing });
    }
  }
}

/** What of a part is its sound, 16 bits of two channels. */
function soundBytes(frames: number, { frameRate }: Film): number {
  return 4 * Math.round((frames * SAMPLE_RATE_HZ * frameRate.den) / frameRate.num);
}

async function checkOutput(job: FilmJob, folder: string, bytes: number): Promise<void> {
  await checkDiskSpace(dirname(job.outPath), bytes);
  await checkDiskSpace(folder, bytes);
  try {
    await makeFolder(dirname(job.outPath));
    await inFolder(dirname(job.outPath), async (through) => {
      const unfinished = unfinishedName(join(through, basename(job.outPath)));
      await (await open(unfinished, "wx")).close();
      await rm(unfinished);
    });
  } catch (error) {
    if (error instanceof Failure && error.notice.code !== "folder-not-made") throw error;
    throw new Failure("output-file-forbidden", { path: job.outPath }, error);
  }
}

function stepOf(plan: PartPlan, { film, clips, paging }: FilmJob): WorkStep {
  // Two rides side by side are footage, told as a shot.
  const isCard = (item: FilmItem | undefined): boolean => item?.type === "card" && item.card.kind !== "pair";
  const shots = film.items.flatMap((item, index) => (isCard(item) ? [] : [index]));
  const index = plan.part.pieces[0]?.item ?? 0;
  if (isCard(film.items[index]))
    return {
      what: "card",
      number: index + 1 - shots.filter((shot) => shot < index).length,
      count: film.items.length - shots.length,
    };
  const shot = film.items[index]!;
  const at = { number: shots.indexOf(index) + 1, count: shots.length };
  // Whole clips are known by their files.
  if (paging === "turning" && shot.type === "shot")
    return { what: "clip", fileName: clips.find(({ id }) => id === shot.clipId)?.fileName ?? null, ...at };
  return { what: "shot", ...at };
}

/** Keeps the cache within its limit; the parts of the film just made stay. */
async function pruneParts(folder: string, keep: ReadonlySet<string>): Promise<void> {
  const found = [];
  for (const name of await readdir(folder)) {
    // Another render may have finished or removed it just now.
    const there = await stat(join(folder, name)).catch(() => null);
    if (there !== null) found.push({ name, size: there.size, mtimeMs: there.mtimeMs });
  }
  found.sort((a, b) => b.mtimeMs - a.mtimeMs);
  let total = found.reduce((sum, { name, size }) => sum + (keep.has(name) ? size : 0), 0);
  for (const { name, size } of found) {
    if (keep.has(name)) continue;
    total += size;
    if (total > CACHE_LIMIT_BYTES) await rm(join(folder, name), { force: true });
  }
}
