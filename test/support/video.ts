import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Tools } from "../../main/contract/tools.ts";

/** Runs a program; its whole stdout. Throws with its last messages where it fails. */
export function runProgram(
  program: string,
  args: readonly string[],
  input: Iterable<Uint8Array> = [],
): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { stdio: ["pipe", "pipe", "pipe"] });
    const out: Buffer[] = [];
    let messages = "";
    child.stdout.on("data", (chunk: Buffer) => out.push(chunk));
    child.stderr.on("data", (chunk: Buffer) => (messages = (messages + chunk.toString()).slice(-2000)));
    child.stdin.on("error", () => undefined);
    child.on("error", reject);
    child.on("close", (code) =>
      code === 0 ? resolve(Buffer.concat(out)) : reject(new Error(`${program}: ${messages}`)),
    );
    void (async () => {
      for (const piece of input) {
        await new Promise((written) => child.stdin.write(piece, written));
      }
      child.stdin.end();
    })();
  });
}

/** A folder for one test, removed by `remove`. */
export async function scratchFolder(): Promise<{ path: string; remove(): Promise<void> }> {
  const path = await mkdtemp(join(tmpdir(), "followcar-"));
  return { path, remove: () => rm(path, { recursive: true, force: true }) };
}

export const BLOCKS = 16;
const BLOCK_ROWS = 16;

export interface NumberedClip {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frames: number;
  /** Frames a second, `N/D`; for a variable rate the mean. */
  readonly rate: string;
  /** ffmpeg's setpts expression in a time base of 1/90000, for a variable rate. */
  readonly times?: string;
  /** Frequency of a steady tone, Hz; or an `aevalsrc` expression; absent: no sound. */
  readonly sound?: string;
  /** Last arguments before the output file: encoder, colour tags, rotation, start time. */
  readonly output?: readonly string[];
  /** Filters after the picture's times are set. */
  readonly filters?: string;
}

/** Writes a clip whose every frame carries its number: 16 black or white blocks at the top, over a soft ramp. */
export async function writeNumberedClip(path: string, clip: NumberedClip, tools: Tools): Promise<void> {
  const { widthPx, heightPx, rate } = clip;
  const times = clip.times === undefined ? "null" : `settb=1/90000,setpts='${clip.times}'`;
  const sound = clip.sound === undefined ? [] : ["-f", "lavfi", "-i", clip.sound];
  await runProgram(
    tools.ffmpeg,
    [
      ...[
        "-v",
        "error",
        "-y",
        "-f",
        "rawvideo",
        "-pixel_format",
        "yuv420p",
        "-video_size",
        `${widthPx}x${heightPx}`,
        "-framerate",
        rate,
      ],
      ...["-i", "pipe:0", ...sound],
      ...["-vf", [times, clip.filters ?? "null"].join(",")],
      ...[
        "-c:v",
        "libx264",
        "-preset",
        "ultrafast",
        "-crf",
        "18",
        "-bf",
        "2",
        "-b_strategy",
        "0",
        "-g",
        "24",
        "-pix_fmt",
        "yuv420p",
      ],
      ...(clip.times === undefined
        ? []
        : ["-fps_mode", "passthrough", "-enc_time_base", "1/90000", "-video_track_timescale", "90000"]),
      ...(clip.sound === undefined ? [] : ["-c:a", "aac", "-shortest"]),
      ...(clip.output ?? []),
      path,
    ],
    numberedFrames(clip),
  );
}

/** a, b, c, d, x, y of ISO/IEC 14496-12, 8.3.2: a point (p, q) is shown at (a p + c q + x, b p + d q + y). */
export type DisplayMatrix = readonly [number, number, number, number, number, number];

/** Writes a display matrix into the header of an MP4's first track, as cameras do that are held upright or upside down. */
export async function setDisplayMatrix(path: string, [a, b, c, d, x, y]: DisplayMatrix): Promise<void> {
  const file = await readFile(path);
  const at = file.indexOf("tkhd", 0, "latin1") + 4 + 40;
  [a, b, 0, c, d, 0, x, y].forEach((value, k) => file.writeInt32BE(Math.round(value * 65536), at + 4 * k));
  await writeFile(path, file);
}

function* numberedFrames({ widthPx, heightPx, frames }: NumberedClip): Generator<Uint8Array> {
  const blockPx = widthPx / BLOCKS;
  for (let frame = 0; frame < frames; frame += 1) {
    const picture = new Uint8Array((widthPx * heightPx * 3) / 2).fill(128);
    for (let y = 0; y < heightPx; y += 1) {
      for (let x = 0; x < widthPx; x += 1) {
        const bit = (frame >> Math.floor(x / blockPx)) & 1;
        picture[y * widthPx + x] = y < BLOCK_ROWS ? (bit ? 235 : 16) : 60 + ((x + 2 * y + frame) % 64);
      }
    }
    yield picture;
  }
}

/** Frames of a video as luma, one after the other. */
export async function lumaFrames(path: string, widthPx: number, heightPx: number, tools: Tools): Promise<Buffer[]> {
  const all = await runProgram(tools.ffmpeg, [
    ...["-v", "error", "-i", path, "-map", "0:v:0", "-fps_mode", "passthrough"],
    ...["-vf", "extractplanes=y", "-f", "rawvideo", "-pix_fmt", "gray", "pipe:1"],
  ]);
  const size = widthPx * heightPx;
  return Array.from({ length: all.length / size }, (_, k) => all.subarray(k * size, (k + 1) * size));
}

/** The number in a frame's blocks. */
export function frameNumber(luma: Uint8Array, widthPx: number): number {
  const blockPx = widthPx / BLOCKS;
  let number = 0;
  for (let block = 0; block < BLOCKS; block += 1) {
    const x = Math.floor((block + 0.5) * blockPx);
    if (luma[(BLOCK_ROWS / 2) * widthPx + x]! > 125) number |= 1 << block;
  }
  return number;
}

export interface ProbedFile {
  readonly streams: readonly Readonly<Record<string, unknown>>[];
  readonly format: Readonly<Record<string, unknown>>;
  readonly packets: readonly {
    readonly stream_index: number;
    readonly pts_time: string;
    readonly duration_time: string;
    readonly flags: string;
  }[];
  readonly chapters: readonly { readonly start_time: string; readonly tags: Readonly<Record<string, string>> }[];
}

/** What ffprobe says about a file. */
export async function probeFile(path: string, tools: Tools, packets = false): Promise<ProbedFile> {
  const show = ["-show_streams", "-show_format", "-show_chapters", ...(packets ? ["-show_packets"] : [])];
  const answer = await runProgram(tools.ffprobe, ["-v", "error", "-print_format", "json", ...show, path]);
  return { ...{ packets: [] }, ...(JSON.parse(answer.toString()) as ProbedFile) };
}
