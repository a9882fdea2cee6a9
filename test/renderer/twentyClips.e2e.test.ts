// Twenty clips of one ride: what places them stays in sight, those in their place fold, all in the order of the ride.
import { mkdirSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { made } from "../app/desk/deskParts.ts";
import { openDesk, putClip, putRide } from "../app/desk/openDesk.ts";
import { demoFiles } from "./demoFiles.ts";
import { testTools } from "../support/tools.ts";
import { writeNumberedClip } from "../support/video.ts";
import { describeWindow, openWindow, temporaryHome, type OpenedWindow } from "./openWindow.ts";

/** Pictures are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

const CLIPS = 20;
/** Of them without a clock and without an anchor: nothing places them. */
const UNSURE = 3;

describeWindow("twenty clips", () => {
  let opened: OpenedWindow;
  let home: string;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    for (const [width, height] of [
      [1280, 800],
      [1440, 900],
      [1920, 1080],
      [900, 800],
    ] as const) {
      await opened.page.setViewportSize({ width, height });
      await opened.idle();
      await opened.page.screenshot({ path: join(shots, `${name}-${width}.png`) });
    }
    await opened.page.setViewportSize({ width: 1280, height: 800 });
  };

  beforeAll(async () => {
    home = await mkdtemp(join(tmpdir(), "followcar-twenty-"));
    // Both as one person's: what one made the other trusts.
    await temporaryHome(await demoFiles(), home);
    const cache = process.env.FOLLOWCAR_CACHE!;
    const desk = await openDesk(home);
    process.env.FOLLOWCAR_CACHE = cache;
    const rides = desk.path("rides");
    const ride = await putRide(rides, "one.fit");
    const clips: string[] = [];
    // Given in another order than they were filmed in.
    for (let k = 0; k < CLIPS - UNSURE; k++)
      clips.push(await putClip(rides, `bars-${String(k + 1).padStart(2, "0")}.mp4`, 300 * (((k * 7) % CLIPS) + 1), 25));
    for (let k = 0; k < UNSURE; k++) {
      const path = join(rides, `lost-${k + 1}.mp4`);
      await writeNumberedClip(path, { widthPx: 320, heightPx: 192, frames: 50 + k, rate: "25" }, testTools());
      clips.push(path);
    }
    await desk.api.addFiles([ride, ...clips].map((path) => desk.id(path)));
    const view = desk.view();
    const anchors = view.clips
      .filter(({ name }) => name.startsWith("bars"))
      .map(({ id, name }) => {
        const k = clips.findIndex((path) => basename(path) === name);
        return { clipId: id, mediaS: 0, rideS: 300 * (((k * 7) % CLIPS) + 1), sigmaS: 0.2 };
      });
    await made({ part: "anchors", value: anchors, label: "anchors" }, desk);
    await desk.api.saveNow();
    const { folder } = desk.view();
    await desk.close();
    opened = await openWindow({ home, debrief: folder, widthPx: 1280, heightPx: 800 });
    opened.page.setDefaultTimeout(15_000);
    await opened.page.keyboard.press("1");
    await opened.page.getByRole("heading", { name: "Footage on the ride's clock" }).waitFor();
    await opened.idle();
  }, 300_000);
  afterAll(async () => {
    await opened.close();
    await rm(home, { recursive: true, force: true, maxRetries: 3 });
  });

  it("shows the ones to look at, folds those in their place, and keeps the tools in sight", async () => {
    const { page } = opened;
    const seen = page.locator(".lineup-list > ul > li");
    expect(await seen.count()).toBeLessThanOrEqual(UNSURE + 1);
    await page.getByText(`${CLIPS - UNSURE} more in their place`).waitFor();
    for (const part of [page.locator(".anchor-form"), page.getByLabel("The bike computer shows things late by")]) {
      const { y, height } = (await part.boundingBox())!;
      expect(y).toBeGreaterThan(0);
      expect(y + height).toBeLessThanOrEqual(800);
    }
    await page.locator(".lineup-found summary").click();
    await opened.idle();
    const { y, height } = (await page.locator(".anchor-form").boundingBox())!;
    expect(y + height).toBeLessThanOrEqual(800);
    await shot("lineup-twenty");
    expect(await opened.faults()).toEqual([]);
    expect(await opened.touchedFaults()).toEqual([]);
  }, 120_000);

  it("lists them in the order in which they were filmed", async () => {
    const { page } = opened;
    for (const list of [".lineup-list > ul", ".lineup-found > ul"]) {
      const starts = await page
        .locator(`${list} > li`)
        .evaluateAll((rows) => rows.map((row) => /\d+:\d\d:\d\d/.exec(row.textContent)?.[0] ?? "9"));
      expect(starts.length).toBeGreaterThan(1);
      expect(starts).toEqual([...starts].sort());
    }
  });

  it("searches in place: the time left and the way to stop it stand where the search was begun", async () => {
    const { page } = opened;
    const search = page.getByRole("button", { name: "Find it by motion and speed" });
    const box = (await search.boundingBox())!;
    await search.click();
    const stop = page.locator(".lineup-job").getByRole("button", { name: "Cancel" });
    await stop.waitFor();
    const bar = (await page.locator(".lineup-job").boundingBox())!;
    expect(Math.abs(bar.y - box.y)).toBeLessThan(60);
    await stop.click();
    await page.locator(".lineup-job").waitFor({ state: "detached" });
    await search.waitFor();
    expect(opened.problems).toEqual([]);
  }, 120_000);
});
