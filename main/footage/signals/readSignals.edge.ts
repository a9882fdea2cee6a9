import { pipeline } from "node:stream/promises";
import { Failure } from "../../contract/failure.ts";
import type { Clip } from "../../contract/footage.ts";
import type { JobContext } from "../../contract/job.ts";
import { SIGNAL_STEP_S, type ClipSignals, type SignalsLack } from "../../contract/signals.ts";
import type { Tools } from "../../contract/tools.ts";
import { ffmpegArguments } from "../../host/ffmpegArguments.edge.ts";
import { runProgram, type ProgramResult } from "../../host/program.edge.ts";
import { fileSource } from "../mp4/fileSource.edge.ts";
import { frameTimes } from "../mp4/frameTimes.ts";
import { sampleOffsets, samplesPresent } from "../mp4/sampleOffsets.ts";
import { readMovie } from "../probeClip.edge.ts";
import { GREY_HEIGHT, GREY_WIDTH, PictureSignals } from "./pictureSignals.ts";
import { streamForm, streamPicture } from "./keyframeStream.ts";
import { SOUND_RATE_HZ, SoundSignal } from "./soundSignal.ts";
import { turningSpans } from "./turningSpans.ts";

/** Pictures a second where all are decoded: enough to follow a turn. */
const FULL_RATE = 10;
/** Keyframes must come at least this often to show stop and go, s. */
const KEYFRAME_LIMIT_S = 1.1;
/** Of closer ones about one a second is enough, s. */
const LEAST_APART_S = 0.9;

export interface SignalOptions {
  /** The camera's own sensors tell how it turns: of a long clip no picture is decoded for that, only keyframes for stop and go. */
  readonly turningFelt: boolean;
  readonly signal?: AbortSignal;
  readonly report?: JobContext["report"];
}

