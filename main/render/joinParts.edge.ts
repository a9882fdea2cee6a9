import { writeFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Rational } from "../contract/footage.ts";
import type { Tools } from "../contract/tools.ts";
import { noMetadata, trackTimescale } from "./encoding.ts";
import { ffmpegArguments } from "../host/ffmpegArguments.edge.ts";
import { unfinishedName } from "../host/leftovers.edge.ts";
import { makeAtomic } from "../host/writeAtomic.edge.ts";
import { LOUDNESS_LUFS, gainFilter, isHeard, masterFilters, overLimitDb } from "./loudness.ts";
import { measureLoudness } from "./measureLoudness.edge.ts";
import { scratchFiles } from "./renderPart.edge.ts";
import { runFfmpeg } from "./runFfmpeg.edge.ts";

export interface Chapter {
  readonly startS: number;
  readonly endS: number;
  readonly title: string;
}

const CONCAT = ["-f", "concat", "-safe", "0"];

export interface JoinJob {
  /** Folder of the parts, and their file names and lengths in order. */
  readonly folder: string;
  readonly parts: readonly { readonly name: string; readonly frames: number }[];
  readonly frameRate: Rational;
  readonly frames: number;
  /** Null: no sound. */
  readonly audioKbps: number | null;
  /** Bring the sound to the loudness of films (EBU R 128), or leave it as recorded. */
  readonly loudness: "film" | "as recorded";
  readonly container: "mp4" | "mov";
  readonly chapters: readonly Chapter[];
  readonly outPath: string;
  readonly signal: AbortSignal;
  /** Frames joined so far. */
  readonly onFrames?: (frames: number) => void;
}

/** Joins parts into a film: pictures copied, sound encoded once over all. The film is there only when it is whole. */
export async function joinParts(job: JoinJob, tools: Tools): Promise<void> {
  const scratch = scratchFiles(unfinishedName(join(job.folder, job.parts[0]!.name)));
  const list = scratch.name("list");
  const chapters = scratch.name("chapters");
  try {
    await writeFile(list, partList(job), { flag: "wx" });
    const inputs = [{ source: list, options: CONCAT }];
    const master = job.audioKbps === null || job.loudness === "as recorded" ? null : await masterOf(list, job, tools);
    const withChapters = job.chapters.length > 0;
    if (withChapters) {
      await writeFile(chapters, chapterFile(job.chapters), { flag: "wx" });
      inputs.push({ source: chapters, options: ["-f", "ffmetadata"] });
    }
    await makeAtomic(job.outPath, async (unfinished) => {
      const frames = await runFfmpeg({
        ffmpeg: tools.ffmpeg,
        args: ffmpegArguments({
          inputs,
          filterGraph: null,
          outputOptions: outputOptions(job, withChapters, master),
          output: unfinished,
        }),
        subject: { kind: "files", names: [basename(job.outPath)] },
        signal: job.signal,
        onFrames: job.onFrames,
      });
      if (frames !== job.frames) {
        throw new Failure("frames-not-joined", { frames, of: job.frames, fileName: basename(job.outPath) });
      }
    });
  } finally {
    await scratch.remove();
  }
}

/** Less than this off the films' loudness is left so, dB. */
const HEARD_DB = 0.2;

/** The chain that brings the joined sound to the loudness of films; null where there is none to speak of. */
async function masterOf(list: string, job: JoinJob, tools: Tools): Promise<string | null> {
  const raw = await measureLoudness(list, CONCAT, null, tools, job.signal);
  if (raw.integratedLufs === null || !isHeard(raw)) return null;
  let gainDb = LOUDNESS_LUFS - raw.integratedLufs;
  const overDb = overLimitDb(raw, gainDb);
  if (overDb <= 0) return gainFilter(gainDb);
  // Where the limiter takes peaks away it takes loudness too, though never more than the peaks stand over its limit:
  // that is measured and given back, in two steps at most.
  for (let step = 0; step < 2 && overDb >= HEARD_DB; step += 1) {
    const { integratedLufs } = await measureLoudness(list, CONCAT, masterFilters(gainDb), tools, job.signal);
    const shortDb = LOUDNESS_LUFS - (integratedLufs ?? LOUDNESS_LUFS);
    if (Math.abs(shortDb) < HEARD_DB) break;
    gainDb += shortDb;
  }
  return masterFilters(gainDb);
}

/** Lengths are said, since the container's own may be the sound's, which ends up to one packet later. */
function partList({ parts, frameRate }: JoinJob): string {
  const lines = parts.flatMap(({ name, frames }) => [
    `file '${name}'`,
    `duration ${((frames * frameRate.den) / frameRate.num).toFixed(6)}`,
  ]);
  return ["ffconcat version 1.0", ...lines, ""].join("\n");
}

function outputOptions(job: JoinJob, withChapters: boolean, master: string | null): string[] {
  const metadata = withChapters ? [...noMetadata.slice(0, -1), "1"] : noMetadata;
  return [
    ...["-map", "0:v", "-c:v", "copy", ...onGrid(job.frameRate)],
    ...(job.audioKbps === null
      ? []
      : ["-map", "0:a", ...(master === null ? [] : ["-af", master]), "-c:a", "aac", "-b:a", `${job.audioKbps}k`]),
    ...metadata,
    ...["-movflags", "+faststart", "-f", job.container],
  ];
}

/** The joiner reckons in microseconds: each time is put back on the film's own grid. */
function onGrid(rate: Rational): string[] {
  const timescale = trackTimescale(rate);
  const ticks = (timescale / rate.num) * rate.den;
  const put = (name: string): string => `round(${name}/${ticks})*${ticks}`;
  return ["-bsf:v", `setts=pts=${put("PTS")}:dts=${put("DTS")}`, "-video_track_timescale", String(timescale)];
}

/** Chapters as ffmpeg reads them (its "ffmetadata"), whatever their titles hold. */
export function chapterFile(chapters: readonly Chapter[]): string {
  // ffmpeg's reader ends a line at any line break and a title at a zero, and takes one after a backslash for escaped, be that one escaped too.
  const safe = (title: string): string =>
    title
      .replace(/\0/g, "")
      .replace(/[\r\n]+/g, " ")
      .replace(/[=;#\\]/g, (letter) => `\\${letter}`)
      .replace(/\\$/, "\\ ");
  const entries = chapters.map(({ startS, endS, title }) =>
    [
      "[CHAPTER]",
      "TIMEBASE=1/1000",
      `START=${Math.round(startS * 1000)}`,
      `END=${Math.round(endS * 1000)}`,
      `title=${safe(title)}`,
    ].join("\n"),
  );
  return [";FFMETADATA1", ...entries, ""].join("\n");
}
