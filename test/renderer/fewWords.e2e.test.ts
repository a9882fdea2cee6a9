// What needs no look takes one short line; what is doubted or was changed stands there whole.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

const shots = process.env.FOLLOWCAR_SHOTS;

describeWindow.each([{ theme: "dark" }, { theme: "light" }] as const)("few words, $theme", ({ theme }) => {
  let opened: OpenedWindow;
  beforeAll(async () => {
    opened = await openWindow({ theme, widthPx: 1280, heightPx: 800 });
    await gatherDemo(opened);
    await opened.page.locator("body").click({ position: { x: 5, y: 300 } });
  }, 180_000);
  afterAll(() => opened.close());

  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}-${theme}.png`) });
  };

  it("says once what the clips on the desk have in common, and each with its length on one line", async () => {
    const { page } = opened;
    await page.keyboard.press("0");
    const desk = page.locator(".gather .part").first();
    await expect.poll(() => desk.getByText(/pictures a second/).count()).toBe(1);
    expect(await desk.getByText(/pictures a second/).textContent()).toMatch(/^each \d+ x \d+, /);
    const clips = desk.locator("li", { hasText: /\.mp4/ });
    expect(await clips.count()).toBe(3);
    for (const clip of await clips.all()) {
      expect((await clip.innerText()).replaceAll(/\s+/g, " ")).toMatch(/^bars-\d+\.mp4 ?\d+ (s|min \d+ s|min) ×$/);
      expect((await clip.boundingBox())!.height).toBeLessThan(60);
    }
    await shot("files-few-words");
    expect(await opened.faults()).toEqual([]);
  });

  it("lists a clip in its place by where it begins and how exactly; why is said on wish, and by itself once it is moved", async () => {
    const { page } = opened;
    await page.keyboard.press("1");
    const chosen = page.locator(".lineup-list li.chosen");
    await page.locator('.lineup .player[data-picture="shown"]').waitFor({ timeout: 30_000 });
    const said = async () => (await chosen.innerText()).replaceAll(/\s+/g, " ");
    expect(await said()).toMatch(/^bars-\d+\.mp4 Sure from \d:\d\d:\d\d, by an anchor, within [\d.]+ s Why$/);
    await shot("lineup-few-words");
    await chosen.getByText("Why").click();
    expect(await said()).toMatch(/Why the camera.s clock, as bars-0002\.mp4 fixes it$/i);
    await shot("lineup-why");
    expect(await opened.faults()).toEqual([]);
    await chosen.getByText("Why").click();
    // Which other clips go along is said where the footage is moved, before it is.
    expect(await page.locator(".lineup-lane").innerText()).toMatch(/other clips? of this camera/);
    await page.locator(".stage").first().click();
    for (let k = 0; k < 3; k++) await page.keyboard.press("Shift+ArrowRight");
    await chosen.getByText(/^Moved by hand/).waitFor({ timeout: 20_000 });
    expect(await chosen.getByText("Why").count()).toBe(0);
    expect(await said()).toContain("not compared with the picture since");
    expect(await said()).not.toContain("within");
    await shot("lineup-moved");
    expect(await opened.faults()).toEqual([]);
    await expect
      .poll(
        async () => {
          await page.keyboard.press("Control+z");
          await opened.idle();
          return chosen.getByText("Why").count();
        },
        { timeout: 20_000 },
      )
      .toBe(1);
  });

  it("has a moment's start and end beside what sets them", async () => {
    const { page } = opened;
    await page.keyboard.press("2");
    await page.locator(".skim-moment").nth(2).click();
    const times = page.locator(".skim-edges .figure");
    const [start, end] = await times.allInnerTexts();
    expect(start).toBe(await page.locator('.skim-moment[aria-current="true"] .skim-at').innerText());
    await shot("skim-edges");
    await page.locator(".stage-cell").click();
    await page.keyboard.press("[");
    await page.getByText(`computed: ${start} to ${end}`).waitFor({ timeout: 20_000 });
    expect(await times.first().innerText()).not.toBe(start);
    await shot("skim-edges-set");
    expect(await opened.faults()).toEqual([]);
    expect(opened.problems).toEqual([]);
  });
});