function check(result: ProgramResult, what: "picture" | "sound", clip: Clip, ffmpeg: string): void {
  if (result.trouble === "not started") {
    throw new Failure("tool-not-started", { tool: "ffmpeg", program: ffmpeg }, result.notStarted);
  }
  if (result.trouble === "hung") {
    throw new Failure("clip-reading-silent", { fileName: clip.fileName, what });
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

/** Bytes that ffmpeg read of its input, by its own count (printed when the file is closed). */
function bytesOf(result: ProgramResult): number {
  return [...result.stderr.matchAll(/Statistics: (\d+) bytes read/g)].reduce((sum, match) => sum + Number(match[1]), 0);
}

const SIZE = `scale=${GREY_WIDTH}:${GREY_HEIGHT}:flags=area,format=gray`;

interface Look {
  readonly clip: Clip;
  readonly count: number;
  readonly tools: Tools;
  readonly turningFelt: boolean;
  readonly signal: AbortSignal | undefined;
  /** Told the media time reached. */
  readonly reached: (atS: number) => void;
}

/** What was seen, and the bytes read for it. */
interface Looked {
  readonly signals: PictureSignals;
  readonly bytes: number;
}

/** Hands on grey pictures with their media times; gives the bytes read. */
async function look(
  { clip, tools, signal, reached }: Look,
  before: readonly string[],
  filter: string,
  mode: string,
  timeOf: (k: number) => number,
  signals: PictureSignals,
): Promise<number> {
  let k = 0;
  const take = inPieces(GREY_WIDTH * GREY_HEIGHT, (piece) => {
    const time = timeOf(k++);
    if (Number.isFinite(time)) signals.add(time, Uint8Array.from(piece));
    if (k % 20 === 0) reached(time);
  });
  const args = ffmpegArguments({
    inputs: [{ source: clip.path, options: ["-threads", "2", ...before] }],
    filterGraph: null,
    outputOptions: [...["-map", "0:v:0", "-an", "-sn", "-dn", "-vf", filter], ...["-fps_mode", mode, "-f", "rawvideo"]],
    output: "-",
    log: "verbose",
  });
  const result = await runProgram({ program: tools.ffmpeg, args, signal, onOutput: take });
  check(result, "picture", clip, tools.ffmpeg);
  return bytesOf(result);
}

/** Frames of the keyframes that are looked at: no two closer than `LEAST_APART_S`. */
function sparseKeyframes({ frames }: Clip): number[] {
  const chosen: number[] = [];
  let lastS = -Infinity;
  for (const key of frames.keyframes) {
    const atS = frames.ticks[key] / frames.timescale;
    if (atS - lastS < LEAST_APART_S) continue;
    chosen.push(key);
    lastS = atS;
  }
  return chosen;
}

/**
 * Keyframes alone, about one a second: stop and go at a fraction of the cost. Only their own bytes are read of the file
 * and handed to the decoder. Null when the track's coding does not allow it or pictures got lost on the way.
 */
async function lookAtSparseKeyframes(job: Look): Promise<Looked | null> {
  const { clip, count } = job;
  const chosen = sparseKeyframes(clip);
  const source = await fileSource(clip.path);
  try {
    const movie = await readMovie(source, clip.fileName);
    const track = movie.tracks
      .filter(({ handler }) => handler === "vide")
      .sort((a, b) => b.samples.count - a.samples.count)[0];
    const form = track?.entry ? streamForm(track.entry) : null;
    if (!track || !form || chosen.length < 2) return null;
    const { offsets, sizes } = sampleOffsets(track.samples);
    const { samples } = frameTimes(track, movie.timescale, samplesPresent(track.samples, source.size));
    const before = source.bytesRead();
    let given = 0;
    const pictures = async function* (): AsyncGenerator<Uint8Array> {
      yield form.head;
      for (const key of chosen) {
        if (job.signal?.aborted) return;
        const sample = samples[key];
        const picture = streamPicture(await source.read(offsets[sample], sizes[sample]), form);
        if (!picture) return;
        given++;
        yield picture;
      }
    };
    const gapS =
      (clip.frames.ticks[chosen[chosen.length - 1]] - clip.frames.ticks[chosen[0]]) /
      clip.frames.timescale /
      (chosen.length - 1);
    const signals = new PictureSignals(count, gapS);
    let shown = 0;
    const take = inPieces(GREY_WIDTH * GREY_HEIGHT, (piece) => {
      const key = chosen[shown++];
      if (key === undefined) return;
      const atS = clip.frames.ticks[key] / clip.frames.timescale;
      signals.add(atS, Uint8Array.from(piece));
      if (shown % 20 === 0) job.reached(atS);
    });
    const args = ffmpegArguments({
      inputs: [{ source: "pipe:0", options: ["-threads", "2", "-skip_loop_filter", "all", "-f", form.format] }],
      filterGraph: null,
      outputOptions: ["-vf", SIZE, "-fps_mode", "passthrough", "-f", "rawvideo"],
      output: "-",
      log: "error",
    });
    const result = await runProgram({
      program: job.tools.ffmpeg,
      args,
      signal: job.signal,
      feed: (stdin) => pipeline(pictures(), stdin, { end: false }),
      onOutput: take,
    });
    check(result, "picture", clip, job.tools.ffmpeg);
    // One picture out for each one in, or none can be told from another.
    if (!job.signal?.aborted && (given !== chosen.length || shown !== chosen.length)) return null;
    return { signals, bytes: source.bytesRead() - before };
  } finally {
    await source.close();
  }
}

/** All keyframes, found by ffmpeg itself: for what `lookAtSparseKeyframes` cannot read. */
async function lookAtKeyframes(job: Look, gapS: number): Promise<Looked> {
  const { frames } = job.clip;
  const signals = new PictureSignals(job.count, gapS);
  const timeOf = (k: number) =>
    k < frames.keyframes.length ? frames.ticks[frames.keyframes[k]] / frames.timescale : NaN;
  const bytes = await look(job, ["-discard", "nokey"], SIZE, "passthrough", timeOf, signals);
  return { signals, bytes };
}

/** Every picture of some spans, at `FULL_RATE`. */
async function lookAtAll(
  job: Look,
  spans: readonly { readonly fromS: number; readonly toS: number }[],
): Promise<Looked> {
  const { frames, durationS } = job.clip;
  const signals = new PictureSignals(job.count, 1 / FULL_RATE);
  const firstS = frames.ticks[0] / frames.timescale;
  let bytes = 0;
  for (const { fromS, toS } of spans) {
    if (job.signal?.aborted) break;
    const whole = toS - fromS >= durationS;
    // The loop filter only tidies up block edges; what is compared here is far coarser.
    const cut = whole ? [] : ["-ss", fromS.toFixed(3), "-t", (toS - fromS).toFixed(3)];
    const begin = whole ? firstS : fromS;
    bytes += await look(
      job,
      ["-skip_loop_filter", "all", ...cut],
      `fps=${FULL_RATE}:start_time=0,${SIZE}`,
      "cfr",
      (k) => begin + k / FULL_RATE,
      signals,
    );
  }
  return { signals, bytes };
}

interface Pictures {
  readonly motion: Float64Array;
  readonly turning: Float64Array | null;
  readonly frozen: boolean;
  readonly withoutPassing: (series: Float64Array) => Float64Array;
  readonly bytes: number;
}

async function readPictures(job: Look): Promise<Pictures> {
  const { frames, durationS } = job.clip;
  const atS = (frame: number) => frames.ticks[frame] / frames.timescale;
  const gaps = Array.from(frames.keyframes.subarray(1), (key, k) => atS(key) - atS(frames.keyframes[k])).sort(
    (a, b) => a - b,
  );
  const gapS = gaps[gaps.length >> 1] ?? Infinity;
  const spans = turningSpans(durationS);
  if (spans.length === 1 || gapS > KEYFRAME_LIMIT_S) {
    const { signals, bytes } = await lookAtAll(job, [{ fromS: 0, toS: durationS }]);
    return {
      motion: signals.motion(),
      turning: signals.turning(),
      frozen: signals.frozen(),
      withoutPassing: (series) => signals.withoutPassing(series),
      bytes,
    };
  }
  const keys = (await lookAtSparseKeyframes(job)) ?? (await lookAtKeyframes(job, gapS));
  if (job.turningFelt) {
    const { signals, bytes } = keys;
    const withoutPassing = (series: Float64Array) => series;
    return { motion: signals.motion(), turning: null, frozen: signals.frozen(), withoutPassing, bytes };
  }
  const windows = await lookAtAll(job, spans);
  return {
    motion: keys.signals.motion(),
    turning: windows.signals.turning(),
    frozen: keys.signals.frozen(),
    withoutPassing: (series) => windows.signals.withoutPassing(series),
    bytes: keys.bytes + windows.bytes,
  };
}

async function readSound(
  clip: Clip,
  count: number,
  tools: Tools,
  signal: AbortSignal | undefined,
): Promise<{ series: Float64Array | null; bytes: number }> {
  if (!clip.audio) return { series: null, bytes: 0 };
  const sound = new SoundSignal();
  const take = inPieces(2 * 400, (piece) => {
    const samples = new Int16Array(piece.length / 2);
    for (let k = 0; k < samples.length; k++) samples[k] = piece.readInt16LE(2 * k);
    sound.add(samples);
  });
  // first_pts=0 puts silence before a sound that begins late, so that sample 0 is media time 0.
  const args = ffmpegArguments({
    inputs: [{ source: clip.path, options: [] }],
    filterGraph: null,
    outputOptions: [
      ...["-map", "0:a:0", "-vn", "-sn", "-dn", "-ac", "1"],
      ...["-af", `aresample=${SOUND_RATE_HZ}:async=1:first_pts=0`, "-f", "s16le"],
    ],
    output: "-",
    log: "verbose",
  });
  const result = await runProgram({ program: tools.ffmpeg, args, signal, onOutput: take });
  check(result, "sound", clip, tools.ffmpeg);
  return { series: sound.series(count), bytes: bytesOf(result) };
}

/**
 * What can be seen and heard of a clip's motion: stop and go, loudness of wind and tyres, turning (of long clips in
 * windows only, or not at all where it is felt). Damaged parts are left out. After the signal what comes back is in part only, and not to be used.
 * Throws a `Failure` when ffmpeg is missing or hangs.
 */
export async function readSignals(clip: Clip, tools: Tools, options: SignalOptions): Promise<ClipSignals> {
  const { signal, report, turningFelt } = options;
  const count = Math.ceil(clip.durationS / SIGNAL_STEP_S);
  const reached = (atS: number) =>
    report?.({
      done: Math.max(0, Math.min(1, atS / clip.durationS)),
      leftS: null,
      step: { what: "signals", fileName: clip.fileName },
    });
  const [pictures, sound] = await Promise.all([
    readPictures({ clip, count, tools, turningFelt, signal, reached }),
    readSound(clip, count, tools, signal),
  ]);
  const lacks: SignalsLack[] = [];
  if (pictures.frozen) lacks.push("motion");
  if (!sound.series) lacks.push("sound");
  return {
    clipId: clip.id,
    count,
    motion: pictures.frozen ? null : pictures.motion,
    sound: sound.series && pictures.withoutPassing(sound.series),
    turning: pictures.frozen ? null : pictures.turning,
    bytesRead: pictures.bytes + sound.bytes,
    lacks,
  };
}
