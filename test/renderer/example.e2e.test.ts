// A newcomer without a file: the example ride from the first screen to its moments, and back to it.
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { DEMO_SEED } from "../../main/demo/makeDemo.edge.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

/** Pictures are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

describeWindow("the example ride", () => {
  let opened: OpenedWindow;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}-dark-1280.png`) });
  };
  beforeAll(async () => {
    opened = await openWindow({ widthPx: 1280, heightPx: 800 });
    // As if made before: drawing its clips is tried in test/journey/exampleRide.
    const { demo, home } = opened;
    const folder = join(home, ".cache", "followcar", "example");
    cpSync(demo.folder, folder, { recursive: true });
    const made = { seed: DEMO_SEED, ride: demo.rideName, plan: "plan.json", clips: demo.clipNames };
    writeFileSync(join(folder, "made.json"), JSON.stringify(made));
  });
  afterAll(() => opened.close());

  it("is on the desk after one press, with its footage and its plan", async () => {
    const { page, demo } = opened;
    await page.getByRole("button", { name: "Try it with an example ride" }).waitFor();
    await shot("start-example");
    expect(await opened.faults()).toEqual([]);
    expect(await opened.touchedFaults()).toEqual([]);
    await page.keyboard.press("e");
    await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor({ timeout: 60_000 });
    await opened.idle();
    for (const name of [demo.rideName, ...demo.clipNames])
      expect(await page.locator(".gather .name", { hasText: name }).count()).toBe(1);
    const plan = JSON.parse(readFileSync(join(demo.folder, "plan.json"), "utf8")) as { readonly target: number };
    expect(await page.getByLabel("Target power").inputValue()).toBe(String(plan.target));
    await shot("gather-example");
    await page.keyboard.press("2");
    await page.locator(".skim-moment").first().waitFor();
    expect(await page.locator(".skim-moment").count()).toBeGreaterThan(5);
  }, 120_000);

  it("keeps the open moment through other steps, and comes back to step, part and moment when it is loaded anew", async () => {
    const { page } = opened;
    const chosenMoment = () => page.locator('.skim-moment[aria-current="true"]').first().textContent();
    const chosenPart = () =>
      page
        .locator(".build-parts > li")
        .evaluateAll((parts) => parts.findIndex((part) => part.classList.contains("chosen")));
    await page.locator(".skim-moment").nth(3).click();
    const moment = await chosenMoment();
    // The focus was on what went away: it is on the step that came, and its keys are heard there.
    await page.keyboard.press("3");
    await page.locator(".build-parts").waitFor();
    expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-current"))).toBe("step");
    await page.keyboard.press(" ");
    await page.getByRole("button", { name: "Stop" }).waitFor();
    await page.keyboard.press(" ");
    await page.locator(".build-part").nth(2).click();
    expect(await chosenPart()).toBe(2);
    await page.reload();
    await page.locator(".build-parts").waitFor({ timeout: 30_000 });
    expect(await chosenPart()).toBe(2);
    await page.keyboard.press("2");
    await page.locator('.skim-moment[aria-current="true"]').first().waitFor();
    expect(await chosenMoment()).toBe(moment);
  }, 120_000);

  it("gives an athlete's home by the ride's shape, without degrees being typed", async () => {
    const { page } = opened;
    await page.keyboard.press("Shift+A");
    await page.keyboard.press("n");
    const lat = page.getByLabel("Latitude");
    await page.getByRole("button", { name: "Where the ride begins" }).click();
    const begins = await lat.inputValue();
    expect(Number(begins)).not.toBeNaN();
    expect(begins).not.toBe("");
    await page.locator(".home-shape circle").waitFor();
    await shot("athlete-home");
    // A press on the line takes the place there.
    const { x, y, width, height } = (await page.locator(".home-shape").boundingBox())!;
    const middle = await page.locator(".home-shape polyline").evaluate((line: SVGPolylineElement) => {
      const { x: atX, y: atY } = line.points.getItem(Math.floor(line.points.numberOfItems / 2));
      return { atX, atY };
    });
    await page.mouse.click(x + middle.atX * width, y + middle.atY * height);
    await expect.poll(() => lat.inputValue()).not.toBe(begins);
    expect(await opened.faults()).toEqual([]);
    await page.getByRole("button", { name: "Cancel" }).click();
    await page.keyboard.press("0");
  });

  it("is the same debrief again when it is tried once more", async () => {
    const { page } = opened;
    await page.keyboard.press("0");
    await page.getByLabel("Target power").fill("190");
    await page.getByLabel("Target power").press("Enter");
    await page.getByTitle(/^Undo: target/).waitFor();
    await page.locator(".frame-saved", { hasText: "Saved" }).waitFor();
    await page.getByRole("button", { name: "Clear the desk" }).click();
    await page.getByRole("button", { name: "Try it with an example ride" }).click();
    await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor({ timeout: 60_000 });
    expect(await page.getByLabel("Target power").inputValue()).toBe("190");
    expect(opened.problems).toEqual([]);
  }, 120_000);
});
