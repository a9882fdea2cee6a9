import type { Fit, SlowSound } from "../contract/presets.ts";
import { once } from "node:events";
import { createWriteStream } from "node:fs";
import { rm } from "node:fs/promises";
import type { Writable } from "node:stream";
import { Failure } from "../contract/failure.ts";
import type { Film } from "../contract/film.ts";
import type { PairCard } from "../contract/pair.ts";
import type { Tools } from "../contract/tools.ts";
import type { Layout } from "../../overlay/layout/layout.ts";
import { pairLayout, type PairLayout } from "../../overlay/pair/pairLayout.ts";
import { alphaEncoding, alphaGraph, type AlphaCodec } from "./alphaTrack.ts";
import { colourTags, exactTimes, noMetadata, type Encoding } from "./encoding.ts";
import { ffmpegArguments } from "../host/ffmpegArguments.edge.ts";
import { unfinishedName } from "../host/leftovers.edge.ts";
import { makeAtomic } from "../host/writeAtomic.edge.ts";
import type { PaintClient } from "./paintClient.edge.ts";
import type { PaintOrder } from "./paintMessages.ts";
import { partGraph, type GraphPiece, type PartGraph } from "./partGraph.ts";
import { speechGainDb } from "./measureLoudness.edge.ts";
import { drawingPictures } from "./drawingPictures.ts";
import type { PixelLayout } from "./matroskaStream.ts";
import { pictureTimeUs, type PanelPicture } from "./panelPictures.ts";
import { pairOf, type PartPlan } from "./planFilm.ts";
import { runFfmpeg } from "./runFfmpeg.edge.ts";
import type { FfmpegSubject } from "../contract/notices/render.ts";

export interface PartJob {
  readonly film: Film;
  readonly plan: PartPlan;
  readonly layout: Layout;
  readonly fit: Fit;
  readonly slowSound: SlowSound;
  /** A codec: the panels alone, with alpha. */
  readonly encoding: Encoding | AlphaCodec;
  readonly paint: PaintClient;
  readonly signal: AbortSignal;
  readonly onFrames: (frames: number) => void;
}

/** Renders one part to `path`, which is there only when all its frames are. */
export async function renderPart(job: PartJob, path: string, tools: Tools): Promise<void> {
  const scratch = scratchFiles(unfinishedName(path));
  try {
    await makeAtomic(path, async (unfinished) => {
      const { graph, options } = await encodedGraph(job, scratch, tools);
      const sound = graph.audioLabel === null ? [] : ["-map", `[${graph.audioLabel}]`];
      await runGraph({
        job,
        pixels: typeof job.encoding === "string" ? "rgba" : "yuva420p",
        graph,
        outputOptions: ["-map", `[${graph.videoLabel}]`, ...sound, ...options],
        output: unfinished,
        frames: job.plan.part.frames,
        onFrames: job.onFrames,
        tools,
      });
    });
  } finally {
    await scratch.remove();
  }
}

/** The part's graph, and what its encoder is told. */
async function encodedGraph(
  job: PartJob,
  scratch: ScratchFiles,
  tools: Tools,
): Promise<{ readonly graph: PartGraph; readonly options: readonly string[] }> {
  const { film, plan, layout, encoding } = job;
  const times = exactTimes(film.frameRate);
  const mov = [...noMetadata, "-f", "mov"];
  if (typeof encoding === "string") {
    const tags = encoding === "prores" ? colourTags : [];
    const graph = alphaGraph(film, plan.part, layout.band, encoding);
    return { graph, options: [...times, ...alphaEncoding(encoding), ...tags, ...mov] };
  }
  const graph = await preparedGraph(job, scratch, job.slowSound, tools);
  return { graph, options: [...times, ...encoding.options, ...colourTags, "-c:a", "pcm_s16le", ...mov] };
}

export interface GraphRun {
  readonly job: Pick<PartJob, "film" | "plan" | "paint" | "signal">;
  /** What the panels' stream carries. */
  readonly pixels: PixelLayout;
  readonly graph: PartGraph;
  readonly outputOptions: readonly string[];
  readonly output: string;
  /** Frames that must come out. */
  readonly frames: number;
  readonly onFrames: (frames: number) => void;
  readonly tools: Tools;
}

/** Runs a graph to its end, fed with the part's panels, and counts its frames. @throws Cancelled, Failure */
export async function runGraph(run: GraphRun): Promise<void> {
  const { graph, outputOptions, output } = run;
  const { plan, film, paint, signal } = run.job;
  const fed = graph.inputs.some((input) => input.source === "pipe:0");
  const frames = await runFfmpeg({
    ffmpeg: run.tools.ffmpeg,
    args: ffmpegArguments({ inputs: graph.inputs, filterGraph: graph.filterGraph, outputOptions, output }),
    subject: sourcesOf(plan),
    signal,
    onFrames: run.onFrames,
    guard: (pid) => paint.guard(pid),
    feed: fed ? (stdin) => paint.paint(layerOrder(plan, film, run.pixels), (bytes) => write(stdin, bytes)) : undefined,
  });
  if (frames !== run.frames) {
    throw new Failure("frames-missing", { frames, of: run.frames, subject: sourcesOf(plan) });
  }
}

