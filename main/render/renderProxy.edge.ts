import { mkdir } from "node:fs/promises";
import { dirname } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import type { Tools } from "../contract/tools.ts";
import { ffmpegArguments } from "../host/ffmpegArguments.edge.ts";
import { makeAtomic } from "../host/writeAtomic.edge.ts";
import { pictureFilters } from "./pictureFilters.ts";
import { runFfmpeg } from "./runFfmpeg.edge.ts";

/** Lines of a proxy, along the short side: enough to judge a rider by, light enough to step through. */
const PROXY_LINES = 540;
/** Ticks a second of a proxy's picture. */
const PROXY_TIMESCALE = 90_000;

export interface ProxyOrder {
  readonly clip: Clip;
  /** Index of the first frame, and how many. */
  readonly firstFrame: number;
  readonly frames: number;
  readonly outPath: string;
  readonly signal: AbortSignal;
  readonly onFrames: (frames: number) => void;
}

/**
 * A small picture of a run of frames in which every frame is a keyframe, so that any of them is shown at once. Its time
 * 0 is the presentation time of `firstFrame`; the frames keep their own intervals. The file is there only when it is whole.
 *
 * @throws Cancelled, or Failure as `runFfmpeg`; `tool-failed` where frames are missing
 */
export async function renderProxy(order: ProxyOrder, tools: Tools): Promise<void> {
  const { clip, firstFrame, frames, outPath } = order;
  await mkdir(dirname(outPath), { recursive: true, mode: 0o700 });
  await makeAtomic(outPath, async (unfinished) => {
    const written = await runFfmpeg({
      ffmpeg: tools.ffmpeg,
      args: proxyArguments(order, unfinished),
      subject: { kind: "files", names: [clip.fileName] },
      signal: order.signal,
      onFrames: order.onFrames,
    });
    if (written !== frames) {
      throw new Failure("small-picture-frames-missing", {
        frames: written,
        of: frames,
        fileName: clip.fileName,
        fromFrame: firstFrame,
      });
    }
  });
}

function proxyArguments({ clip, firstFrame, frames }: ProxyOrder, output: string): string[] {
  const { ticks, timescale, endTicks } = clip.frames;
  const at = (frame: number): number => (frame < ticks.length ? ticks[frame]! : endTicks) / timescale;
  const startS = at(firstFrame);
  // Half-way before the first frame, so that no rounding can miss it.
  const seekS = firstFrame === 0 ? startS - (at(1) - startS) / 2 : (at(firstFrame - 1) + startS) / 2;
  const lengthS = at(firstFrame + frames) - startS;
  const picture = [...pictureFilters(clip, proxySize(clip), "pad"), "setpts=PTS-STARTPTS"].join(",");
  const sound =
    clip.audio === null
      ? ["-an"]
      : ["-map", "0:a:0", "-af", `asetpts=PTS-STARTPTS,atrim=end=${lengthS.toFixed(6)}`, "-c:a", "aac", "-b:a", "96k"];
  const seek = ["-seek_timestamp", "1", "-ss", seekS.toFixed(6), "-t", (lengthS + 1).toFixed(6)];
  return ffmpegArguments({
    inputs: [{ source: clip.path, options: seek }],
    filterGraph: null,
    outputOptions: [
      ...["-map", "0:v:0", "-vf", picture, ...sound, "-frames:v", String(frames), "-fps_mode", "passthrough"],
      ...["-enc_time_base", `1/${PROXY_TIMESCALE}`, "-video_track_timescale", String(PROXY_TIMESCALE)],
      ...["-c:v", "libx264", "-preset", "ultrafast", "-g", "1", "-bf", "0", "-crf", "24", "-pix_fmt", "yuv420p"],
      ...["-map_metadata", "-1", "-movflags", "+faststart", "-f", "mp4"],
    ],
    output,
  });
}

function proxySize(clip: Clip): { widthPx: number; heightPx: number } {
  const scale = Math.min(1, PROXY_LINES / Math.min(clip.widthPx, clip.heightPx));
  const even = (px: number): number => Math.max(2, 2 * Math.round((px * scale) / 2));
  return { widthPx: even(clip.widthPx), heightPx: even(clip.heightPx) };
}
