import { Failure } from "../../contract/failure.ts";
import type { Clip } from "../../contract/footage.ts";
import type { JobContext } from "../../contract/job.ts";
import { SIGNAL_STEP_S, type ClipSignals } from "../../contract/signals.ts";
import type { Tools } from "../../contract/tools.ts";
import { runTool, type ToolResult } from "../runTool.edge.ts";
import { GREY_HEIGHT, GREY_WIDTH, PictureSignals } from "./pictureSignals.ts";
import { SOUND_RATE_HZ, SoundSignal } from "./soundSignal.ts";

/** Pictures a second when all are decoded: enough to follow a turn. */
const FULL_RATE = 10;
/** Keyframes must come at least this often to show stop and go, s. */
const KEYFRAME_LIMIT_S = 1.1;

export interface SignalOptions {
  readonly signal?: AbortSignal;
  /** Decode every picture, for turning; else keyframes where they come often enough. */
  readonly turning: boolean;
  readonly report?: JobContext["report"];
}

function check(result: ToolResult, what: string, clip: Clip): void {
  if (result.trouble === "missing") {
    throw new Failure("tool-missing", "ffmpeg could not be started.", "Run `npm run setup`, which finds or installs it.");
  }
  if (result.trouble === "hung") {
    throw new Failure("tool-hung", `ffmpeg gave nothing for 30 s while reading the ${what} of ${clip.fileName}.`, "Copy the clip to a local disk, or set an anchor.");
  }
}

/** Cuts a stream of bytes into pieces of one length. */
function inPieces(length: number, use: (piece: Buffer) => void): (chunk: Buffer) => void {
  let rest = Buffer.alloc(0);
  return (chunk) => {
    let data = rest.length > 0 ? Buffer.concat([rest, chunk]) : chunk;
    while (data.length >= length) {
      use(data.subarray(0, length));
      data = data.subarray(length);
    }
    rest = Buffer.from(data);
  };
}

async function readPictures(clip: Clip, count: number, tools: Tools, options: SignalOptions): Promise<PictureSignals> {
  const { frames } = clip;
  const atS = (frame: number) => frames.ticks[frame] / frames.timescale;
  const keys = frames.keyframes;
  const gaps = Array.from(keys.subarray(1), (key, k) => atS(key) - atS(keys[k])).sort((a, b) => a - b);
  const gapS = gaps[gaps.length >> 1] ?? Infinity;
  const byKeys = !options.turning && gapS <= KEYFRAME_LIMIT_S;
  const signals = new PictureSignals(count, byKeys ? gapS : 1 / FULL_RATE);
  const size = `scale=${GREY_WIDTH}:${GREY_HEIGHT}:flags=area,format=gray`;
  const before = byKeys ? ["-discard", "nokey"] : [];
  // In order of presentation; the filter's clock starts at the first frame.
  const filter = byKeys ? size : `fps=${FULL_RATE},${size}`;
  let k = 0;
  const take = inPieces(GREY_WIDTH * GREY_HEIGHT, (piece) => {
    const time = byKeys ? (k < keys.length ? atS(keys[k]) : NaN) : atS(0) + k / FULL_RATE;
    k++;
    if (Number.isFinite(time)) signals.add(time, Uint8Array.from(piece));
    if (k % 20 === 0) options.report?.({ done: Math.min(1, time / clip.durationS), leftS: null, step: `looking at ${clip.fileName}` });
  });
  const args = ["-nostdin", "-v", "error", "-threads", "2", ...before, "-i", `file:${clip.path}`, "-map", "0:v:0", "-an", "-sn", "-dn",
    "-vf", filter, "-fps_mode", byKeys ? "passthrough" : "cfr", "-f", "rawvideo", "-"];
  check(await runTool(tools.ffmpeg, args, { signal: options.signal, onData: take }), "picture", clip);
  return signals;
}

async function readSound(clip: Clip, count: number, tools: Tools, options: SignalOptions): Promise<Float64Array | null> {
  if (!clip.audio) return null;
  const sound = new SoundSignal();
  const take = inPieces(2 * 400, (piece) => {
    const samples = new Int16Array(piece.length / 2);
    for (let k = 0; k < samples.length; k++) samples[k] = piece.readInt16LE(2 * k);
    sound.add(samples);
  });
  // first_pts=0 puts silence before a sound that begins late, so that sample 0 is media time 0.
  const args = ["-nostdin", "-v", "error", "-i", `file:${clip.path}`, "-map", "0:a:0", "-vn", "-sn", "-dn", "-ac", "1",
    "-af", `aresample=${SOUND_RATE_HZ}:async=1:first_pts=0`, "-f", "s16le", "-"];
  check(await runTool(tools.ffmpeg, args, { signal: options.signal, onData: take }), "sound", clip);
  return sound.series(count);
}

/**
 * What can be seen and heard of a clip's motion: stop and go, loudness of wind and tyres, turning. Damaged parts are
 * left out. Throws a `Failure` when ffmpeg is missing or hangs.
 */
export async function readSignals(clip: Clip, tools: Tools, options: SignalOptions): Promise<ClipSignals> {
  const count = Math.ceil(clip.durationS / SIGNAL_STEP_S);
  const [pictures, sound] = await Promise.all([readPictures(clip, count, tools, options), readSound(clip, count, tools, options)]);
  const warnings: string[] = [];
  if (pictures.frozen()) warnings.push(`The picture of ${clip.fileName} stands still throughout: it shows no motion to line up by.`);
  if (!sound) warnings.push(`${clip.fileName} has no sound to line up by.`);
  return {
    clipId: clip.id,
    count,
    motion: pictures.frozen() ? null : pictures.motion(),
    sound: sound && pictures.withoutPassing(sound),
    turning: pictures.frozen() ? null : pictures.turning(),
    bytesRead: null,
    warnings,
  };
}
