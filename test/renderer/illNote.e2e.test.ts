// A note of illness that comes after the film was set: no shot goes by itself, the coach is told where, one button leaves
// out what teaches, and no screen asks the rider for anything. And what blocks of a plan look like in the strip.
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { DEMO_SEED } from "../../main/demo/makeDemo.edge.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

/** Pictures are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;
const SIZES = [
  [1440, 900],
  [900, 800],
] as const;
/** What nobody ill is told: to hold on, to do more, or what was done wrong. */
const URGES = new RegExp(
  "closer to the plan|once more|longer than|keep a light pressure|start each rise|ride (easier|more evenly)|" +
    "näher am Plan|noch einmal|länger|leichten Druck|Geh jede Steigung|[Ff]ahr (leichter|gleichmäßiger)",
  "u",
);

describeWindow("a note of illness in the window", () => {
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
    }
    await opened.page.setViewportSize({ width: 1440, height: 900 });
    await opened.page.emulateMedia({ colorScheme: "dark" });
    await opened.idle();
  };
  const parts = () => opened.page.locator(".build-parts > li").count();
  const told = () => opened.page.getByText(/The rider's note speaks of illness\./).first();
  const leave = () => opened.page.getByRole("button", { name: /^Leave (it|the \d parts) out/ });

  beforeAll(async () => {
    opened = await openWindow({ widthPx: 1440, heightPx: 900 });
    const { demo, home, page } = opened;
    const folder = join(home, ".cache", "followcar", "example");
    cpSync(demo.folder, folder, { recursive: true });
    const made = { seed: DEMO_SEED, ride: demo.rideName, plan: "plan.json", clips: demo.clipNames };
    writeFileSync(join(folder, "made.json"), JSON.stringify(made));
    const plan = JSON.parse(readFileSync(join(folder, "plan.json"), "utf8")) as Record<string, unknown>;
    const blocks = [
      { from: 40, to: 45, kind: "effort", target: 230 },
      { from: 45, to: 50, kind: "rest" },
      { from: 50, to: 55, kind: "effort", target: 230 },
    ];
    writeFileSync(join(folder, "plan.json"), JSON.stringify({ ...plan, blocks }));
    await page.getByRole("button", { name: "Try it with an example ride" }).waitFor();
    await page.keyboard.press("e");
    await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor({ timeout: 60_000 });
    await opened.idle();
  }, 180_000);
  afterAll(() => opened.close());

  it("keeps the coach's film as it was set, and says so where the film is built", async () => {
    const { page } = opened;
    await page.keyboard.press("3");
    await page.locator(".build-parts > li").first().waitFor();
    await opened.idle();
    await page.locator(".build-part").nth(1).click();
    await page.getByRole("button", { name: "Move it later" }).click();
    await page.getByTitle("Undo: move a part of the film").waitFor({ timeout: 20_000 });
    const before = await parts();
    expect(await told().count()).toBe(0);
    await page.locator("body").click({ position: { x: 3, y: 300 } });
    await page.keyboard.press("0");
    await page.getByText(/^More: heart rate band/).click();
    await page.getByLabel("Illness").fill("a cold since Friday");
    await page.getByLabel("Illness").press("Tab");
    await opened.idle();
    await page.locator("body").click({ position: { x: 3, y: 300 } });
    await page.keyboard.press("3");
    await leave().waitFor({ timeout: 20_000 });
    await opened.idle();
    // The program's own card of what to change goes with its words; what the coach put there stays.
    expect(await parts()).toBeGreaterThanOrEqual(before - 1);
    expect(await page.getByText("the rider's note comes first").count()).toBeGreaterThan(0);
    expect(await page.locator(".frame-screen").textContent()).not.toMatch(URGES);
    await shot("ill-build");
    expect(await opened.faults()).toEqual([]);
  }, 120_000);

  it("asks for nothing on Skim", async () => {
    const { page } = opened;
    await page.keyboard.press("2");
    await page.locator(".skim-moment").first().waitFor();
    await opened.idle();
    expect(await page.locator(".frame-screen").textContent()).not.toMatch(URGES);
    await shot("ill-skim");
    await page.keyboard.press("r");
    await page.locator(".told-chart canvas").waitFor();
    await opened.idle();
    expect(await page.locator(".told-lines").textContent()).toMatch(
      /The rider said how it went.*getting well comes first.*The rider's note speaks of illness: rest and recovery come first/,
    );
    expect(await page.locator(".frame-screen").textContent()).not.toMatch(URGES);
    await shot("ill-reading");
  }, 120_000);

  it("says on Hand over what still teaches, in neither language urges, and leaves it out with one button", async () => {
    const { page } = opened;
    await page.keyboard.press("4");
    await page.locator(".handover-message").waitFor();
    await opened.idle();
    for (const [language, first] of [
      ["English", /get well first/],
      ["Deutsch", /Werde erst einmal gesund/u],
    ] as const) {
      await page.getByRole("radio", { name: language }).check();
      await expect.poll(() => page.locator(".handover-message").textContent(), { timeout: 20_000 }).toMatch(first);
      await opened.idle();
      expect(await page.locator(".frame-screen").textContent()).not.toMatch(URGES);
      await shot(`ill-handover-${language}`);
      await leave().scrollIntoViewIfNeeded();
      await shot(`ill-handover-low-${language}`);
    }
    expect(await opened.faults()).toEqual([]);
    await page.getByRole("radio", { name: "English" }).check();
    await leave().click();
    await expect.poll(() => leave().count(), { timeout: 20_000 }).toBe(0);
    expect(await told().count()).toBe(0);
    await page.getByTitle("Undo: leave out what teaches").waitFor({ timeout: 20_000 });
    await page.keyboard.press("3");
    await page.locator(".build-parts > li").first().waitFor();
    expect(await page.getByText("the rider's note comes first").count()).toBe(0);
    await page.locator("body").click({ position: { x: 3, y: 300 } });
    await page.keyboard.press("Control+z");
    await leave().waitFor({ timeout: 20_000 });
    expect(opened.problems).toEqual([]);
  }, 180_000);
});
