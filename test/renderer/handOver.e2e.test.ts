// Before it is handed over: the button is near, the film is watched, the page is read as it will be, its sentences are changed, the message is copied.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

/** Pictures are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

describeWindow("before it is handed over", () => {
  let opened: OpenedWindow;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}-light-1280.png`) });
  };
  const page = () => opened.page.frameLocator("iframe.handover-page");

  beforeAll(async () => {
    opened = await openWindow({ widthPx: 1280, heightPx: 800, theme: "light" });
    await gatherDemo(opened);
    await opened.page.locator("body").click({ position: { x: 3, y: 300 } });
    await opened.page.keyboard.press("4");
    await opened.page.getByRole("heading", { name: "The film as it will be" }).waitFor();
  }, 240_000);
  afterAll(() => opened.close());

  it("is reached by few presses of Tab, and its button stands below what it is about", async () => {
    const window = opened.page;
    const go = window.getByRole("button", { name: "Render and write" });
    await go.and(window.locator(":enabled")).waitFor({ timeout: 30_000 });
    await window.locator(".frame-step", { hasText: "Hand over" }).focus();
    const isThere = () => go.evaluate((one) => one === document.activeElement);
    let presses = 0;
    while (!(await isThere()) && presses < 30) {
      await window.keyboard.press("Tab");
      presses += 1;
    }
    // Undo, redo, athletes, keys and about stand before it.
    expect(presses).toBeLessThanOrEqual(6);
    const { height, y } = (await go.boundingBox())!;
    expect(y + height).toBeLessThanOrEqual(800);
    expect(y).toBeGreaterThan(700);
    // From here Space would press it.
    await window.locator("body").click({ position: { x: 3, y: 300 } });
  });

  it("is gone through by Tab as the eye does, down one column and then the other, nothing behind the line at the bottom", async () => {
    const window = opened.page;
    await window.getByRole("button", { name: "Render and write" }).focus();
    const stops: { readonly column: number; readonly y: number; readonly hidden: boolean; readonly name: string }[] =
      [];
    for (;;) {
      await window.keyboard.press("Tab");
      const stop = await window.evaluate(() => {
        const one = document.activeElement!;
        const column = [...document.querySelectorAll(".handover > .stack")].findIndex((part) => part.contains(one));
        const { y, bottom } = one.getBoundingClientRect();
        const hidden = bottom > document.querySelector(".handover-go")!.getBoundingClientRect().top;
        return { column, y: y + scrollY, hidden, name: one.outerHTML.slice(0, 80) };
      });
      if (stop.column < 0) break;
      stops.push(stop);
    }
    expect(stops.length).toBeGreaterThan(8);
    expect(stops.filter(({ hidden }) => hidden)).toEqual([]);
    const byEye = [...stops].sort((a, b) => a.column - b.column || a.y - b.y);
    expect(stops.map(({ name }) => name)).toEqual(byEye.map(({ name }) => name));
    await window.evaluate(() => scrollTo(0, 0));
    await window.locator("body").click({ position: { x: 3, y: 300 } });
  });

  it("shows the film as wide as its column lets it be, also after the window grew, with its button in sight", async () => {
    const window = opened.page;
    const boxes = () =>
      window.evaluate(() => {
        const [part, picture, button] = [".watch", ".watch .player-picture", ".watch .button.main"].map((one) =>
          document.querySelector(one)!.getBoundingClientRect(),
        );
        const go = document.querySelector(".handover-go")!.getBoundingClientRect();
        return { over: picture!.right - part!.right, width: picture!.width, below: button!.bottom - go.top };
      });
    for (const [width, height] of [
      [900, 720],
      [1440, 900],
      [900, 720],
      [1280, 800],
    ] as const) {
      await window.setViewportSize({ width, height });
      await opened.idle();
      const { over, width: widthPx, below } = await boxes();
      expect(over, `${width}`).toBeLessThanOrEqual(0.5);
      expect(widthPx, `${width}`).toBeGreaterThan(480);
      expect(below, `${width}`).toBeLessThanOrEqual(0);
    }
  });

  it("plays the film whole, from its first card into its shots, and goes where its ruler is pressed", async () => {
    const window = opened.page;
    const head = window.getByRole("slider", { name: "Where the film stands" });
    const at = () => head.getAttribute("aria-valuenow").then(Number);
    const lengthS = Number(await head.getAttribute("aria-valuemax"));
    expect(lengthS).toBeGreaterThan(20);
    await window.locator(".watch .build-card").waitFor();
    await window.keyboard.press(" ");
    await expect.poll(at, { timeout: 20_000 }).toBeGreaterThan(1);
    // On into footage: its frames come.
    await window.waitForFunction(
      () => document.querySelector<HTMLElement>(".watch .player")!.dataset.frame !== "",
      null,
      {
        timeout: 40_000,
      },
    );
    await window.keyboard.press(" ");
    await window.getByRole("button", { name: "Watch it" }).waitFor();
    await shot("handover-watch");
    const { x, y, width } = (await window.locator(".watch .lane-ruler").boundingBox())!;
    await window.mouse.click(x + 0.98 * width, y + 8);
    expect(await at()).toBeCloseTo(0.98 * lengthS, 0);
    expect(await opened.faults()).toEqual([]);
    expect(await opened.touchedFaults()).toEqual([]);
  }, 120_000);

  it("shows the page as it will be, with its pictures, and a sentence written over at once in it", async () => {
    const window = opened.page;
    await page().getByRole("heading", { level: 1 }).waitFor();
    await window.getByText("as written, with its pictures").waitFor({ timeout: 60_000 });
    expect(await page().locator("img").count()).toBeGreaterThan(0);
    const field = window.getByLabel("What to change");
    const made = await field.inputValue();
    await page().getByText(made).first().waitFor();
    await field.fill("Breathe out before each rise.");
    await window.getByLabel("A note of yours").focus();
    await page().getByText("Breathe out before each rise.").first().waitFor({ timeout: 20_000 });
    await window.locator(".handover-yours").waitFor();
    await shot("handover-page");
    await window.getByRole("button", { name: "What to change: take the made one" }).click();
    await page().getByText(made).first().waitFor({ timeout: 20_000 });
  }, 120_000);

  it("shows the film in the shape it will have, and the message goes to the clipboard by its button", async () => {
    const window = opened.page;
    const shape = () =>
      window.locator(".watch .player-picture").evaluate((one) => {
        const { width, height } = one.getBoundingClientRect();
        return width / height;
      });
    expect(await shape()).toBeCloseTo(16 / 9, 1);
    await window.getByLabel("for a phone, upright", { exact: false }).check();
    await expect.poll(shape, { timeout: 20_000 }).toBeCloseTo(9 / 16, 1);
    await shot("handover-upright");
    await opened.context.grantPermissions(["clipboard-read", "clipboard-write"]);
    await window.getByRole("button", { name: "Copy" }).click();
    await window.getByRole("button", { name: "Copied" }).waitFor();
    const said = await window.locator(".handover-message").innerText();
    expect((await window.evaluate(() => navigator.clipboard.readText())).trim()).toBe(said.trim());
    expect(opened.problems).toEqual([]);
  });
});
