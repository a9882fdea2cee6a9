// Skim: a comment is spoken while a key or the button is held, and Build has it; skills are ticked; the strip draws what the plan asks for.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

const shots = process.env.FOLLOWCAR_SHOTS;

describeWindow("a comment spoken while skimming", () => {
  let opened: OpenedWindow;
  const step = async (key: "2" | "3") => {
    await opened.page.locator("body").click({ position: { x: 3, y: 300 } });
    await opened.page.keyboard.press(key);
  };
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}.png`) });
  };
  const status = (text: RegExp) => opened.page.locator(".skim-tools").getByText(text).waitFor({ timeout: 30_000 });

  beforeAll(async () => {
    // A made-up microphone, so that recording is tried where there is none.
    opened = await openWindow({
      theme: "light",
      widthPx: 1280,
      heightPx: 720,
      browserArguments: ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"],
    });
    await gatherDemo(opened);
    await step("2");
    await opened.page.getByRole("list", { name: "Moments of this ride" }).waitFor();
    await opened.page.locator('.skim .player[data-picture="shown"], .skim .player[data-picture="ride"]').waitFor();
  }, 180_000);
  afterAll(() => opened.close());

  it("by a held key: kept at the instant, a part of the film in Build, one step to take back", async () => {
    const { page } = opened;
    await page.keyboard.down("v");
    await status(/^Recording/);
    await page.waitForTimeout(1500);
    await shot("skim-speaking");
    await page.keyboard.up("v");
    await page.getByTitle("Undo: speak a comment").waitFor({ timeout: 30_000 });
    await status(/^Kept here/);
    await page.locator(".skim-moment").filter({ hasText: "your spoken comment" }).first().waitFor();
    expect(await opened.faults()).toEqual([]);
    await step("3");
    const part = page.locator(".build-part").filter({ hasText: "A moment to look at" }).first();
    await part.click();
    await page.locator(".build-parts > li.chosen").filter({ hasText: "A moment to look at" }).waitFor();
    await opened.idle();
    const fold = page.locator(".fold-head", { hasText: "Spoken comment" });
    if ((await fold.getAttribute("aria-expanded")) === "false") await fold.click();
    await page.getByText(/^Comment of [12] s/).waitFor({ timeout: 30_000 });
    await shot("build-spoken");
    await page.keyboard.press("Control+z");
    await part.waitFor({ state: "detached", timeout: 30_000 });
    await step("2");
    await page.getByRole("list", { name: "Moments of this ride" }).waitFor();
    expect(await page.locator(".skim-moment").filter({ hasText: "your spoken comment" }).count()).toBe(0);
  });

  it("by the button held down, wherever it is let go; a touch keeps nothing", async () => {
    const { page } = opened;
    const button = page.getByRole("button", { name: /Hold and speak|Release to keep/ });
    const { x, y, width, height } = (await button.boundingBox())!;
    await page.mouse.move(x + width / 2, y + height / 2);
    await page.mouse.down();
    await status(/^Recording/);
    await page.waitForTimeout(1200);
    await page.mouse.move(x + 200, y + 200);
    await page.mouse.up();
    await page.getByTitle("Undo: speak a comment").waitFor({ timeout: 30_000 });
    await page.keyboard.press("Control+z");
    await page.getByTitle("Undo: speak a comment").waitFor({ state: "detached", timeout: 30_000 });
    await page.keyboard.down("v");
    await page.keyboard.up("v");
    await status(/^Too short/);
    expect(await page.getByTitle("Undo: speak a comment").count()).toBe(0);
  });

  it("ticks a skill that was practised", async () => {
    const { page } = opened;
    await page.keyboard.press("r");
    await page.getByLabel("Another one").selectOption("Hands in the drops");
    await page.getByTitle("Undo: practised: Hands in the drops").waitFor({ timeout: 30_000 });
    const field = page.getByLabel("Hands in the drops");
    await field.fill("3");
    await field.press("Enter");
    await expect.poll(() => field.inputValue()).toBe("3");
    await opened.idle();
    await shot("skim-skills");
    expect(await opened.faults()).toEqual([]);
  });
});
