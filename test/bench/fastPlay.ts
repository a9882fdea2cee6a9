// How evenly a clip plays at 4x and 8x in the installed browser without a graphics card: the gaps between the frames that
// come on the screen, on a machine that has nothing else to do and on one whose cores are all at work.
import { build } from "esbuild";
import { type ChildProcess, spawn } from "node:child_process";
import { createServer } from "node:http";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Page } from "playwright-core";
import { findTools } from "../../main/setup/tools.mjs";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";
import { writeCameraLike } from "./cameraLike.ts";

/** A pattern of a camera, again and again. */
const PATTERN_FRAMES = 300;
const PATTERNS = 4;
const FRAMES = PATTERNS * PATTERN_FRAMES;
const RATE = 30_000 / 1001;
const SPEEDS = [4, 8];

/** A frame that was told, when, and whether it was the one in the picture. */
interface Told {
  readonly atMs: number;
  readonly frame: number;
}

/** Runs in the page: plays a clip, as filmed or from a proxy of all of it. */
const PAGE = `
import { ClipVideo } from "./renderer/player/clipVideo.ts";
const files = new Map();
const addressOf = async (name) => {
  if (!files.has(name)) files.set(name, URL.createObjectURL(await (await fetch(name)).blob()));
  return files.get(name);
};
window.play = async ({ proxy, frames, rate, speed, lengthMs }) => {
  const video = document.querySelector("video");
  const starts = Float64Array.from({ length: frames + 1 }, (_, k) => k / rate);
  const told = [];
  let next = () => {};
  const core = new ClipVideo(video, { onFrame: (frame) => next(frame), onState() {}, onEnd() {} });
  const address = await addressOf("/whole.mp4");
  const proxySpans = proxy ? [{ startS: 0, endS: starts.at(-1), address: await addressOf("/proxy.mp4") }] : [];
  core.setClip({ id: "c", durationS: starts.at(-1), address, proxySpans }, starts);
  await new Promise((resolve) => { next = resolve; core.seek(0); });
  next = (frame) => told.push({ atMs: performance.now(), frame });
  core.play(speed);
  await new Promise((resolve) => setTimeout(resolve, lengthMs));
  core.dispose();
  return told;
};`;

