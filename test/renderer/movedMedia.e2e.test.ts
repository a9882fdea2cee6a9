// A debrief whose files have moved, and one that came from elsewhere, as a coach meets them.
import { cpSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

/** Pictures of every state are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

const LOOKS =
  shots === undefined
    ? [{ theme: "dark", widthPx: 1280, heightPx: 720 } as const]
    : (
        [
          ["dark", 1440, 900],
          ["light", 1440, 900],
          ["dark", 1280, 720],
          ["light", 1280, 720],
        ] as const
      ).map(([theme, widthPx, heightPx]) => ({ theme, widthPx, heightPx }));

describeWindow.each(LOOKS)("files that have moved, $theme at $widthPx x $heightPx", (look) => {
  let opened: OpenedWindow;
  let rides: string;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}-${look.theme}-${look.widthPx}.png`) });
  };
  const onDesk = () =>
    opened.page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor({ timeout: 60_000 });
  const clearDesk = async () => {
    await opened.page.getByRole("button", { name: "Files", exact: true }).click();
    await opened.page.getByRole("button", { name: "Clear the desk" }).click();
    await opened.page.getByRole("heading", { level: 1, name: "Drop a ride and its footage here" }).waitFor();
  };
  /** Takes a folder below the home in the picker that stands open. */
  const takeFolder = async (...names: readonly string[]) => {
    const list = opened.page.getByRole("listbox");
    await opened.page.getByRole("navigation", { name: "Begin at" }).getByRole("button", { name: "Home" }).click();
    for (const name of names) {
      await list.getByRole("option", { name: new RegExp(`^${name}`) }).click();
      await opened.page.getByText(new RegExp(`^In .*${name}$`)).waitFor();
    }
    await opened.page.getByRole("button", { name: "Look in this folder" }).click();
  };
  const notFound = () => opened.page.locator(".note.wrong", { hasText: "Not found where they were:" });

  beforeAll(async () => {
    opened = await openWindow(look);
    rides = join(opened.home, "rides");
    await gatherDemo(opened);
    await opened.page.getByText("Saved", { exact: true }).waitFor({ timeout: 20_000 });
    await clearDesk();
    const card = join(opened.home, "disk", "card");
    mkdirSync(card, { recursive: true });
    mkdirSync(join(opened.home, "disk", "tours"));
    mkdirSync(join(opened.home, "empty"));
    const { demo } = opened;
    renameSync(join(rides, demo.rideName), join(opened.home, "disk", "tours", "sunday morning.fit"));
    for (const [index, name] of demo.clipNames.entries())
      renameSync(join(rides, name), join(card, `renamed ${index + 1}.mp4`));
    // The same name and size, but another ride: known by content, it is not taken.
    const other = readFileSync(join(opened.home, "disk", "tours", "sunday morning.fit"));
    other[other.length >> 1]! ^= 0xff;
    writeFileSync(join(opened.home, "empty", demo.rideName), other);
  }, 180_000);
  afterAll(() => opened.close());

  it("asks for all of them once, in one sentence with their names", async () => {
    const { page, demo } = opened;
    await page
      .getByRole("button", { name: /ride-debrief/ })
      .first()
      .click();
    await onDesk();
    expect(await notFound().count()).toBe(1);
    for (const name of [demo.rideName, ...demo.clipNames]) expect(await notFound().textContent()).toContain(name);
    expect(await page.getByText("Add the ride file").count()).toBe(0);
    expect(await page.getByRole("dialog").count()).toBe(0);
    expect(await page.locator(".frame-step").nth(2).isDisabled()).toBe(true);
    await shot("missing");
    expect(await opened.faults()).toEqual([]);
  });

  it("says so where they are not in the folder that was shown, and still has the way to look", async () => {
    const { page } = opened;
    await page.getByRole("button", { name: "Look in a folder" }).click();
    await page.getByRole("listbox").waitFor();
    await shot("missing-picker");
    expect(await opened.faults()).toEqual([]);
    await takeFolder("empty");
    await page
      .getByRole("alert")
      .filter({ hasText: /^None of the missing files is in .*empty or right below it\./ })
      .waitFor({ timeout: 20_000 });
    await shot("missing-not-there");
    expect(await opened.faults()).toEqual([]);
    expect(await notFound().count()).toBe(1);
  });

  it("finds them by what is in them, and asks only for those that are still away", async () => {
    const { page, demo } = opened;
    await page.getByRole("button", { name: "Look in a folder" }).click();
    await takeFolder("disk", "tours");
    await page.locator(".gather .name", { hasText: "sunday morning.fit" }).waitFor({ timeout: 30_000 });
    expect(await notFound().textContent()).not.toContain(demo.rideName);
    for (const name of demo.clipNames) expect(await notFound().textContent()).toContain(name);
    await shot("missing-some");
    await page.getByRole("button", { name: "Look in a folder" }).click();
    await takeFolder("disk");
    await notFound().waitFor({ state: "detached", timeout: 30_000 });
    expect(await page.getByRole("alert").count()).toBe(0);
    // The anchor and the plan are those that were set before.
    expect(await page.getByLabel("Target power").inputValue()).toBe("162");
    await page.getByRole("button", { name: "Line up", exact: true }).first().click();
    await page.getByText("by an anchor").first().waitFor({ timeout: 30_000 });
  });

  it("does not ask again: opened once more, all is where it is", async () => {
    const { page } = opened;
    await page.getByText("Saved", { exact: true }).waitFor({ timeout: 20_000 });
    await clearDesk();
    await page
      .getByRole("button", { name: /ride-debrief/ })
      .first()
      .click();
    await onDesk();
    expect(await notFound().count()).toBe(0);
  });

  it("opens what came from elsewhere only once the coach trusts it", async () => {
    const { page } = opened;
    await clearDesk();
    cpSync(join(rides, "ride-debrief"), join(rides, "from a colleague"), { recursive: true });
    await page.keyboard.press("d");
    const list = page.getByRole("listbox");
    await list.getByRole("option", { name: /^rides/ }).click();
    await list.getByRole("option", { name: /^from a colleague/ }).click();
    const debrief = list.getByRole("option", { name: /debrief\.json/ });
    if (await debrief.isVisible().catch(() => false)) await debrief.click();
    await page.getByText("was not made here and points outside its folder").waitFor({ timeout: 20_000 });
    await shot("trust");
    expect(await opened.faults()).toEqual([]);
    await page.getByRole("button", { name: "I trust it: open it" }).click();
    await onDesk();
    expect(await page.getByText("was not made here").count()).toBe(0);
    expect(await page.getByLabel("Target power").inputValue()).toBe("162");
    expect(opened.problems).toEqual([]);
  });
});
