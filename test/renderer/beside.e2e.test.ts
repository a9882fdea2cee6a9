// Two rides on one road in the window: the other's thread on the strip, a shot beside it from a moment, changed in Build.
import { mkdirSync } from "node:fs";
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

const shots = process.env.FOLLOWCAR_SHOTS;

describeWindow("two rides on one road", () => {
  let opened: OpenedWindow;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}.png`) });
  };

  beforeAll(async () => {
    opened = await openWindow({ widthPx: 1280, heightPx: 720 });
    const { page, demo, home } = opened;
    await writeFile(join(home, "rides", "mara.fit"), demoRideFile(demoRide(2)));
    await writeFile(join(home, "rides", "zoe.fit"), demoRideFile(demoRide(3)));
    await page.getByRole("heading", { level: 1, name: "Drop a ride and its footage here" }).waitFor();
    await page.keyboard.press("f");
    const list = page.getByRole("listbox");
    await list.getByRole("option", { name: /rides/ }).dblclick();
    for (const name of [demo.rideName, "mara.fit", "zoe.fit", demo.clipNames[0]!])
      await list.getByRole("option", { name }).click({ modifiers: ["Control"] });
    await page.getByRole("button", { name: "Take 4 files" }).click();
    await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor();
    await page.waitForFunction(() => !document.body.innerText.includes("Being read"));
    await page.locator("body").click({ position: { x: 5, y: 300 } });
    await page.keyboard.press("2");
    await page.getByRole("list", { name: "Moments of this ride" }).waitFor();
  }, 240_000);
  afterAll(() => opened.close());

  it("draws the other ride that the coach chooses, by pointer and by key", async () => {
    const { page } = opened;
    const other = page.getByLabel("Below it");
    await other.waitFor();
    expect(await other.locator("option").allTextContents()).toEqual(["mara", "zoe", "no other ride"]);
    const drawn = () => page.locator(".strip-canvas").evaluate((canvas: HTMLCanvasElement) => canvas.toDataURL());
    await opened.idle();
    const first = await drawn();
    await other.selectOption("zoe");
    await expect.poll(drawn, { timeout: 20_000 }).not.toBe(first);
    await page.locator("body").click({ position: { x: 5, y: 300 } });
    await page.keyboard.press("Shift+B");
    expect(await other.inputValue()).toBe("");
    const alone = await drawn();
    await page.keyboard.press("Shift+B");
    expect(await other.inputValue()).toBe("mara");
    await expect.poll(drawn, { timeout: 20_000 }).not.toBe(alone);
    await opened.idle();
    await shot("skim-other-ride");
    expect(await opened.faults()).toEqual([]);
  }, 120_000);

  it("offers the rides that passed at a moment, by key, and puts the shot into the film", async () => {
    const { page } = opened;
    await page.locator(".skim-moment").nth(1).click();
    const group = page.getByRole("group", { name: "Show beside…" });
    await group.waitFor();
    await page.locator(".stage-cell").click();
    await page.keyboard.press("b");
    await page.waitForFunction(() => /side by side/.test(document.activeElement?.textContent ?? ""));
    await opened.idle();
    await shot("skim-beside");
    expect(await opened.faults()).toEqual([]);
    await page.keyboard.press("Enter");
    await page.getByTitle("Undo: show beside another ride").waitFor();
  }, 120_000);

  it("is changed in Build: by time, the other side, and how long", async () => {
    const { page } = opened;
    await page.locator("body").click({ position: { x: 5, y: 300 } });
    await page.keyboard.press("3");
    await page
      .getByRole("button", { name: /side by side|you \//i })
      .first()
      .click();
    const follow = page.getByRole("group", { name: "Both run" });
    await follow.waitFor();
    await opened.idle();
    await shot("build-beside");
    await follow.getByRole("button", { name: "by time" }).press("Enter");
    await page.locator('[aria-label="Both run"] [aria-pressed="true"]', { hasText: "by time" }).waitFor();
    await page.getByRole("button", { name: "right or below" }).click();
    await page
      .getByRole("heading", { name: /\/ you/ })
      .or(page.getByText(/\/ you/))
      .first()
      .waitFor();
    const lasts = page.getByLabel("Shows of this ride");
    await lasts.fill("8");
    await lasts.press("Enter");
    await page
      .getByText(/lasts 8 s/)
      .first()
      .waitFor();
    await opened.idle();
    expect(await opened.faults()).toEqual([]);
    const picture = page.getByLabel("The other rider's picture");
    expect(await picture.inputValue()).toBe("");
    await picture.selectOption({ label: opened.demo.clipNames[0]! });
    await expect
      .poll(() => picture.evaluate((one: HTMLSelectElement) => one.selectedOptions[0]!.text), { timeout: 20_000 })
      .toBe(opened.demo.clipNames[0]);
    await opened.idle();
    await shot("build-beside-picture");
  }, 120_000);
});
