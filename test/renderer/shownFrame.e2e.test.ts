// What the player says is on the screen is what is there: footage whose every frame carries its own number in 16 blocks.
import { build } from "esbuild";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findTools } from "../../main/setup/tools.mjs";
import { testTools } from "../support/tools.ts";

const FRAMES = 150;
const SEEKS = 200;
/** Of the clip that is played fast. */
const LONG_FRAMES = 900;
/** Frames that have a proxy of their own. */
const PROXY = { first: 40, last: 99 };
const chromiumPath = findTools().chromium?.path ?? null;

/** Runs in the page: seeks at random and compares each frame told with the number in the picture. */
const PAGE = `
import { ClipVideo } from "./renderer/player/clipVideo.ts";
import { EvenGaps } from "./renderer/player/steadySteps.ts";
const addressOf = (text) => URL.createObjectURL(new Blob([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], { type: "video/mp4" }));
const pictureReader = (video) => {
  const context = Object.assign(document.createElement("canvas"), { width: 320, height: 180 }).getContext("2d", { willReadFrequently: true });
  return () => {
    context.drawImage(video, 0, 0, 320, 180);
    const { data } = context.getImageData(0, 12, 320, 1);
    let number = 0;
    for (let bit = 0; bit < 16; bit++) if (data[(bit * 20 + 10) * 4] > 128) number += 2 ** bit;
    return number;
  };
};
const judged = EvenGaps.prototype.uneven;
window.playFast = async ({ whole, starts, speed, uneven = false }) => {
  EvenGaps.prototype.uneven = uneven ? () => true : judged;
  const video = document.querySelector("video");
  const inPicture = pictureReader(video);
  const times = Float64Array.from(starts);
  const shown = [];
  let told = () => {};
  let ended = () => {};
  const end = new Promise((resolve) => (ended = resolve));
  const core = new ClipVideo(video, { onFrame: (frame) => told(frame), onState() {}, onEnd: () => ended() });
  core.setClip({ id: "c", durationS: times.at(-1), address: addressOf(whole), proxySpans: [] }, times);
  await new Promise((resolve) => { told = resolve; core.seek(0); });
  told = (frame) => shown.push({ atMs: performance.now(), frame, seen: inPicture() });
  core.play(speed);
  await end;
  core.dispose();
  return shown;
};
window.check = async ({ whole, proxy, starts, first, last, seeks, seed }) => {
  const address = addressOf;
  const video = document.querySelector("video");
  const inPicture = pictureReader(video);
  const times = Float64Array.from(starts);
  let told = () => {};
  const core = new ClipVideo(video, { onFrame: (frame) => told(frame), onState() {}, onEnd() {} });
  const proxySpans = [{ startS: times[first], endS: times[last + 1], address: address(proxy) }];
  core.setClip({ id: "c", durationS: times.at(-1), address: address(whole), proxySpans }, times);
  const wrong = [];
  const ms = [];
  let state = seed;
  for (let k = 0; k < seeks; k++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const wished = Math.floor((state / 2 ** 32) * (times.length - 1));
    const began = performance.now();
    const frame = await new Promise((resolve) => { told = resolve; core.seek(wished); });
    ms.push(performance.now() - began);
    const seen = inPicture();
    if (frame !== wished || seen !== wished) wrong.push([wished, frame, seen]);
  }
  // Many wishes at once: only the last has to come true, and every frame told is the one on the screen.
  const many = await new Promise((resolve) => {
    told = (frame) => { if (inPicture() !== frame) wrong.push(["many", frame, inPicture()]); if (frame === 7) resolve(frame); };
    for (const frame of [120, 3, 77, 140, 55, 7]) core.seek(frame);
  });
  return { wrong, many, medianMs: ms.sort((a, b) => a - b)[ms.length >> 1] };
};`;

