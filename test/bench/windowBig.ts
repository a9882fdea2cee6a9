// An hour of 2160p in the window: how soon a moment can be seen, and how smoothly it plays from its proxy and as filmed.
import { existsSync, readdirSync, rmSync, statSync } from "node:fs";
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { openDesk } from "../app/desk/openDesk.ts";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";
import { writeCameraLike } from "./cameraLike.ts";
import { openProgram } from "./openProgram.ts";

/** Ride time at which the recording begins, s. */
const BEGINS_S = 1500;
const RATE = 30_000 / 1001;
/** A pattern of a camera, again and again. */
const PATTERN_FRAMES = 600;
const MBIT_PER_SECOND = 40;
const PLAYED_S = 8;

interface Played {
  /** Pictures that came on the screen, a second. */
  readonly picturesPerS: number;
  /** Time of the clip that went by, as a share of what the speed promises. */
  readonly kept: number;
  /** The longest time in which the page drew nothing, ms. */
  readonly gapMs: number;
}

interface Hop {
  readonly ms: number;
  readonly proxy: boolean;
}

/** A moment in the list that was filmed and not yet judged. */
const FILMED = ".skim-moment:has(.skim-state:empty)";

/** Runs in the page: plays from where it stands. */
const PLAY = `(async (speed, lengthS) => {
  const video = document.querySelector(".skim .player video");
  const key = () => document.body.dispatchEvent(new KeyboardEvent("keydown", { key: " ", bubbles: true }));
  [...document.querySelectorAll(".transport-speed")].find((one) => parseFloat(one.textContent) === speed).click();
  let [going, last, gapMs, pictures] = [true, performance.now(), 0, 0];
  const drawn = (now) => {
    gapMs = Math.max(gapMs, now - last);
    last = now;
    if (going) requestAnimationFrame(drawn);
  };
  const picture = () => {
    pictures++;
    if (going) video.requestVideoFrameCallback(picture);
  };
  const player = document.querySelector(".skim .player");
  const [began, from] = [performance.now(), Number(player.dataset.frame)];
  key();
  requestAnimationFrame(drawn);
  video.requestVideoFrameCallback(picture);
  await new Promise((resolve) => setTimeout(resolve, lengthS * 1000));
  const passedS = (performance.now() - began) / 1000;
  const kept = (Number(player.dataset.frame) - from) / ${RATE} / (passedS * speed);
  key();
  going = false;
  return { picturesPerS: pictures / passedS, kept, gapMs };
})`;

/** Runs in the page: every filmed moment, down the list and up again. */
const HOPS = `(async () => {
  const player = document.querySelector(".skim .player");
  const rows = [...document.querySelectorAll("${FILMED}")];
  const hops = [];
  for (const row of [...rows, ...[...rows].reverse()]) {
    if (row.getAttribute("aria-current") === "true") continue;
    const { frame } = player.dataset;
    const began = performance.now();
    const came = new Promise((resolve) => {
      const given = setTimeout(resolve, 20000);
      const seen = new MutationObserver(() => {
        if (player.dataset.picture !== "shown" || player.dataset.frame === frame) return;
        seen.disconnect();
        clearTimeout(given);
        hops.push({ ms: performance.now() - began, proxy: player.querySelector("video").currentSrc.includes("/proxy/") });
        resolve();
      });
      seen.observe(player, { attributes: true, attributeFilter: ["data-frame", "data-picture"] });
    });
    row.click();
    await came;
    await new Promise((resolve) => setTimeout(resolve, 300));
  }
  return hops;
})()`;