function sourcesOf(plan: PartPlan): FfmpegSubject {
  const names = plan.pieces.flatMap(({ source }) => {
    if (source.kind === "pair")
      return source.pair.footage.flatMap((side) => (side === null ? [] : [side.clip.fileName]));
    return source.kind === "shot" ? [source.clip.fileName] : [];
  });
  return names.length === 0 ? { kind: "card" } : { kind: "files", names: [...new Set(names)] };
}

/** What is painted over the part's pictures as they run. */
function layerOrder(plan: PartPlan, film: Film, pixels: PixelLayout): PaintOrder {
  const pair = pairOf(plan);
  if (pair !== null) {
    const pictures = pair.pictures.map(({ frame, ...at }) => ({ timeUs: pictureTimeUs(frame, film.frameRate), ...at }));
    return { kind: "pair", card: pair.card, pictures, pixels };
  }
  const panels: readonly PanelPicture[] =
    plan.panels.length > 0 ? plan.panels : [{ frame: 0, shown: null, opacity: 0 }];
  return {
    kind: "panels",
    pixels,
    pictures: panels.map(({ frame, shown, opacity }) => ({
      timeUs: pictureTimeUs(frame, film.frameRate),
      shown,
      opacity,
    })),
  };
}

/** The part's graph, with cards and drawings painted into files beside it. @param sound of slowed shots; null: no sound at all */
export async function preparedGraph(
  job: Pick<PartJob, "film" | "plan" | "layout" | "fit" | "paint">,
  scratch: ScratchFiles,
  sound: SlowSound | null,
  tools: Tools,
): Promise<PartGraph> {
  const { film, plan, layout } = job;
  const pieces: GraphPiece[] = [];
  for (const [k, planned] of plan.pieces.entries()) {
    const { source } = planned;
    const comment =
      planned.comment === null
        ? null
        : { ...planned.comment, gainDb: sound !== null ? await speechGainDb(planned.comment.path, tools) : 0 };
    if (source.kind === "shot") {
      pieces.push({ ...planned, source, comment });
      continue;
    }
    if (source.kind === "pair") {
      const groundPath = scratch.name(`ground${k}.yuv`);
      const { card, footage } = source.pair;
      await paintToFile(job, { kind: "card", card }, groundPath);
      const places = pairPlaces(card, job).sides;
      const sides = footage.map((half, which) => half && { ...half, rect: places[which]!.rect });
      pieces.push({ ...planned, source: { kind: "pair", groundPath, sides }, comment });
      continue;
    }
    const picturePath = scratch.name(`card${k}.yuv`);
    await paintToFile(job, { kind: "card", card: source.card }, picturePath);
    pieces.push({ ...planned, source: { kind: "card", picturePath }, comment });
  }
  const drawn = drawingPictures(film, plan.part);
  const drawings = drawn.length === 0 ? null : { path: scratch.name("drawings.mkv"), x: 0, y: 0 };
  if (drawings !== null) await paintToFile(job, { kind: "drawings", pictures: drawn }, drawings.path);
  const pair = pairOf(plan);
  const band = pair === null ? layout.band : pairPlaces(pair.card, job).layer;
  const panels = pair === null && plan.panels.length === 0 ? null : { x: band.x, y: band.y };
  return partGraph({
    part: plan.part,
    film,
    pieces,
    fit: job.fit,
    margin: layout.theme.margin,
    panels,
    drawings,
    sound,
  });
}

function pairPlaces(card: PairCard, { film, layout }: Pick<PartJob, "film" | "layout">): PairLayout {
  const size = { width: film.widthPx, height: film.heightPx };
  return pairLayout(card, size, layout.theme.name, layout.options.language);
}

async function paintToFile(job: Pick<PartJob, "paint">, order: PaintOrder, path: string): Promise<void> {
  const file = createWriteStream(path, { flags: "wx" });
  try {
    await job.paint.paint(order, (bytes) => write(file, bytes));
    file.end();
    await once(file, "close");
  } finally {
    file.destroy();
  }
}

/** Waits where the taker is slower. */
async function write(to: Writable, bytes: Uint8Array): Promise<void> {
  if (to.destroyed) throw Object.assign(new Error("The pipe was closed."), { code: "EPIPE" });
  await new Promise<void>((resolve, reject) => {
    to.write(bytes, (error) => (error ? reject(error) : resolve()));
  });
}

/** Files for a while beside another; all are removed together. */
export interface ScratchFiles {
  name(suffix: string): string;
  remove(): Promise<void>;
}

/** @param path what the files' names begin with */
export function scratchFiles(path: string): ScratchFiles {
  const names = new Set<string>();
  return {
    name(suffix) {
      const name = `${path}.${suffix}`;
      names.add(name);
      return name;
    },
    async remove() {
      for (const name of names) await rm(name, { force: true });
    },
  };
}
