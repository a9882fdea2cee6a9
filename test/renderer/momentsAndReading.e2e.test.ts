// What a coach sees at one look: the ride told as a picture with words, and the moments, whole rows of them.
import { cpSync, mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { DEMO_SEED } from "../../main/demo/makeDemo.edge.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

/** Pictures are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

const SIZES =
  shots === undefined
    ? ([[1440, 900]] as const)
    : ([
        [1280, 800],
        [1440, 900],
        [1920, 1080],
        [900, 800],
      ] as const);

describeWindow("moments and reading", () => {
  let opened: OpenedWindow;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    for (const theme of ["dark", "light"] as const) {
      await opened.page.emulateMedia({ colorScheme: theme });
      for (const [width, height] of SIZES) {
        await opened.page.setViewportSize({ width, height });
        await opened.idle();
        await opened.page.screenshot({ path: join(shots, `${name}-${theme}-${width}.png`) });
      }
      await opened.page.setViewportSize({ width: 720, height: 450 });
      await opened.idle();
      await opened.page.screenshot({ path: join(shots, `${name}-${theme}-twice.png`), fullPage: true });
    }
    await opened.page.setViewportSize({ width: 1440, height: 900 });
    await opened.page.emulateMedia({ colorScheme: "dark" });
    await opened.idle();
  };
  /** Sentences of moments that are seen: how many whole, and how many in part. */
  const rowsSeen = () =>
    opened.page.locator(".skim-list").evaluate(async (list) => {
      for (let k = 0; k < 3; k++) await new Promise((resolve) => requestAnimationFrame(resolve));
      const room = list.getBoundingClientRect();
      const boxes = [...list.children]
        .filter((row) => Number(getComputedStyle(row).opacity) > 0)
        .map((row) => row.getBoundingClientRect())
        .filter(({ top, bottom }) => bottom > room.top + 1 && top < room.bottom - 1);
      const whole = boxes.filter(({ top, bottom }) => top >= room.top - 2 && bottom <= room.bottom + 2);
      return { whole: whole.length, cut: boxes.length - whole.length };
    });

  beforeAll(async () => {
    opened = await openWindow({ widthPx: 1440, heightPx: 900 });
    const { demo, home, page } = opened;
    const folder = join(home, ".cache", "followcar", "example");
    cpSync(demo.folder, folder, { recursive: true });
    const made = { seed: DEMO_SEED, ride: demo.rideName, plan: "plan.json", clips: demo.clipNames };
    writeFileSync(join(folder, "made.json"), JSON.stringify(made));
    await page.getByRole("button", { name: "Try it with an example ride" }).waitFor();
    await page.keyboard.press("e");
    await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor({ timeout: 60_000 });
    await opened.idle();
  }, 180_000);
  afterAll(() => opened.close());

  /** Headings of the told ride in the order in which they are read. */
  const headings = () =>
    opened.page.locator(".told :is(h2, h3)").evaluateAll((all) => all.map((one) => one.textContent));
  const emptyItems = () =>
    opened.page.locator("main li").evaluateAll((all) => all.filter((one) => one.textContent.trim() === "").length);
  const heartDrawn = () =>
    opened.page.locator(".told-chart canvas").evaluate((canvas: HTMLCanvasElement) =>
      canvas
        .getContext("2d")!
        .getImageData(0, 0, canvas.width, canvas.height)
        .data.some((value) => value > 0),
    );

  it("tells the ride as three lines, plan beside ride, the heart with its chart and the hours, on Files as on Skim", async () => {
    const { page } = opened;
    const order = ["What the ride says", "The plan and the ride", "The heart", "By the hour"];
    await page.locator(".told-chart canvas").waitFor();
    expect(await headings()).toEqual(order);
    expect(await page.locator(".told-lines dd").count()).toBe(3);
    expect(await page.locator(".told-rows tr", { hasText: "Power, mean" }).textContent()).toMatch(/\d+\sW \(.*\d+\sW/);
    await expect.poll(heartDrawn).toBe(true);
    await page.locator(".told-words summary").click();
    expect(await emptyItems()).toBe(0);
    await page.locator(".told-words summary").click();
    const lines = await page.locator(".told-lines").textContent();
    await page.locator(".told").scrollIntoViewIfNeeded();
    await shot("files-told");
    expect(await opened.faults()).toEqual([]);
    await page.keyboard.press("2");
    await page.locator(".skim-moment").first().waitFor();
    await page.keyboard.press("r");
    await page.locator(".told-chart canvas").waitFor();
    expect(await headings()).toEqual(order);
    expect(await page.locator(".told-lines").textContent()).toBe(lines);
    await expect.poll(heartDrawn).toBe(true);
    expect(await emptyItems()).toBe(0);
    await shot("skim-told");
    await page.locator(".told-hours").scrollIntoViewIfNeeded();
    await shot("skim-hours");
    expect(await opened.faults()).toEqual([]);
    expect(await opened.touchedFaults()).toEqual([]);
  }, 120_000);

  it("shows eight moments and more, none of them cut, with one scroll beside the picture", async () => {
    const { page } = opened;
    await page.keyboard.press("m");
    await page.locator(".skim-moment").first().waitFor();
    await opened.idle();
    const seen = await rowsSeen();
    expect(seen.whole).toBeGreaterThanOrEqual(8);
    expect(seen.cut).toBe(0);
    await page.locator(".skim-list").evaluate((list) => list.scrollBy(0, 13));
    expect((await rowsSeen()).cut).toBe(0);
    const over = await page.locator(".skim > .side").evaluate((side) => side.scrollHeight - side.clientHeight);
    expect(over).toBeLessThanOrEqual(0);
    // The chosen one is among them, whichever it is.
    for (const key of ["n", "n", "n", "p"]) {
      await page.keyboard.press(key);
      await opened.idle();
      expect((await rowsSeen()).cut).toBe(0);
      const current = page.locator('.skim-list > li:has([aria-current="true"])');
      expect(await current.evaluate((row) => row.classList.contains("cut"))).toBe(false);
    }
    await shot("skim-moments");
    expect(await opened.touchedFaults()).toEqual([]);
  }, 120_000);

  it("is one stop for Tab: the chosen moment, and the next press leaves the list", async () => {
    const { page } = opened;
    const focused = () =>
      page.evaluate(() => ({
        row: document.activeElement!.classList.contains("skim-moment"),
        current: document.activeElement!.getAttribute("aria-current"),
        text: document.activeElement!.textContent,
      }));
    await page.locator(".skim-moment").nth(2).click();
    await page.locator(".skim-filter select").focus();
    await page.keyboard.press("Tab");
    const first = await focused();
    expect(first).toMatchObject({ row: true, current: "true" });
    await page.keyboard.press("ArrowDown");
    await expect.poll(async () => (await focused()).text).not.toBe(first.text);
    expect(await focused()).toMatchObject({ row: true, current: "true" });
    await page.keyboard.press("Tab");
    expect((await focused()).row).toBe(false);
  });

  it("has the note and the reason of a break in sight", async () => {
    const { page } = opened;
    await page.locator(".skim-moment", { hasText: "no pressure for" }).first().click();
    await opened.idle();
    for (const field of [
      page.getByLabel("Note for the athlete"),
      page.getByLabel(/^Reason of the break at/).first(),
      page.getByRole("button", { name: /^Keep in the film/ }),
    ]) {
      const { y, height } = (await field.boundingBox())!;
      expect(y).toBeGreaterThan(0);
      expect(y + height).toBeLessThanOrEqual(900);
    }
    expect((await rowsSeen()).whole).toBeGreaterThanOrEqual(8);
    await shot("skim-break");
  });

  it("shows what was filmed alone", async () => {
    const { page } = opened;
    const filter = page.locator(".skim-filter select");
    const rows = page.locator(".skim-moment");
    const all = await rows.count();
    await filter.selectOption({ label: (await filter.locator("option", { hasText: "filmed" }).textContent())! });
    const shown = await rows.count();
    expect(shown).toBeGreaterThan(0);
    expect(shown).toBeLessThan(all);
    expect(await page.locator(".skim-moment", { hasText: "not filmed" }).count()).toBe(0);
    await filter.selectOption("");
    const notFilmed = await page.locator(".skim-moment", { hasText: "not filmed" }).count();
    expect(shown).toBeLessThanOrEqual(all - notFilmed);
  });

  it("shows the ride's shape on wish, goes where its line is pressed, and asks nobody for a map", async () => {
    const { page } = opened;
    const before = opened.requests.length;
    await page.keyboard.press("2");
    await page.locator(".stage-cell").click();
    await page.keyboard.press("Shift+m");
    await page.locator(".ride-map canvas").waitFor();
    await opened.idle();
    await page.locator(".ride-map-dot:not([hidden])").waitFor({ state: "attached" });
    const at = () => page.locator(".strip-all").getAttribute("aria-valuenow").then(Number);
    const from = await at();
    // Along the middle of the map there is a line somewhere.
    const box = (await page.locator(".ride-map").boundingBox())!;
    for (let share = 0.1; share < 0.95 && (await at()) === from; share += 0.1) {
      await page.mouse.click(box.x + share * box.width, box.y + box.height / 2);
      await opened.idle();
    }
    expect(await at()).not.toBe(from);
    await shot("skim-map");
    expect(await opened.faults()).toEqual([]);
    await page.keyboard.press("3");
    await page.keyboard.press("2");
    await page.locator(".ride-map").waitFor();
    await page.locator(".stage-cell").click();
    await page.keyboard.press("Shift+m");
    await page.locator(".ride-map").waitFor({ state: "detached" });
    expect(
      opened.requests.slice(before).filter((address) => !/^(http|blob:http):\/\/127\.0\.0\.1/.test(address)),
    ).toEqual([]);
    expect(opened.problems).toEqual([]);
  }, 120_000);
});