/** Prints how the window takes `minutes` of 2160p30; takes `minutes` times 0.3 GB of disk. */
export async function benchBigFootage(minutes: number): Promise<void> {
  const open = await openDesk();
  try {
    await writeFile(open.path("ride.fit"), demoRideFile(demoRide(1)));
    const file = open.path("big.mp4");
    await writeHour(file, minutes, open.folder);
    await open.api.addFiles([open.id(open.path("ride.fit")), open.id(file)]);
    await open.api.edit(
      {
        part: "anchors",
        value: [{ clipId: open.view().clips[0]!.id, mediaS: 0, rideS: BEGINS_S, sigmaS: 0.05 }],
        label: "anchor",
      },
      open.view().edit,
    );
    await open.api.saveNow();
    const { folder } = open.view();
    await open.desk.close();
    for (const room of ["proxies", "filmstrips"])
      rmSync(join(open.folder, "cache", room), { recursive: true, force: true });

    const program = await openProgram(open.folder, [folder]);
    const { page } = program;
    try {
      await page.setViewportSize({ width: 1440, height: 900 });
      await page.waitForSelector(".told-lines");
      const begun = performance.now();
      const after = (): string => ((performance.now() - begun) / 1000).toFixed(1);
      await page.keyboard.press("2");
      await page.waitForSelector(".skim-list");
      await page.locator(FILMED).first().click();
      await page.locator('.skim .player[data-picture="shown"]').waitFor({ timeout: 120_000 });
      say(
        `of ${minutes} min (${(statSync(file).size / 1e9).toFixed(1)} GB): the first picture, as filmed, ${after()} s after the window was ready`,
      );
      // While small pictures are being made, the clip itself is shown.
      for (const speed of [1, 4]) await sayPlayed(page, "as filmed, with the small pictures being made", speed);
      const proxies = (): string[] =>
        filesOf(join(open.folder, "cache", "proxies")).filter((name) => name.endsWith(".mp4"));
      await until(() => proxies().length > 0);
      say(`the first moment's small picture after ${after()} s (wanted: within 30)`);
      let [made, madeAt] = [0, performance.now()];
      await until(() => {
        // The moments' own come first, then the film strip.
        if (proxies().length > made) [made, madeAt] = [proxies().length, performance.now()];
        return filmstripDone(open.folder);
      });
      say(
        `${made} spans by ${((madeAt - begun) / 1000).toFixed(0)} s, the film strip of the whole clip by ${after()} s`,
      );
      const hops = await page.evaluate<Hop[]>(HOPS);
      for (const proxy of [true, false]) {
        const ms = hops
          .filter((hop) => hop.proxy === proxy)
          .map((hop) => hop.ms)
          .sort((a, b) => a - b);
        if (ms.length > 0)
          say(
            `hop to a moment ${proxy ? "with a small picture" : "as filmed"}: median ` +
              `${ms[Math.floor((ms.length - 1) / 2)]!.toFixed(0)} ms, slowest ${ms.at(-1)!.toFixed(0)} ms, ${ms.length} ` +
              "hops",
          );
      }
      await page.locator(FILMED).first().click();
      await page.locator('.skim .player[data-picture="shown"]').waitFor();
      for (const speed of [1, 4, 8]) await sayPlayed(page, "from a moment's small picture", speed);
    } finally {
      await program.close();
    }
  } finally {
    await open.close();
  }
}

function say(what: string): void {
  process.stdout.write(`2160p30 in the window ${what}\n`);
}

async function sayPlayed(page: Page, what: string, speed: number): Promise<void> {
  const { picturesPerS, kept, gapMs } = await page.evaluate<Played>(`${PLAY}(${speed}, ${PLAYED_S})`);
  say(
    `played ${what} at ${speed}x: ${picturesPerS.toFixed(1)} pictures a second, ${(100 * kept).toFixed(0)} % ` +
      `of its speed, longest wait for a drawing ${gapMs.toFixed(0)} ms`,
  );
}

/** A pattern of 20 s, looped by copying. */
async function writeHour(path: string, minutes: number, folder: string): Promise<void> {
  const pattern = join(folder, "pattern.mp4");
  await writeCameraLike(
    pattern,
    { widthPx: 3840, heightPx: 2160, frames: PATTERN_FRAMES, mbitPerSecond: MBIT_PER_SECOND, sound: true },
    folder,
  );
  const created = new Date(demoRide(1).startUtcMs + BEGINS_S * 1000).toISOString();
  const times = Math.round((minutes * 60 * RATE) / PATTERN_FRAMES);
  await runProgram(testTools().ffmpeg, [
    "-v",
    "error",
    "-y",
    "-stream_loop",
    String(times - 1),
    "-i",
    pattern,
    "-c",
    "copy",
    "-metadata",
    `creation_time=${created}`,
    path,
  ]);
  rmSync(pattern);
}

function filesOf(folder: string): string[] {
  return existsSync(folder) ? readdirSync(folder) : [];
}

function filmstripDone(home: string): boolean {
  const strips = join(home, "cache", "filmstrips");
  return filesOf(strips).some((name) => existsSync(join(strips, name, "whole")));
}

async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 200));
}
