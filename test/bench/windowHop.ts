// From the key that hops to the next moment until its picture and its numbers stand on the screen, on proxies.
import { execFileSync } from "node:child_process";
import { writeFile } from "node:fs/promises";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import type { Moment } from "../../main/contract/reading.ts";
import { openDesk } from "../app/desk/openDesk.ts";
import { testTools } from "../support/tools.ts";
import { openProgram } from "./openProgram.ts";

/** Ride time at which each clip begins, s, its length, and where in it the moments lie. */
const CLIPS = [
  { name: "a.mp4", rideS: 1000, lengthS: 30, momentsS: [3, 9, 14, 22] },
  // Longer than what is made whole: a proxy of its own about each end.
  { name: "b.mp4", rideS: 2000, lengthS: 100, momentsS: [8, 12, 90, 95] },
];
const ROUNDS = 6;

interface Hop {
  readonly ms: number;
  /** Whether its picture came from another file than the one before. */
  readonly other: boolean;
}

/** Prints median, slowest tenth and count: every hop, and those into another file. */
export async function benchHop(): Promise<void> {
  const open = await openDesk();
  try {
    const folder = await prepared(open);
    await open.desk.close();
    const program = await openProgram(open.folder, [folder]);
    const { page } = program;
    try {
      await page.setViewportSize({ width: 1440, height: 900 });
      await page.waitForSelector(".told-lines");
      await page.keyboard.press("2");
      await page.waitForSelector(".skim-list");
      await page.selectOption(".skim-filter select", "bench");
      await page.locator(".skim-moment").first().click();
      await page.locator('.skim .player[data-picture="shown"]').waitFor();
      const hops = await page.evaluate<Hop[]>(
        `${PAGE}(${CLIPS.flatMap(({ momentsS }) => momentsS).length}, ${ROUNDS})`,
      );
      const all = hops.map(({ ms }) => ms);
      print("every hop", all);
      print(
        "of these into another file",
        hops.filter(({ other }) => other).map(({ ms }) => ms),
      );
    } finally {
      await program.close();
    }
  } finally {
    await open.close();
  }
}

function print(what: string, ms: readonly number[]): void {
  const sorted = [...ms].sort((a, b) => a - b);
  const at = (share: number): string => sorted[Math.floor((sorted.length - 1) * share)]!.toFixed(0);
  process.stdout.write(
    `hop to a moment, picture and numbers right, 1080p by proxies, ${what}: median ${at(0.5)} ms, nine in ` +
      `ten within ${at(0.9)} ms, ${sorted.length} hops (wanted: median under 150)\n`,
  );
}

/** Ride, clips, moments and every proxy in place; the debrief's folder. */
async function prepared(open: Awaited<ReturnType<typeof openDesk>>): Promise<string> {
  const { startUtcMs } = demoRide(1);
  await writeFile(open.path("ride.fit"), demoRideFile(demoRide(1)));
  for (const { name, rideS, lengthS } of CLIPS) {
    const created = new Date(startUtcMs + rideS * 1000).toISOString();
    execFileSync(testTools().ffmpeg, [
      "-v",
      "error",
      "-y",
      "-f",
      "lavfi",
      "-i",
      `testsrc2=s=1920x1080:r=25:d=${lengthS}`,
      "-c:v",
      "libx264",
      "-preset",
      "ultrafast",
      "-crf",
      "28",
      "-g",
      "250",
      "-pix_fmt",
      "yuv420p",
      "-metadata",
      `creation_time=${created}`,
      open.path(name),
    ]);
  }
  await open.api.addFiles(["ride.fit", ...CLIPS.map(({ name }) => name)].map((name) => open.id(open.path(name))));
  const clipIds = open.view().clips.map(({ id }) => id);
  await open.api.edit(
    {
      part: "anchors",
      value: CLIPS.map(({ rideS }, k) => ({ clipId: clipIds[k]!, mediaS: 0, rideS, sigmaS: 0.05 })),
      label: "anchors",
    },
    open.view().edit,
  );
  const moments = CLIPS.flatMap(({ rideS, momentsS }) =>
    momentsS.map((atS): Moment => ({
      kind: "bench",
      startS: rideS + atS,
      endS: rideS + atS + 3,
      reason: "hop",
      excused: null,
      rank: 1,
      numbers: {},
      setBy: "coach",
      coachOnly: false,
    })),
  );
  await open.api.edit({ part: "ownMoments", value: moments, label: "moments" }, open.view().edit);
  await open.idle();
  await open.api.saveNow();
  return open.view().folder;
}

/** Runs in the page: down the list and up again; each hop until the picture that was wished stands there with its numbers. */
const PAGE = `(async (moments, rounds) => {
  const player = document.querySelector(".skim .player");
  const video = player.querySelector("video");
  const hop = (key) =>
    new Promise((resolve, reject) => {
      const file = video.currentSrc;
      const { frame } = player.dataset;
      const began = performance.now();
      const given = setTimeout(() => reject(new Error("no picture came")), 20000);
      const seen = new MutationObserver(() => {
        if (player.dataset.picture !== "shown" || player.dataset.frame === frame) return;
        seen.disconnect();
        clearTimeout(given);
        resolve({ ms: performance.now() - began, other: video.currentSrc !== file });
      });
      seen.observe(player, { attributes: true, attributeFilter: ["data-frame", "data-picture"] });
      document.body.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
    });
  const hops = [];
  for (let k = 0; k < rounds * 2 * (moments - 1); k++) {
    hops.push(await hop(Math.floor(k / (moments - 1)) % 2 === 0 ? "n" : "p"));
    await new Promise((resolve) => setTimeout(resolve, 150));
  }
  return hops;
})`;
