// Who works by keys alone gets to what a step is most about in a few presses, and back to it from wherever one is.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Locator } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

const shots = process.env.FOLLOWCAR_SHOTS;
/** Presses after which nobody goes on looking. */
const MOST = 150;

describeWindow("a step by Tab alone", () => {
  let opened: OpenedWindow;
  beforeAll(async () => {
    opened = await openWindow({ widthPx: 1280, heightPx: 800 });
    await gatherDemo(opened);
  }, 180_000);
  afterAll(() => opened.close());

  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}.png`) });
  };
  const isFocused = (one: Locator) => one.evaluate((element) => element === document.activeElement);
  /** Presses of Tab until it has the focus. */
  const tabsTo = async (one: Locator, key = "Tab"): Promise<number> => {
    for (let presses = 1; presses <= MOST; presses++) {
      await opened.page.keyboard.press(key);
      if (await isFocused(one)) return presses;
    }
    throw new Error(`${MOST} presses of ${key} do not reach it`);
  };
  /** Opens a step by its key, the focus on the step's name in the head. */
  const open = async (step: RegExp, key: string) => {
    await opened.page.keyboard.press(key);
    const name = opened.page.locator(".frame-head").getByRole("button", { name: step });
    await opened.page.locator(".frame-head [aria-current=step]").filter({ hasText: step }).waitFor();
    await name.focus();
  };

  it.each([
    ["Line up", "1", "To the clips", ".lineup-list .start-open"],
    ["Skim", "2", "To the moments", ".skim-moment"],
    ["Build", "3", "To the parts of the film", ".build-part"],
  ])(
    "gets to what %s is about within 5 keys, by a way past the tools that is seen while it has the focus",
    async (step, key, words, target) => {
      const { page } = opened;
      await open(new RegExp(`^${step}`), key);
      await page.locator(target).first().waitFor();
      const skip = page.getByRole("button", { name: words, exact: true });
      const hidden = (await skip.boundingBox())!;
      expect(hidden.width).toBeLessThanOrEqual(1);
      expect(await tabsTo(skip)).toBeLessThanOrEqual(4);
      const seen = (await skip.boundingBox())!;
      expect(Math.min(seen.width, seen.height)).toBeGreaterThan(24);
      expect(seen.x + seen.width).toBeLessThanOrEqual(1280);
      await shot(`skip-${key}`);
      expect(await opened.faults()).toEqual([]);
      await page.keyboard.press("Enter");
      expect(await page.evaluate((selector) => document.activeElement!.matches(selector), target)).toBe(true);
      expect((await skip.boundingBox())!.width).toBeLessThanOrEqual(1);
    },
  );

  it("goes to the film's first part by Home, from wherever it is in Build", async () => {
    const { page } = opened;
    await open(/^Build/, "3");
    const at = () =>
      page.locator(".build-part").evaluateAll((parts) => parts.findIndex((one) => one.ariaCurrent === "true"));
    for (let k = 0; k < 3; k++) await page.keyboard.press("ArrowDown");
    await expect.poll(at).toBeGreaterThan(0);
    await page.keyboard.press("Home");
    await expect.poll(at).toBe(0);
  });

  it("gets from a moment's details back to its row by Escape, from the fields too, and what was typed is kept", async () => {
    const { page } = opened;
    await open(/^Skim/, "2");
    const row = page.locator('.skim-moment[aria-current="true"]');
    await page.locator(".skim-moment").nth(2).click();
    await page.getByRole("button", { name: /^Starts here/ }).focus();
    await page.keyboard.press("Escape");
    expect(await isFocused(row)).toBe(true);
    await page.keyboard.press("e");
    await page.keyboard.type("The long drag");
    await page.keyboard.press("Escape");
    await page.getByTitle(/^Undo: name of/).waitFor({ timeout: 20_000 });
    expect(await isFocused(row)).toBe(true);
    expect(await row.textContent()).toContain("The long drag");
    await page.keyboard.press("Control+z");
    await page.getByTitle(/^Redo: name of/).waitFor({ timeout: 20_000 });
    await page.keyboard.press("r");
    await page.locator(".skim-view").nth(1).focus();
    await page.keyboard.press("m");
    await expect.poll(() => isFocused(row)).toBe(true);
  });

  it("gets from a moment's details back to its row by Tab within 15 presses, on a way that is named", async () => {
    const { page } = opened;
    await page.locator(".skim-moment").nth(2).click();
    const keep = page.locator(".skim-detail").getByRole("button", { name: /^Keep/ });
    await keep.focus();
    const back = page.getByRole("button", { name: "Back to the moments" });
    const there = await tabsTo(back);
    expect(there).toBeLessThanOrEqual(6);
    await shot("skip-back");
    expect(await opened.faults()).toEqual([]);
    await page.keyboard.press("Enter");
    expect(await isFocused(page.locator('.skim-moment[aria-current="true"]'))).toBe(true);
    await keep.focus();
    expect(await tabsTo(page.locator('.skim-moment[aria-current="true"]'), "Shift+Tab")).toBe(1);
  });

  it("loses the focus nowhere where the next moment takes the place of the details it was in", async () => {
    const { page } = opened;
    await page.locator(".skim-moment").nth(2).click();
    await page.locator(".skim-detail").getByRole("button", { name: /^Drop/ }).focus();
    await page.keyboard.press("n");
    await expect.poll(() => isFocused(page.locator('.skim-moment[aria-current="true"]'))).toBe(true);
    expect(opened.problems).toEqual([]);
  });
});
