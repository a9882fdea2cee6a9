import { mkdir, readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Clip } from "../contract/footage.ts";
import type { JobContext } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";
import { ffmpegArguments } from "../host/ffmpegArguments.edge.ts";
import { runFfmpeg } from "./runFfmpeg.edge.ts";

const PICTURE_WIDTH_PX = 160;
/** Stands in the folder once all its pictures do. */
const WHOLE_FILE = "whole";

/** Seconds from one small picture of a clip to the next: some 120 of them for a short clip, never more than 720. */
export function filmstripStepS(durationS: number): number {
  return [1, 2, 5, 10, 20, 30].find((stepS) => durationS / stepS <= 360) ?? Math.ceil(durationS / 720);
}

/** How many pictures a whole strip has. */
export function filmstripCount(durationS: number): number {
  return Math.max(1, Math.ceil(durationS / filmstripStepS(durationS)));
}

/**
 * Small JPEG pictures of a clip, `0.jpg`, `1.jpg` …, one each `filmstripStepS`: picture n shows the last keyframe at or
 * before its time. Only keyframes are decoded, where there are enough of them. `onPicture` hears how many are there.
 *
 * @throws Cancelled, or Failure as `runFfmpeg`
 */
export async function renderFilmstrip(
  clip: Clip,
  folder: string,
  tools: Tools,
  context: JobContext,
  onPicture: (count: number) => void,
): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const stepS = filmstripStepS(clip.durationS);
  const count = filmstripCount(clip.durationS);
  const { keyframes } = clip.frames;
  const dense = keyframes.length > 1 && clip.durationS / keyframes.length <= stepS;
  const picture = `fps=1/${stepS}:start_time=0:round=up,scale=${PICTURE_WIDTH_PX}:-2,format=yuvj420p`;
  await runFfmpeg({
    ffmpeg: tools.ffmpeg,
    args: ffmpegArguments({
      inputs: [{ source: clip.path, options: dense ? ["-skip_frame", "nokey"] : [] }],
      filterGraph: null,
      outputOptions: [
        ...["-map", "0:v:0", "-an", "-vf", picture, "-frames:v", String(count), "-q:v", "6"],
        ...["-map_metadata", "-1", "-start_number", "0", "-f", "image2"],
      ],
      output: join(folder.replaceAll("%", "%%"), "%d.jpg"),
    }),
    subject: { kind: "files", names: [clip.fileName] },
    signal: context.signal,
    onFrames(made) {
      // The picture being written is not whole yet.
      onPicture(Math.max(0, made - 1));
      context.report({ done: Math.min(1, made / count), leftS: null, step: { what: "file", name: clip.fileName } });
    },
  });
  const pictures = (await readdir(folder)).filter((name) => name.endsWith(".jpg")).length;
  await writeFile(join(folder, WHOLE_FILE), "");
  onPicture(pictures);
}

/** How many small pictures a folder holds; null where they were never finished. */
export async function filmstripThere(folder: string): Promise<number | null> {
  const names = await readdir(folder).catch((): string[] => []);
  return names.includes(WHOLE_FILE) ? names.filter((name) => name.endsWith(".jpg")).length : null;
}
