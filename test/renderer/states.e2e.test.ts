// States that a coach meets beside the straight way: files that are no use, an athlete, motion being read, a film at work,
// stopped, failed and done, weeks with rides in them, a ride without footage. Each is clean for axe.
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

/** Pictures of every state are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

const LOOKS =
  shots === undefined
    ? [{ theme: "light", widthPx: 1280, heightPx: 720 } as const]
    : (
        [
          ["dark", 1440, 900],
          ["light", 1440, 900],
          ["dark", 1280, 720],
          ["light", 1280, 720],
        ] as const
      ).map(([theme, widthPx, heightPx]) => ({ theme, widthPx, heightPx }));

describeWindow.each(LOOKS)("other states, $theme at $widthPx x $heightPx", (look) => {
  let opened: OpenedWindow;
  let debriefFolder: string;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}-${look.theme}-${look.widthPx}.png`) });
  };
  const step = (name: string) => opened.page.locator(".frame-step", { hasText: name }).click();
  const choose = async (names: readonly string[]) => {
    const { page } = opened;
    await page.keyboard.press("f");
    const list = page.getByRole("listbox");
    // The first time it begins at home, later where files were taken.
    await list.getByRole("option").first().waitFor();
    const rides = list.getByRole("option", { name: /^rides/ });
    if ((await rides.count()) > 0) await rides.click();
    for (const name of names) await list.getByRole("option", { name }).click();
    await page.getByRole("button", { name: `Take ${names.length} file` }).click();
    await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor({ timeout: 60_000 });
  };
  const clearDesk = async () => {
    await step("Files");
    await opened.page.getByRole("button", { name: "Clear the desk" }).click();
    await opened.page.getByRole("heading", { level: 1, name: "Drop a ride and its footage here" }).waitFor();
  };
  /** How far the green of a canvas's opaque pixels goes apart, of 255: one that was drawn in the ground's colour alone shows nothing. */
  const spreadOf = (selector: string) =>
    opened.page
      .locator(selector)
      .first()
      .evaluate((canvas: HTMLCanvasElement) => {
        const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
        let least = 255;
        let most = 0;
        for (let at = 0; at < data.length; at += 4) {
          if (data[at + 3]! < 250) continue;
          least = Math.min(least, data[at + 1]!);
          most = Math.max(most, data[at + 1]!);
        }
        return most - least;
      });
  const clean = async (name: string) => {
    await shot(name);
    expect(await opened.faults(), name).toEqual([]);
  };

  beforeAll(async () => {
    // Less motion, as some people ask for: nothing of the window depends on it.
    opened = await openWindow({ ...look, reducedMotion: true });
    const rides = join(opened.home, "rides");
    debriefFolder = join(opened.home, "Ana Probe", "ride-debrief");
    writeFileSync(join(rides, "notes.fit"), "not a ride at all");
    writeFileSync(join(rides, "broken.mp4"), "not a film");
    const { page } = opened;
    await page.keyboard.press("Shift+A");
    await page.keyboard.press("n");
    await page.getByLabel("Name").fill("Ana Probe");
    await page.getByLabel("Target power").first().fill("162");
    await page.getByLabel("Give or take").first().fill("12");
    await page.getByRole("button", { name: "Save" }).click();
    const take = page.getByRole("button", { name: "Take this folder" });
    await take.and(page.locator(":not([disabled])")).waitFor();
    await take.click();
    await page.getByRole("button", { name: "Debrief a ride" }).click();
  }, 60_000);
  afterAll(() => opened.close());

  it("names each file that is no use, and goes on with the rest, by the athlete's target", async () => {
    const { page, demo } = opened;
    await opened.idle();
    await choose([demo.rideName, "notes.fit", "broken.mp4", ...demo.clipNames]);
    // While some are still read, nothing is missed yet.
    const missed = () => page.getByText("Add the ride file").count();
    while ((await page.locator(".gather .name", { hasText: demo.rideName }).count()) === 0)
      expect(await missed()).toBe(0);
    await page.getByRole("heading", { name: "Not usable" }).waitFor();
    const rows = await page.locator(".rows > li.wrong").allTextContents();
    expect(rows.map((text) => /notes\.fit|broken\.mp4/.exec(text)?.[0]).sort()).toEqual(["broken.mp4", "notes.fit"]);
    expect(await page.locator(".rows > li.wrong").filter({ hasText: "ffmpeg" }).count()).toBe(0);
    expect(await page.getByLabel("Target power").inputValue()).toBe("162");
    await page.getByRole("button", { name: "Line up" }).and(page.locator(":not([disabled])")).last().waitFor();
    await clean("gather-athlete-bad-file");
    for (const name of ["notes.fit", "broken.mp4"])
      await page.getByRole("button", { name: `Take ${name} off the desk` }).click();
    await page.getByRole("heading", { name: "Not usable" }).waitFor({ state: "detached" });
  });

  it("says how far reading the motion is, and shows what it read", async () => {
    const { page } = opened;
    await step("Line up");
    await page.locator('.lineup .player[data-frame]:not([data-frame=""])').waitFor({ timeout: 30_000 });
    await page.getByRole("button", { name: "Find it by motion and speed" }).click();
    await page.getByText("Looking for where the motion fits the speed").first().waitFor();
    await clean("lineup-busy");
    await page.locator(".lineup-side .progress").waitFor({ state: "detached", timeout: 90_000 });
    expect(await spreadOf(".lane canvas")).toBeGreaterThan(120);
    await clean("lineup-motion");
  });

  it("hands over: at work, stopped, failed with the way out, done", async () => {
    const { page } = opened;
    await step("Hand over");
    await page.getByLabel("a quick look", { exact: false }).check();
    await page.getByText("film.mp4").first().waitFor({ timeout: 30_000 });
    const ask = page.locator(".handover-ask input");
    const go = page.getByRole("button", { name: /^Render and write/ });
    const start = async () => {
      for (const box of await ask.all()) await box.check();
      await go.and(page.locator(":not([disabled])")).waitFor({ timeout: 30_000 });
      await go.click();
    };
    // The way to what is asked is short, though it stands far down.
    await ask.first().waitFor();
    await page.getByRole("button", { name: "Answer what is asked first" }).press("Enter");
    expect(await ask.first().evaluate((one) => one === document.activeElement)).toBe(true);
    await start();
    const stop = page.getByRole("button", { name: /^Stop / });
    await stop.first().waitFor({ timeout: 20_000 });
    await page.locator(".handover .progress").first().waitFor({ timeout: 20_000 });
    await opened.idle();
    await clean("handover-busy");
    await stop.first().click();
    await page.getByText("stopped, nothing half-written was left").waitFor({ timeout: 30_000 });
    // A folder lies where the film is to go.
    mkdirSync(join(debriefFolder, "film.mp4", "kept"), { recursive: true });
    await start();
    const toTop = () => page.evaluate(() => scrollTo(0, 0));
    await toTop();
    await page.getByText("did not work").waitFor({ timeout: 240_000 });
    const note = page.locator(".handover [role=alert]").last();
    expect(await note.textContent()).toContain(`${join(debriefFolder, "film.mp4")} cannot be written.`);
    /** Between the head and what stays in sight at the bottom. */
    const inSight = () =>
      note.evaluate((one) => {
        const { top, bottom } = one.getBoundingClientRect();
        return top >= 0 && bottom <= document.querySelector(".handover-go")!.getBoundingClientRect().top + 1;
      });
    await expect.poll(inSight, { timeout: 5000 }).toBe(true);
    await clean("handover-failed");
    rmSync(join(debriefFolder, "film.mp4"), { recursive: true });
    await start();
    // Who has scrolled on stays there while the next film's progress brings view after view with the same failure.
    await toTop();
    await page.getByText(/^done, \d+ files$/).waitFor({ timeout: 240_000 });
    await opened.idle();
    expect(await page.evaluate(() => scrollY)).toBe(0);
    expect(await inSight()).toBe(false);
    // Named by whose it is, of which day, and what film.
    const job = page.locator("[aria-labelledby=queue-title] li .name").first();
    expect(await job.textContent()).toMatch(/^.+, Ana Probe, 12 April 2026$/);
    const folders = page.getByRole("button", { name: "Open the folder" });
    await folders.scrollIntoViewIfNeeded();
    await clean("handover-done");
    // However many were handed over, they are one stop for Tab.
    await start();
    await expect.poll(() => folders.count(), { timeout: 240_000 }).toBe(2);
    const focused = (nth: number) => folders.nth(nth).evaluate((one) => one === document.activeElement);
    await page.getByRole("button", { name: "Another folder" }).focus();
    for (const box of await ask.all()) {
      await page.keyboard.press("Tab");
      expect(await box.evaluate((one) => one === document.activeElement)).toBe(true);
    }
    await page.keyboard.press("Tab");
    expect([await focused(0), await focused(1)]).toEqual([true, false]);
    await page.keyboard.press("ArrowDown");
    expect([await focused(0), await focused(1)]).toEqual([false, true]);
    await page.keyboard.press("Tab");
    expect(await page.locator("[aria-labelledby=queue-title] :focus").count()).toBe(0);
    await page.keyboard.press("Shift+Tab");
    expect(await focused(1)).toBe(true);
  }, 600_000);

  it("shows the athlete's weeks with this ride in them", async () => {
    const { page } = opened;
    await page.locator("body").click({ position: { x: 5, y: 400 } });
    await page.keyboard.press("Shift+A");
    await page.getByRole("button", { name: "Weeks" }).click();
    const weeks = page.frameLocator("iframe.weeks-page");
    await weeks.locator("h2").first().waitFor({ timeout: 30_000 });
    // Its title is the screen's, said once.
    expect(await weeks.locator("h1").count()).toBe(0);
    expect(await page.getByRole("heading", { level: 1 }).allTextContents()).toEqual(["Weeks of Ana Probe"]);
    await opened.idle();
    await clean("weeks-one-ride");
  });

  it("works without footage: no line-up, the numbers alone, a film of cards", async () => {
    const { page, demo } = opened;
    await clearDesk();
    await choose([demo.rideName]);
    await clean("gather-no-footage");
    await page.getByRole("button", { name: "Look at the ride" }).and(page.locator(":not([disabled])")).click();
    await opened.idle();
    await clean("lineup-no-footage");
    await step("Skim");
    await page.locator(".skim .player").waitFor();
    await expect.poll(() => spreadOf(".strip-canvas"), { timeout: 20_000 }).toBeGreaterThan(120);
    await opened.idle();
    await clean("skim-no-footage");
    await page.keyboard.press("a");
    await page.getByRole("dialog").getByLabel("What it is").waitFor();
    await clean("own-moment");
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await step("Build");
    await page.locator(".build-card").waitFor();
    await clean("build-no-footage");
    // What another debrief handed over is not this one's.
    await step("Hand over");
    await page.getByText("Nothing has been handed over yet.").waitFor();
    expect(await page.locator("[aria-labelledby=queue-title] li").count()).toBe(0);
    await step("Build");
    expect(opened.problems).toEqual([]);
  });
});
