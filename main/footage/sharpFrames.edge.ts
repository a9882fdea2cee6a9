import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import { Cancelled } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";
import { ffmpegArguments } from "../host/ffmpegArguments.edge.ts";
import { runProgram } from "../host/program.edge.ts";
import { sharpestFrames, sharpness, type SharpFrame } from "./sharpness.ts";

/** Frames up to this far from the instant asked for are looked at, s. */
const REACH_S = 2;
/** Offered, and how far apart, s. */
const OFFERED = 5;
const APART_S = 0.25;
/** Width in which sharpness is told, px: a blur that hides a clock's digits is several of these wide. */
const LOOK_WIDTH_PX = 640;

function timeOf({ frames }: Clip, frame: number): number {
  return frames.ticks[frame]! / frames.timescale;
}

/** Decodes `count` frames from `first` on; `filter` and `output` say how they come out. */
async function decode(
  clip: Clip,
  first: number,
  count: number,
  output: { readonly filter: string; readonly options: readonly string[]; readonly take: (chunk: Buffer) => void },
  tools: Tools,
  signal: AbortSignal,
): Promise<void> {
  // From between two frames, so that no rounding decides with which it begins.
  const before = first === 0 ? null : (timeOf(clip, first - 1) + timeOf(clip, first)) / 2;
  const result = await runProgram({
    program: tools.ffmpeg,
    args: ffmpegArguments({
      inputs: [{ source: clip.path, options: before === null ? [] : ["-ss", before.toFixed(6)] }],
      filterGraph: null,
      outputOptions: [
        ...["-map", "0:v:0", "-an", "-sn", "-dn", "-vf", output.filter, "-frames:v", String(count)],
        ...["-fps_mode", "passthrough", ...output.options],
      ],
      output: "-",
      log: "error",
    }),
    signal,
    onOutput: output.take,
  });
  if (result.trouble === "cancelled") throw new Cancelled();
  if (result.trouble === "not started") {
    throw new Failure("tool-not-started", { tool: "ffmpeg", program: tools.ffmpeg }, result.notStarted);
  }
  if (result.trouble === "hung") throw new Failure("clip-reading-silent", { fileName: clip.fileName, what: "picture" });
}

/**
 * The sharpest frames of a clip within 2 s of an instant, s of media time: where a clock in the picture is read best. In the
 * order of the clip; empty where nothing can be decoded. Throws Cancelled, and a `Failure` when ffmpeg is missing or hangs.
 */
export async function sharpFrames(
  clip: Clip,
  aboutS: number,
  tools: Tools,
  signal: AbortSignal,
): Promise<SharpFrame[]> {
  const { ticks, timescale } = clip.frames;
  const first = Math.max(
    0,
    ticks.findIndex((tick) => tick / timescale >= aboutS - REACH_S),
  );
  const end = ticks.findIndex((tick) => tick / timescale > aboutS + REACH_S);
  const count = (end < 0 ? ticks.length : end) - first;
  const widthPx = Math.min(LOOK_WIDTH_PX, clip.widthPx);
  const heightPx = Math.max(1, Math.round((clip.heightPx * widthPx) / clip.widthPx));
  const seen: SharpFrame[] = [];
  let rest = Buffer.alloc(0);
  const take = (chunk: Buffer): void => {
    rest = Buffer.concat([rest, chunk]);
    for (; rest.length >= widthPx * heightPx; rest = rest.subarray(widthPx * heightPx)) {
      const frame = first + seen.length;
      const grey = rest.subarray(0, widthPx * heightPx);
      seen.push({ frame, mediaS: timeOf(clip, frame), sharpness: sharpness(grey, widthPx, heightPx) });
    }
  };
  const filter = `scale=${widthPx}:${heightPx}:flags=area,format=gray`;
  await decode(clip, first, count, { filter, options: ["-f", "rawvideo"], take }, tools, signal);
  return sharpestFrames(seen.slice(0, count), OFFERED, APART_S).sort((a, b) => a.frame - b.frame);
}

/** One frame as PNG, in the size in which the clip is shown; null where it cannot be decoded. Failures as `sharpFrames`. */
export async function framePicture(
  clip: Clip,
  frame: number,
  tools: Tools,
  signal: AbortSignal,
): Promise<Uint8Array | null> {
  const chunks: Buffer[] = [];
  const filter = `scale=${clip.widthPx}:${clip.heightPx},setsar=1`;
  const options = ["-c:v", "png", "-f", "image2pipe"];
  await decode(clip, frame, 1, { filter, options, take: (chunk) => chunks.push(chunk) }, tools, signal);
  return chunks.length === 0 ? null : Buffer.concat(chunks);
}
