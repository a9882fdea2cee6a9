// True at every step: whose ride it is, what is in the film, what was moved by hand, what is missing, what was dropped.
import { mkdirSync, renameSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

/** Pictures are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

const LOOKS =
  shots === undefined
    ? [{ theme: "dark", widthPx: 1280, heightPx: 800 } as const]
    : ([
        { theme: "dark", widthPx: 1280, heightPx: 800 },
        { theme: "light", widthPx: 900, heightPx: 800 },
      ] as const);

describeWindow.each(LOOKS)("what the window says at every step, $theme at $widthPx x $heightPx", (look) => {
  let opened: OpenedWindow;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}-${look.theme}-${look.widthPx}.png`) });
  };
  const step = async (name: string) => {
    await opened.page.locator(".frame-step", { hasText: name }).click();
    await opened.idle();
  };
  /** Lets something go over the window; true where the window took it, so that the browser opens nothing. */
  const drop = (name: string | null) =>
    opened.page.evaluate((fileName) => {
      const dataTransfer = new DataTransfer();
      if (fileName === null) dataTransfer.setData("text/uri-list", "https://example.invalid/");
      else dataTransfer.items.add(new File([new Uint8Array(4)], fileName));
      const event = new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true });
      document.querySelector("main")!.dispatchEvent(event);
      return event.defaultPrevented;
    }, name);

  beforeAll(async () => {
    opened = await openWindow(look);
    await gatherDemo(opened);
  }, 240_000);
  afterAll(() => opened.close());

  it("takes what is dropped on any step, and opens nothing", async () => {
    for (const name of ["Line up", "Skim", "Build", "Hand over", "Files"]) {
      await step(name);
      expect(await drop(null), `a link on ${name}`).toBe(true);
      expect(await opened.page.getByRole("dialog").count()).toBe(0);
      expect(await drop("more.fit"), `a file on ${name}`).toBe(true);
      await opened.page.getByText("You dropped more.fit").waitFor();
      if (name === "Skim") await shot("dropped-on-skim");
      await opened.page.keyboard.press("Escape");
      await opened.page.getByRole("dialog").waitFor({ state: "detached" });
    }
  }, 120_000);

  it("says what is in the film as the film has it, and a moment kept is there once", async () => {
    const { page } = opened;
    await step("Skim");
    const state = page.locator(".skim-detail").getByRole("status");
    const out = page.locator(".skim-moment:not(.kept):not(.dropped)").first();
    await out.click();
    await page.getByText("Not in the film.").waitFor();
    const keep = page.locator(".skim-detail").getByRole("button", { name: "Keep in the film" });
    await keep.click();
    await opened.idle();
    const said = /^In the film, part (\d+) of (\d+)\.$/.exec((await state.textContent()) ?? "");
    expect(said).not.toBeNull();
    await shot("skim-in-the-film");
    await step("Build");
    expect(await page.locator(".build-part").count()).toBe(Number(said![2]));
    await shot("build");
    await step("Skim");
    await page.keyboard.press("Control+z");
    await opened.idle();
    expect(await page.locator(".skim-moment").count()).toBeGreaterThan(0);
  }, 120_000);

  it("calls what was moved by hand not sure until the picture agrees, with no wider error and no fewer checks", async () => {
    const { page } = opened;
    await step("Line up");
    const row = page.locator(".lineup-side .rows > li.chosen").first();
    const within = async () => Number(/within ([\d.]+)\s/.exec((await row.textContent()) ?? "")![1]);
    await page
      .getByRole("button", { name: /^Look at/ })
      .first()
      .click();
    await opened.idle();
    await page.locator(".lineup-side").getByText("Sure", { exact: true }).first().waitFor();
    const before = await within();
    await page.getByRole("button", { name: "1 min later" }).click();
    await opened.idle();
    await page.getByText("Moved by hand and not compared").first().waitFor();
    await shot("lineup-moved");
    // Until somebody has looked, nothing says how exact it is.
    expect(await within().catch(() => null)).toBe(null);
    const agree = page.getByRole("button", { name: "It agrees" });
    const place = page.locator("section[aria-labelledby='glance-title'] .start-open").first();
    if ((await place.count()) > 0) await place.click();
    await agree.click();
    await opened.idle();
    await page.getByText("Moved by hand and not compared").first().waitFor({ state: "detached" });
    expect(await within()).toBeLessThanOrEqual(before);
    expect(await agree.count()).toBe(1);
    await shot("lineup-agreed");
    for (let n = 0; n < 2; n++) {
      await page.keyboard.press("Control+z");
      await opened.idle();
    }
  }, 120_000);

  it("says on every step that a clip is missing, and finds it where a clip can be seen", async () => {
    const { page, demo, home } = opened;
    const [clip] = demo.clipNames;
    const all = demo.clipNames.join(", ");
    // The film as it is becomes the coach's own: it still shows the clip that will be gone.
    await step("Build");
    await page.locator(".build-part").first().click();
    await page.keyboard.press("Alt+ArrowDown");
    await opened.idle();
    await step("Files");
    await page.locator(".frame-saved", { hasText: "Saved" }).waitFor();
    await page.getByRole("button", { name: "Clear the desk" }).click();
    mkdirSync(join(home, "elsewhere"));
    for (const name of demo.clipNames) renameSync(join(home, "rides", name), join(home, "elsewhere", name));
    await page.locator(".start-open").first().click();
    await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor({ timeout: 60_000 });
    for (const name of ["Files", "Line up", "Skim", "Build", "Hand over"]) {
      await step(name);
      await page.getByText(`Not found where they were: ${all}.`).waitFor();
      if (name === "Line up") await page.getByText("The footage is not where it was").waitFor();
      expect(await opened.faults(), name).toEqual([]);
      await shot(`missing-${name.replaceAll(" ", "-")}`);
    }
    await page.getByText(/^The film shows .*, not found where it was\./).waitFor();
    expect(await page.getByRole("button", { name: /^Render and write/ }).isDisabled()).toBe(true);
    await page.getByRole("button", { name: "Look in a folder" }).click();
    const list = page.getByRole("listbox");
    await list.getByRole("option", { name: /^elsewhere/ }).click();
    await list.getByRole("option", { name: clip! }).click();
    await page.getByText("Not found where they were").waitFor({ state: "detached", timeout: 60_000 });
    expect(opened.problems).toEqual([]);
  }, 240_000);
});
