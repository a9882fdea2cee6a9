import { createWriteStream } from "node:fs";
import { rename, rm } from "node:fs/promises";
import { once } from "node:events";
import { basename } from "node:path";
import type { Writable } from "node:stream";
import { Failure } from "../contract/failure.ts";
import type { Film } from "../contract/film.ts";
import type { Tools } from "../contract/tools.ts";
import type { Layout } from "../../overlay/layout/layout.ts";
import { noMetadata, pictureTags, type Encoding } from "./encoding.ts";
import { ffmpegArguments } from "./ffmpegArguments.edge.ts";
import type { PaintClient } from "./paintClient.edge.ts";
import type { PaintOrder } from "./paintMessages.ts";
import { partGraph, type GraphPiece, type PartGraph } from "./partGraph.ts";
import { drawingPictures } from "./drawingPictures.ts";
import { pictureTimeUs } from "./panelPictures.ts";
import type { PartPlan } from "./planFilm.ts";
import { runFfmpeg } from "./runFfmpeg.edge.ts";

export interface PartJob {
  readonly film: Film;
  readonly plan: PartPlan;
  readonly layout: Layout;
  readonly fit: "pad" | "crop";
  readonly encoding: Encoding;
  readonly paint: PaintClient;
  readonly signal: AbortSignal;
  readonly onFrames: (frames: number) => void;
}

/** Renders one part to `path`, which is there only when all its frames are. */
export async function renderPart(job: PartJob, path: string, tools: Tools): Promise<void> {
  const { film, plan } = job;
  const unfinished = `${path}.part`;
  const scratch = scratchFiles(path);
  try {
    const graph = await preparedGraph(job, scratch, true);
    const output = [
      ...["-map", `[${graph.videoLabel}]`, "-map", `[${graph.audioLabel ?? ""}]`],
      ...["-frames:v", String(plan.part.frames)],
      ...job.encoding.options,
      ...pictureTags(film.frameRate),
      ...["-c:a", "pcm_s16le", ...noMetadata, "-f", "mov"],
    ];
    let passes: readonly { readonly options: readonly string[]; readonly output: string }[] = [{ options: output, output: unfinished }];
    if (job.encoding.twoPassKbps !== null) {
      const log = scratch.name("passlog");
      const first = [
        ...["-map", `[${graph.videoLabel}]`, "-frames:v", String(plan.part.frames)],
        ...job.encoding.options,
        ...pictureTags(film.frameRate),
        ...["-pass", "1", "-passlogfile", log, "-f", "null"],
      ];
      passes = [
        { options: first, output: "-" },
        { options: [...output, "-pass", "2", "-passlogfile", log], output: unfinished },
      ];
    }
    for (const [k, pass] of passes.entries()) {
      const silentGraph = k < passes.length - 1 ? await preparedGraph(job, scratch, false) : graph;
      await runGraph(job, silentGraph, pass.options, pass.output, tools, (frames) => {
        job.onFrames((k * plan.part.frames + frames) / passes.length);
      });
    }
    await rename(unfinished, path);
  } finally {
    await scratch.remove();
    await rm(unfinished, { force: true });
  }
}

/** Runs a graph to its end and counts its frames. */
export async function runGraph(
  job: PartJob,
  graph: PartGraph,
  outputOptions: readonly string[],
  output: string,
  tools: Tools,
  onFrames: (frames: number) => void,
): Promise<void> {
  const { plan, film } = job;
  const subject = output === "-" ? "the film" : basename(output);
  const frames = await runFfmpeg({
    ffmpeg: tools.ffmpeg,
    args: ffmpegArguments({ inputs: graph.inputs, filterGraph: graph.filterGraph, outputOptions, output }),
    subject,
    signal: job.signal,
    onFrames,
    feed: plan.panels.length === 0 ? undefined : (stdin) => job.paint.paint(panelOrder(plan, film), (bytes) => write(stdin, bytes)),
  });
  if (frames !== plan.part.frames) {
    throw new Failure(
      "tool-failed",
      `ffmpeg wrote ${frames} of ${plan.part.frames} frames of ${sourcesOf(job)}.`,
      "Check that the clip plays to its end; then run it again.",
    );
  }
}

function sourcesOf(job: PartJob): string {
  const names = job.plan.pieces.flatMap((piece) => (piece.source.kind === "shot" ? [piece.source.clip.fileName] : []));
  return names.length === 0 ? "a card" : [...new Set(names)].join(", ");
}

function panelOrder(plan: PartPlan, film: Film): PaintOrder {
  return {
    kind: "panels",
    pixels: "yuva420p",
    pictures: plan.panels.map(({ frame, shown, opacity }) => ({ timeUs: pictureTimeUs(frame, film.frameRate), shown, opacity })),
  };
}

/** The part's graph, with cards and drawings painted into files beside it. */
async function preparedGraph(job: PartJob, scratch: ScratchFiles, sound: boolean): Promise<PartGraph> {
  const { film, plan, layout } = job;
  const pieces: GraphPiece[] = [];
  for (const [k, planned] of plan.pieces.entries()) {
    const { source } = planned;
    if (source.kind === "shot") {
      pieces.push({ ...planned, source });
      continue;
    }
    const picturePath = scratch.name(`card${k}.yuv`);
    await paintToFile(job, { kind: "card", card: source.card }, picturePath);
    pieces.push({ ...planned, source: { kind: "card", picturePath } });
  }
  const drawn = drawingPictures(film, plan.part);
  const drawings = drawn.length === 0 ? null : { path: scratch.name("drawings.mkv"), x: 0, y: 0 };
  if (drawings !== null) await paintToFile(job, { kind: "drawings", pictures: drawn }, drawings.path);
  const panels = plan.panels.length === 0 ? null : { x: layout.band.x, y: layout.band.y };
  return partGraph({ part: plan.part, film, pieces, fit: job.fit, panels, drawings, sound });
}

async function paintToFile(job: PartJob, order: PaintOrder, path: string): Promise<void> {
  const file = createWriteStream(path);
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

interface ScratchFiles {
  name(suffix: string): string;
  remove(): Promise<void>;
}

function scratchFiles(path: string): ScratchFiles {
  const names = new Set<string>();
  return {
    name(suffix) {
      const name = `${path}.${suffix}`;
      names.add(name);
      return name;
    },
    async remove() {
      for (const name of names) {
        for (const made of [name, `${name}-0.log`, `${name}-0.log.mbtree`, `${name}-0.log.cutree`]) await rm(made, { force: true });
      }
    },
  };
}
