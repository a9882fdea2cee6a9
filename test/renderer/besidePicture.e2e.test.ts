// Two rides in Build: the other ride on a shot's own picture, and both clips of a pair playing side by side.
import { mkdirSync, readFileSync } from "node:fs";
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { anchorClip, gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

const HERS = "mara-bar.mp4";
/** Addresses of what is fetched by clip. */
const FRAME_TIMES = /\/data\/[0-9a-f]{32}\/[^/]+$/;
/** ISO/IEC 14496-12, 8.1.2: a box of free space. */
const EMPTY_BOX = Buffer.from([0, 0, 0, 8, ...Buffer.from("free")]);
/** Pictures are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

describeWindow("the other ride in Build", () => {
  let opened: OpenedWindow;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}.png`) });
  };
  const step = async (key: string) => {
    await opened.page.locator("body").click({ position: { x: 3, y: 300 } });
    await opened.page.keyboard.press(key);
  };
  const panels = () =>
    opened.page.locator(".build .player-panels").evaluate((canvas: HTMLCanvasElement) => canvas.toDataURL());
  /** Clip times on the two halves, s; NaN: none there. */
  const media = async () => {
    const said = await opened.page.locator(".build canvas.build-card").getAttribute("data-media");
    return (said ?? " ").split(" ").map((one) => (one === "" ? Number.NaN : Number(one)));
  };
  /** Goes through the parts of the pair until one has a picture on both halves. */
  const both = async () => {
    const parts = await opened.page.locator(".build-part", { hasText: "you / mara" }).all();
    for (const [k, part] of parts.entries()) {
      await part.click();
      await opened.page.waitForTimeout(1500);
      filmed = k;
      if ((await media()).every(Number.isFinite)) return true;
    }
    return false;
  };
  let filmed = 0;

  beforeAll(async () => {
    opened = await openWindow({ widthPx: 1280, heightPx: 800 });
    await writeFile(join(opened.home, "rides", "mara.fit"), demoRideFile(demoRide(2)));
    // Her camera saw the same road some seconds earlier: the same clip again, with a few empty bytes more.
    const filmed = readFileSync(join(opened.demo.folder, opened.demo.clipNames.at(-1)!));
    await writeFile(join(opened.home, "rides", HERS), Buffer.concat([filmed, EMPTY_BOX]));
    await gatherDemo(opened, ["mara.fit", HERS]);
    await anchorClip(opened, `${HERS}@6=1:39:30`);
    await opened.idle();
  }, 180_000);
  afterAll(() => opened.close());

  it("puts the other ride on a shot's picture, says which numbers are told for both, and takes it off", async () => {
    const { page } = opened;
    await step("2");
    await page.locator(".skim-moment").first().waitFor();
    const onPicture = page.getByRole("button", { name: "mara, on this picture" });
    const count = await page.locator(".skim-moment").count();
    for (let k = 0; k < count && (await onPicture.count()) === 0; k++) {
      await page.locator(".skim-moment").nth(k).click();
      await opened.idle();
    }
    await shot("skim-on-picture");
    await onPicture.click({ timeout: 5000 });
    await page.getByTitle("Undo: show beside another ride").waitFor({ timeout: 20_000 });
    await step("3");
    await page.locator(".build-parts > li").first().waitFor();
    const fold = page.getByRole("button", { name: /The other ride on it/ });
    const parts = await page.locator(".build-part").count();
    for (let k = 0; k < parts && (await fold.count()) === 0; k++) {
      await page.locator(".build-part").nth(k).click();
      await opened.idle();
    }
    await fold.press("Enter");
    await page.locator('.build .player[data-frame]:not([data-frame=""])').waitFor({ timeout: 60_000 });
    await opened.idle();
    const before = await panels();
    await shot("build-now-then");
    const numbers = page.getByRole("group", { name: "Numbers shown as now / then" });
    expect(await numbers.getByLabel("power").isChecked()).toBe(true);
    await numbers.getByLabel("speed").press("Space");
    await page.getByTitle("Undo: now / then: speed").waitFor({ timeout: 20_000 });
    await expect.poll(panels, { timeout: 20_000 }).not.toBe(before);
    await shot("build-now-then-by-place");
    await page.getByRole("group", { name: "Both run" }).getByRole("button", { name: "by time" }).press("Enter");
    await page.getByTitle("Undo: Both run: by time").waitFor({ timeout: 20_000 });
    await numbers.getByLabel("gradient").click();
    await page.getByTitle("Undo: now / then: gradient").waitFor({ timeout: 20_000 });
    await opened.idle();
    await shot("build-now-then-by-time");
    await numbers.getByLabel("power").click();
    await page.getByTitle("Undo: now / then: power").waitFor({ timeout: 20_000 });
    expect(await numbers.getByLabel("power").isChecked()).toBe(false);
    await opened.idle();
    await shot("build-now-then-speed");
    expect(await opened.faults()).toEqual([]);
    await page.getByRole("button", { name: "Take mara off this picture" }).click();
    await page.getByTitle("Undo: mara off the picture").waitFor({ timeout: 20_000 });
    await expect.poll(() => fold.count(), { timeout: 20_000 }).toBe(0);
    expect(opened.problems).toEqual([]);
  }, 240_000);

  it("plays both clips of a pair in Build, each at its pace", async () => {
    const { page } = opened;
    await step("2");
    const halves = page.getByRole("button", { name: "mara, side by side" });
    await halves.click();
    await page.getByTitle("Undo: show beside another ride").waitFor({ timeout: 20_000 });
    await step("3");
    await page
      .getByRole("button", { name: /you \/ mara/i })
      .first()
      .click();
    const picture = page.getByLabel("The other rider's picture");
    await picture.waitFor();
    await expect.poll(media, { timeout: 60_000 }).toEqual([Number.NaN, Number.NaN]);
    await page
      .getByRole("button", { name: /you \/ mara/i })
      .nth(1)
      .click();
    await expect.poll(async () => Number.isFinite((await media())[0]), { timeout: 60_000 }).toBe(true);
    await opened.idle();
    await shot("build-pair-one");
    // A clip of another stretch shows nothing here, and that is said.
    await picture.selectOption({ label: opened.demo.clipNames[0]! });
    await page.getByText(`${opened.demo.clipNames[0]!} is not lined up on this stretch`).waitFor({ timeout: 20_000 });
    await picture.selectOption({ label: HERS });
    await page.getByTitle("Undo: show beside another ride").waitFor({ timeout: 20_000 });
    await opened.idle();
    // Parts of it end where either footage does; in one both are there.
    await expect.poll(both, { timeout: 60_000 }).toBe(true);
    await opened.idle();
    await shot("build-pair-two");
    // It stays where it stood, before the closing card.
    const titles = await page.locator(".build-part").allTextContents();
    expect(titles.at(-1)).toMatch(/^The next ride/);
    const [first, second] = (await media()) as [number, number];
    await page.getByRole("button", { name: "Play the film" }).first().click();
    await page.waitForTimeout(3000);
    await shot("build-pair-playing");
    await page.getByRole("button", { name: "Stop" }).first().click();
    const [firstNow, secondNow] = (await media()) as [number, number];
    expect(firstNow - first).toBeGreaterThan(1);
    expect(secondNow - second).toBeGreaterThan(1);
    expect(await opened.faults()).toEqual([]);
    expect(opened.problems).toEqual([]);
  }, 240_000);

  it("asks again for frame times that could not be had: no half stays without its picture", async () => {
    const { page } = opened;
    let failed = 0;
    await page.route(FRAME_TIMES, (route) => (failed++ < 4 ? route.abort() : route.continue()));
    await page.reload();
    await page.getByRole("button", { name: "Build" }).first().waitFor();
    await step("3");
    // Once, and then left alone.
    await page.locator(".build-part", { hasText: "you / mara" }).nth(filmed).click();
    await expect.poll(async () => (await media()).every(Number.isFinite), { timeout: 30_000 }).toBe(true);
    expect(failed).toBeGreaterThan(4);
    await page.unroute(FRAME_TIMES);
    expect(opened.problems.filter((one) => !one.includes("ERR_FAILED"))).toEqual([]);
  }, 120_000);
});