describe.skipIf(chromiumPath === null)("the frame on the screen", () => {
  let folder = "";
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "followcar-frames-"));
    const ffmpeg = (...args: string[]) =>
      execFileSync(testTools().ffmpeg, ["-hide_banner", "-loglevel", "error", "-y", ...args]);
    const numbered = (name: string, frames: number) =>
      ffmpeg(
        "-f",
        "lavfi",
        "-i",
        `color=gray:s=320x180:r=30:d=${frames / 30},geq=lum='if(lt(Y,32),if(mod(floor(N/pow(2,floor(X/20))),2),235,16),128)':cb=128:cr=128`,
        "-frames:v",
        String(frames),
        "-c:v",
        "libx264",
        "-g",
        "15",
        "-bf",
        "2",
        "-pix_fmt",
        "yuv420p",
        "-movflags",
        "+faststart",
        join(folder, name),
      );
    numbered("whole.mp4", FRAMES);
    numbered("long.mp4", LONG_FRAMES);
    ffmpeg(
      "-i",
      join(folder, "whole.mp4"),
      "-vf",
      `select='between(n,${PROXY.first},${PROXY.last})',setpts=PTS-STARTPTS`,
      "-c:v",
      "libx264",
      "-g",
      "1",
      "-bf",
      "0",
      "-pix_fmt",
      "yuv420p",
      "-movflags",
      "+faststart",
      join(folder, "proxy.mp4"),
    );
  }, 60_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it(`is the one that was told: ${SEEKS} random seeks across a clip and its proxy, 0 wrong; the latest wish wins`, async () => {
    const { page, browser } = await openPage();
    try {
      const order = {
        whole: readFileSync(join(folder, "whole.mp4")).toString("base64"),
        proxy: readFileSync(join(folder, "proxy.mp4")).toString("base64"),
        starts: Array.from({ length: FRAMES + 1 }, (_, n) => n / 30),
        ...PROXY,
        seeks: SEEKS,
        seed: 20261125,
      };
      const result = await page.evaluate(
        async (given) =>
          (
            window as unknown as {
              check: (given: unknown) => Promise<{ wrong: unknown[]; many: number; medianMs: number }>;
            }
          ).check(given),
        order,
      );
      process.stdout.write(`seek to a frame on the screen: median ${Math.round(result.medianMs)} ms\n`);
      expect(result.wrong).toEqual([]);
      expect(result.many).toBe(7);
    } finally {
      await browser.close();
    }
  }, 180_000);

  it("is drawn at its own instant at 4x and 8x without a graphics card, never faster than asked, and drops evenly", async () => {
    const { page, browser } = await openPage();
    try {
      for (const speed of [4, 8]) {
        const shown = await page.evaluate(
          async (given) =>
            (window as unknown as { playFast: (given: unknown) => Promise<DrawnFrame[]> }).playFast(given),
          {
            whole: readFileSync(join(folder, "long.mp4")).toString("base64"),
            starts: Array.from({ length: LONG_FRAMES + 1 }, (_, n) => n / 30),
            speed,
          },
        );
        expect(shown.length).toBeGreaterThan(20);
        // What is told is what is seen. Where the machine is so busy that the screen goes on between the two, what is told
        // next has caught up; numbers never run ahead of the picture.
        const late = shown.filter(({ frame, seen }) => seen !== frame);
        expect(late.length / shown.length).toBeLessThan(0.03);
        const astray = shown.filter(
          ({ frame, seen }, k) => seen < frame || seen > (shown[k + 1]?.frame ?? LONG_FRAMES - 1),
        );
        expect(astray).toEqual([]);
        const first = shown[0]!;
        const last = shown.at(-1)!;
        const playedS = (last.frame - first.frame) / 30;
        const tookS = (last.atMs - first.atMs) / 1000;
        const gaps = shown.slice(1).map(({ frame }, k) => frame - shown[k]!.frame);
        const sorted = gaps.toSorted((a, b) => a - b);
        const usual = sorted[gaps.length >> 1]!;
        // Usual for its part of the clip: a busy machine may be given a longer stride in the middle of it.
        const around = (k: number) => gaps.slice(Math.max(0, k - 4), k + 5).toSorted((a, b) => a - b);
        const usualAt = (k: number) => around(k)[around(k).length >> 1]!;
        const even = gaps.filter((gap, k) => gap <= 2 * Math.max(1, usualAt(k))).length / gaps.length;
        process.stdout.write(
          `${speed}x: ${(playedS / tookS).toFixed(2)} times as fast, ${shown.length} of ${LONG_FRAMES} frames drawn, ` +
            `usually each ${usual}th, longest gap ${sorted.at(-1)}, ${Math.round(100 * even)} % at most twice the usual\n`,
        );
        expect(playedS / tookS).toBeLessThan(speed * 1.1);
        // A slower machine draws fewer frames, and spreads what it leaves out all the same.
        expect(even).toBeGreaterThan(0.9);
        // A frame may be told twice, but never one from before.
        expect(sorted[0]).toBeGreaterThanOrEqual(0);
      }
    } finally {
      await browser.close();
    }
  }, 120_000);

  it("is every nth on a steady beat where the browser left out frames unevenly, up to the last, each of them the one told", async () => {
    const { page, browser } = await openPage();
    try {
      const shown = await page.evaluate(
        async (given) => (window as unknown as { playFast: (given: unknown) => Promise<DrawnFrame[]> }).playFast(given),
        {
          whole: readFileSync(join(folder, "long.mp4")).toString("base64"),
          starts: Array.from({ length: LONG_FRAMES + 1 }, (_, n) => n / 30),
          speed: 4,
          uneven: true,
        },
      );
      expect(shown.filter(({ frame, seen }) => seen !== frame)).toEqual([]);
      expect(shown.at(-1)!.frame).toBe(LONG_FRAMES - 1);
      // The first was played by the browser; the last gap is what is left.
      const gaps = shown.slice(2, -1).map(({ frame }, k) => frame - shown[k + 1]!.frame);
      const changes = gaps.slice(1).filter((gap, k) => gap !== gaps[k]).length;
      const playedS = (shown.at(-1)!.frame - shown[0]!.frame) / 30;
      const tookS = (shown.at(-1)!.atMs - shown[0]!.atMs) / 1000;
      process.stdout.write(
        `4x by single frames: ${(playedS / tookS).toFixed(2)} times as fast, strides ${[...new Set(gaps)].join(", ")}\n`,
      );
      expect(Math.min(...gaps)).toBeGreaterThan(0);
      expect(changes / gaps.length).toBeLessThan(0.2);
      expect(playedS / tookS).toBeLessThan(4.4);
    } finally {
      await browser.close();
    }
  }, 120_000);
});

interface DrawnFrame {
  readonly atMs: number;
  readonly frame: number;
  /** The number in the picture when it was told. */
  readonly seen: number;
}

/** A page with the player's core, without a graphics card. */
async function openPage() {
  const { outputFiles } = await build({
    stdin: { contents: PAGE, resolveDir: process.cwd(), loader: "ts" },
    bundle: true,
    write: false,
    format: "iife",
    platform: "browser",
  });
  const browser = await chromium.launch({
    executablePath: chromiumPath!,
    headless: true,
    args: ["--disable-gpu", "--disable-dev-shm-usage", "--autoplay-policy=no-user-gesture-required"],
  });
  const page = await browser.newPage();
  await page.setContent("<video muted width=320 height=180></video>");
  await page.addScriptTag({ content: outputFiles[0]!.text });
  return { page, browser };
}
