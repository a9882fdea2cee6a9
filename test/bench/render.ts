/**
 * What panels cost beside encoding the same frames alone: processor time of ffmpeg and Node together, both jobs side by
 * side, each pinned to a core, then swapped; the geometric mean of each pair of rounds. A plain-against-plain control
 * tells how much of it is noise.
 */
import { execFile } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { build } from "esbuild";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";

interface Size {
  readonly name: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frames: number;
  readonly mbitPerSecond: number;
}

const SIZES: readonly Size[] = [
  { name: "1080p30", widthPx: 1920, heightPx: 1080, frames: 150, mbitPerSecond: 40 },
  { name: "2160p30", widthPx: 3840, heightPx: 2160, frames: 45, mbitPerSecond: 70 },
];

type Kind = "plain" | "panels";

/** Prints the table; `pairs` of 7 or more for figures to speak of. */
export async function benchRender(pairs = 7, sizes: readonly string[] = SIZES.map(({ name }) => name)): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-bench-"));
  try {
    const program = resolve("dist", "test", "bench-renderOne.mjs");
    await build({ entryPoints: ["test/bench/renderOne.ts"], outfile: program, bundle: true, platform: "node", format: "esm", packages: "external", logLevel: "error" });
    process.stdout.write("panels, scrim and thread burnt in, against the same frames encoded alone (libx264 veryfast crf 20)\n");
    for (const size of SIZES.filter(({ name }) => sizes.includes(name))) {
      const source = join(folder, `${size.name}.mp4`);
      await writeRoadLike(source, size);
      // The scrim darkens noise and so makes the encoder's work less; without an encoder the panels' own cost shows.
      for (const [label, kinds, encoder] of [
        ["control, encoded", ["plain", "plain"], "x264"],
        ["panels, encoded", ["panels", "plain"], "x264"],
        ["control, decoded only", ["plain", "plain"], "none"],
        ["panels, decoded only", ["panels", "plain"], "none"],
      ] as const) {
        const rounds: { ratio: number; extraMs: number }[] = [];
        for (let pair = 0; pair < pairs; pair += 1) rounds.push(await onePair([program, source, String(size.frames)], size.frames, kinds, encoder));
        const ratios = rounds.map(({ ratio }) => ratio).sort((a, b) => a - b);
        const extra = rounds.map(({ extraMs }) => extraMs).sort((a, b) => a - b);
        process.stdout.write(
          `${size.name} ${label.padEnd(21)} ratio ${middle(ratios).toFixed(3)} [${(ratios[0] ?? 0).toFixed(3)}..${(ratios.at(-1) ?? 0).toFixed(3)}]  extra ${middle(extra).toFixed(1)} ms a frame  (${pairs} pairs of ${size.frames} frames)\n`,
        );
      }
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Camera-like: soft shapes that move, fine noise, the bit rate of an action camera, a keyframe each half second. */
async function writeRoadLike(path: string, size: Size): Promise<void> {
  const picture = `gradients=s=${size.widthPx}x${size.heightPx}:r=30000/1001:n=6:speed=0.03:seed=5,scroll=h=0.004:v=0.002,noise=alls=5:allf=t+u:all_seed=3,format=yuv420p`;
  const rate = `${size.mbitPerSecond}M`;
  await runProgram(testTools().ffmpeg, [
    ...["-v", "error", "-f", "lavfi", "-i", picture, "-frames:v", String(size.frames + 15)],
    ...["-c:v", "libx264", "-preset", "ultrafast", "-bf", "0", "-g", "15", "-b:v", rate, "-maxrate", rate, "-bufsize", rate, path],
  ]);
}

async function onePair(job: readonly string[], frames: number, [first, second]: readonly [Kind, Kind], encoder: string): Promise<{ ratio: number; extraMs: number }> {
  const ratios: number[] = [];
  const extra: number[] = [];
  for (const cores of [
    [0, 1],
    [1, 0],
  ] as const) {
    const [a, b] = await Promise.all([processorS([...job, first, encoder], cores[0]), processorS([...job, second, encoder], cores[1])]);
    ratios.push(a / b);
    extra.push(((a - b) * 1000) / frames);
  }
  return { ratio: Math.sqrt((ratios[0] ?? 1) * (ratios[1] ?? 1)), extraMs: ((extra[0] ?? 0) + (extra[1] ?? 0)) / 2 };
}

/** Processor time of a job and all that it started, s. */
function processorS(job: readonly string[], core: number): Promise<number> {
  const script = 'TIMEFORMAT="%U %S"; time taskset -c "$0" "$@"';
  return new Promise((done, fail) => {
    execFile("bash", ["-c", script, String(core), process.execPath, ...job], (error, _stdout, stderr) => {
      const [user, system] = (stderr.trim().split("\n").at(-1) ?? "").split(" ").map(Number);
      if (error || user === undefined || system === undefined) fail(error ?? new Error(stderr));
      else done(user + system);
    });
  });
}

function middle(sorted: readonly number[]): number {
  return ((sorted[Math.floor((sorted.length - 1) / 2)] ?? 0) + (sorted[Math.ceil((sorted.length - 1) / 2)] ?? 0)) / 2;
}