/** Prints how even the gaps are: as filmed and from a proxy, alone and with every core at work. */
export async function benchFastPlay(): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-fast-"));
  try {
    await writeClips(folder);
    const { outputFiles } = await build({
      stdin: { contents: PAGE, resolveDir: process.cwd(), loader: "ts" },
      ...{ bundle: true, write: false, format: "iife", platform: "browser" },
    });
    const server = createServer((request, response) => {
      const name = request.url!.slice(1);
      if (name === "")
        response.setHeader("content-type", "text/html").end("<video muted width=1280 height=720></video>");
      else
        readFile(join(folder, name)).then(
          (bytes) => response.setHeader("content-type", "video/mp4").end(bytes),
          () => response.writeHead(404).end(),
        );
    });
    await new Promise<void>((resolve) => void server.listen(0, "127.0.0.1", resolve));
    const browser = await chromium.launch({
      executablePath: findTools().chromium!.path,
      headless: true,
      args: ["--disable-gpu", "--disable-dev-shm-usage", "--autoplay-policy=no-user-gesture-required"],
    });
    try {
      const address = server.address();
      const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
      await page.goto(`http://127.0.0.1:${typeof address === "object" ? address!.port : ""}/`);
      await page.addScriptTag({ content: outputFiles[0]!.text });
      for (const proxy of [true, false])
        for (const busy of [0, availableParallelism()])
          for (const speed of SPEEDS) await sayPlayed(page, { proxy, busy, speed });
    } finally {
      await browser.close();
      server.close();
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

interface Case {
  readonly proxy: boolean;
  /** So many other processes never rest. */
  readonly busy: number;
  readonly speed: number;
}

async function sayPlayed(page: Page, { proxy, busy, speed }: Case): Promise<void> {
  const others: ChildProcess[] = Array.from({ length: busy }, () => spawn(process.execPath, ["-e", "for (;;);"]));
  try {
    const lengthMs = Math.min(8000, ((FRAMES / RATE - 1) * 1000) / speed);
    const order = { proxy, frames: FRAMES, rate: RATE, speed, lengthMs };
    const told = await page.evaluate<Told[]>(`play(${JSON.stringify(order)})`);
    process.stdout.write(
      `1080p30 ${proxy ? "from a proxy" : "as filmed"}, ${busy === 0 ? "alone" : `${busy} others at work`}, ${speed}x: ${gapsText(told, speed)}\n`,
    );
  } finally {
    for (const one of others) one.kill("SIGKILL");
  }
}

/** The gaps between frames told, in frames and in time. */
function gapsText(told: readonly Told[], speed: number): string {
  const steps = told.slice(1).flatMap(({ frame, atMs }, k) => {
    const before = told[k]!;
    return frame === before.frame ? [] : [{ frames: frame - before.frame, ms: atMs - before.atMs }];
  });
  const sorted = (of: (step: (typeof steps)[number]) => number) => steps.map(of).sort((a, b) => a - b);
  const frames = sorted((step) => step.frames);
  const ms = sorted((step) => step.ms);
  const at = (of: readonly number[], share: number) => of[Math.floor((of.length - 1) * share)]!;
  const mean = frames.reduce((sum, one) => sum + one, 0) / frames.length;
  const spread = Math.sqrt(frames.reduce((sum, one) => sum + (one - mean) ** 2, 0) / frames.length);
  const usual = at(frames, 0.5);
  // Like the gaps about it: the stride may be made longer once, and is even before and after.
  const inOrder = steps.map((step) => step.frames);
  const near =
    inOrder.filter((one, k) => {
      const about = inOrder.slice(Math.max(0, k - 4), k + 5).sort((a, b) => a - b);
      const middle = about[about.length >> 1]!;
      return Math.abs(one - middle) <= Math.max(1, middle / 4);
    }).length / inOrder.length;
  const [first, last] = [told[0]!, told.at(-1)!];
  const tookS = (last.atMs - first.atMs) / 1000;
  return (
    `${(steps.length / tookS).toFixed(0)} frames a second, usually each ${usual}th, ` +
    `${Math.round(100 * near)} % of gaps like those about them, spread ${(spread / mean).toFixed(2)} of the mean, ` +
    `longest ${frames.at(-1)} frames; ${at(ms, 0.5).toFixed(0)} ms between them, longest ${ms.at(-1)!.toFixed(0)}; ` +
    `${(((last.frame - first.frame) / RATE / tookS / speed) * 100).toFixed(0)} % of its speed`
  );
}

/** Camera-like, and the same as the window's own proxies are. */
async function writeClips(folder: string): Promise<void> {
  const whole = join(folder, "whole.mp4");
  const pattern = join(folder, "pattern.mp4");
  const { ffmpeg } = testTools();
  await writeCameraLike(
    pattern,
    { widthPx: 1920, heightPx: 1080, frames: PATTERN_FRAMES, mbitPerSecond: 25, sound: true },
    folder,
  );
  const quiet = ["-v", "error", "-y"];
  await runProgram(ffmpeg, [
    ...quiet,
    ...["-stream_loop", String(PATTERNS - 1), "-i", pattern, "-c", "copy", "-movflags", "+faststart", whole],
  ]);
  await runProgram(ffmpeg, [
    ...[
      ...quiet,
      "-i",
      whole,
      "-vf",
      "scale=960:540",
      "-c:v",
      "libx264",
      "-preset",
      "ultrafast",
      "-g",
      "1",
      "-bf",
      "0",
    ],
    ...["-crf", "24", "-pix_fmt", "yuv420p", "-c:a", "copy", "-movflags", "+faststart", join(folder, "proxy.mp4")],
  ]);
}
