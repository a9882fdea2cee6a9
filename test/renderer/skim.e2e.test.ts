// Skim as a coach uses it: hop, keep, drop, retime, name, add, overrule, undo; every action by its key.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

/** Pictures of every state are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

/** A row that tells of a break without a reason, not of many in a row. */
const LAPSE = /^\d+:\d\d:\d\d\s*no pressure for/;

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

describeWindow.each(LOOKS)("skim, $theme at $widthPx x $heightPx", (look) => {
  let opened: OpenedWindow;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}-${look.theme}-${look.widthPx}.png`) });
  };
  const undoTo = (label: string) => opened.page.getByTitle(`Undo: ${label}`).waitFor({ timeout: 20_000 });

  beforeAll(async () => {
    opened = await openWindow(look);
    await gatherDemo(opened);
    await opened.page.locator("body").click({ position: { x: 5, y: 300 } });
    await opened.page.keyboard.press("2");
    await opened.page.getByRole("list", { name: "Moments of this ride" }).waitFor();
  }, 180_000);
  afterAll(() => opened.close());

  it("shows picture, strip and moments at once, and is clean for axe", async () => {
    const { page } = opened;
    await page
      .locator('.skim .player[data-picture="shown"], .skim .player[data-picture="ride"]')
      .waitFor({ timeout: 30_000 });
    await opened.idle();
    await shot("skim");
    expect(await opened.faults()).toEqual([]);
  });

  it("hops, keeps, drops, and undoes each", async () => {
    const { page } = opened;
    const current = page.locator('.skim-moment[aria-current="true"]');
    await page.locator(".skim-moment").first().click();
    const first = await current.textContent();
    // Space plays from the chosen row too, and the focus goes along with the choice.
    await page.keyboard.press(" ");
    await page.getByRole("button", { name: /^Stop/ }).waitFor();
    await page.keyboard.press(" ");
    await page.getByRole("button", { name: /^Play/ }).waitFor();
    await page.keyboard.press("n");
    await page.locator('.skim-moment:focus[aria-current="true"]').waitFor();
    expect(await current.textContent()).not.toBe(first);
    await page.keyboard.press("p");
    await page.waitForFunction(
      (text) => document.querySelector('.skim-moment[aria-current="true"]')?.textContent === text,
      first,
    );
    await page.locator(".stage-cell").click();
    await page.keyboard.press("n");
    await page.waitForFunction(
      (text) => document.querySelector('.skim-moment[aria-current="true"]')?.textContent !== text,
      first,
    );
    await page.keyboard.press("p");
    await page.waitForFunction(
      (text) => document.querySelector('.skim-moment[aria-current="true"]')?.textContent === text,
      first,
    );
    await page.keyboard.press("k");
    await page.locator('.skim-moment.kept[aria-current="true"]').waitFor({ timeout: 20_000 });
    await page.keyboard.press("x");
    await page.locator('.skim-moment.dropped[aria-current="true"]').waitFor({ timeout: 20_000 });
    await shot("skim-dropped");
    await page.keyboard.press("Control+z");
    await page.locator('.skim-moment.kept[aria-current="true"]').waitFor({ timeout: 20_000 });
  });

  it("names, retimes, and adds a moment of one's own", async () => {
    const { page } = opened;
    await page.keyboard.press("e");
    await page.keyboard.type("The bridge");
    await page.keyboard.press("Enter");
    await page.locator('.skim-moment[aria-current="true"]', { hasText: "The bridge" }).waitFor({ timeout: 20_000 });
    await page.locator(".stage-cell").click();
    await page.keyboard.press("[");
    await page.locator(".skim-detail", { hasText: "computed:" }).waitFor({ timeout: 20_000 });
    const before = await page.locator(".skim-moment").count();
    await page.keyboard.press("a");
    await page.waitForFunction(
      () => document.activeElement instanceof HTMLInputElement && document.querySelector("dialog:modal") !== null,
    );
    await page.keyboard.type("line in corners");
    await page.keyboard.press("Enter");
    await page.waitForFunction((count) => document.querySelectorAll(".skim-moment").length === count + 1, before);
    await page.locator('.skim-moment[aria-current="true"]', { hasText: "line in corners" }).waitFor();
    // Shown alone and taken away: its kind stays to be chosen from, and nothing is said of what was done on purpose.
    const filter = page.locator(".skim-filter select");
    await filter.selectOption("line in corners");
    await page.locator(".stage-cell").click();
    await page.keyboard.press("Delete");
    await page.getByText("None of this kind.").waitFor({ timeout: 20_000 });
    expect(await filter.locator("option:checked").textContent()).toBe("line in corners (0)");
    expect(await page.locator(".skim-detail, .skim-gone").count()).toBe(0);
    await filter.selectOption("");
    expect(await page.locator(".skim-moment").count()).toBe(before);
  });

  it("shows one kind of moment only, takes a note, and plays at each speed", async () => {
    const { page } = opened;
    page.setDefaultTimeout(20_000);
    const filter = page.locator(".skim-filter select");
    const rows = page.locator(".skim-moment");
    const all = await rows.count();
    await filter.selectOption({ index: 1 });
    const [, count] = (await filter.locator("option:checked").textContent())!.match(/\((\d+)\)$/)!;
    expect(await rows.count()).toBe(Number(count));
    expect(Number(count)).toBeLessThan(all);
    await shot("skim-one-kind");
    await page.locator(".stage-cell").click();
    await page.keyboard.press("n");
    await page.locator('.skim-moment[aria-current="true"]').waitFor();
    await page.keyboard.press("g");
    expect(await filter.evaluate((select: HTMLSelectElement) => select.selectedIndex)).toBe(2);
    await filter.selectOption("");
    expect(await rows.count()).toBe(all);
    await rows.first().click();
    await page.keyboard.press("t");
    await page.keyboard.type("Looks over the left shoulder here");
    await page.keyboard.press("Tab");
    await page.getByTitle(/^Undo: note on/).waitFor({ timeout: 20_000 });
    await page.locator(".stage-cell").click();
    await page.keyboard.press("Control+z");
    await page.getByTitle(/^Redo: note on/).waitFor({ timeout: 20_000 });
    const filmed = page.locator(".skim-moment:not(.kept):not(.dropped)", { hasNotText: "not filmed" }).first();
    await filmed.click();
    await page.locator('.skim .player[data-picture="shown"]').waitFor({ timeout: 30_000 });
    const frame = () => page.locator(".skim .player").getAttribute("data-frame").then(Number);
    // A control reached by keys takes Space itself; one that was clicked leaves it to the picture.
    const eight = page.getByRole("button", { name: /^8\s×/ });
    await eight.focus();
    await page.keyboard.press(" ");
    expect(await eight.getAttribute("aria-pressed")).toBe("true");
    await page.getByRole("button", { name: /^Play/ }).waitFor();
    const keep = page.locator(".skim-detail").getByRole("button", { name: /^Keep/ });
    await keep.click();
    await page.locator('.skim-moment.kept[aria-current="true"]').waitFor({ timeout: 20_000 });
    await page.keyboard.press(" ");
    await page.getByRole("button", { name: /^Stop/ }).waitFor();
    await page.keyboard.press(" ");
    await page.getByRole("button", { name: /^Play/ }).waitFor();
    expect(await keep.getAttribute("aria-pressed")).toBe("true");
    await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Tab");
    await page.keyboard.press(" ");
    await page.locator('.skim-moment:not(.kept)[aria-current="true"]').waitFor({ timeout: 20_000 });
    for (const speed of ["8", "4", "2", "0.5", "1"]) {
      await page.getByRole("button", { name: new RegExp(`^${speed}\\s×`) }).click();
      const from = await frame();
      await page.keyboard.press(" ");
      await expect.poll(frame, { timeout: 20_000 }).not.toBe(from);
      expect(
        await page
          .locator(".skim video")
          .evaluateAll((videos) => videos.map((one) => (one as HTMLVideoElement).playbackRate)),
      ).toContain(Number(speed));
      await page.keyboard.press(" ");
      await page.getByRole("button", { name: /^Play/ }).waitFor();
      await page.locator('.skim-moment[aria-current="true"]').click();
    }
  });

  it("overrules a break, the first reading and the counted part, with the computed value beside, and takes it back", async () => {
    const { page } = opened;
    await page.keyboard.press("r");
    await page.getByRole("heading", { name: "Set otherwise where the program is wrong" }).waitFor();
    await shot("skim-reading");
    expect(await opened.faults()).toEqual([]);
    const edge = page.getByRole("slider", { name: "Counted from" });
    const startS = Number(await edge.getAttribute("aria-valuenow"));
    await edge.focus();
    await page.keyboard.press("PageUp");
    await undoTo("Counted part set");
    await page.getByText("computed:").first().waitFor();
    expect(Number(await edge.getAttribute("aria-valuenow"))).toBe(startS + 60);
    await page.getByRole("button", { name: "Take the computed value" }).first().click();
    await undoTo("Counted part as computed");
    await page.waitForFunction(
      (value) => Number(document.querySelector('[aria-label="Counted from"]')?.getAttribute("aria-valuenow")) === value,
      startS,
    );
    await page.keyboard.press("Control+z");
    await undoTo("Counted part set");
    await page.waitForFunction(
      (value) => Number(document.querySelector('[aria-label="Counted from"]')?.getAttribute("aria-valuenow")) === value,
      startS + 60,
    );
    await page.keyboard.press("Control+z");
    await page.waitForFunction(
      (value) => Number(document.querySelector('[aria-label="Counted from"]')?.getAttribute("aria-valuenow")) === value,
      startS,
    );
    const reason = page.getByLabel(/Reason of the break at/).first();
    await reason.selectOption("braking");
    await page.locator(".skim-breaks", { hasText: "set by you" }).waitFor({ timeout: 20_000 });
    await shot("skim-overruled");
    await page.keyboard.press("Control+z");
    await page.getByTitle(/^Redo: reason of the break/).waitFor({ timeout: 20_000 });
  });

  it("drags the counted part, the readings and the onset along the strip, each one edit", async () => {
    const { page } = opened;
    const slider = (name: string) => page.getByRole("slider", { name });
    const valueOf = (name: string) => slider(name).getAttribute("aria-valuenow").then(Number);
    const perPx = await page
      .locator(".strip-all")
      .evaluate((strip) => Number(strip.getAttribute("aria-valuemax")) / strip.clientWidth);
    for (const [name, label, farPx] of [
      ["Counted from", "Counted part set", 40],
      ["Counted to", "Counted part set", -40],
      ["First reading", "First heart reading set", 30],
      ["Last reading", "Last heart reading set", -30],
      ["Onset", "Start of the drift set", -60],
    ] as const) {
      const before = await valueOf(name);
      const box = (await slider(name).boundingBox())!;
      const x = box.x + box.width / 2;
      const y = box.y + box.height * 0.5;
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + farPx / 2, y + 3, { steps: 4 });
      await page.mouse.move(x + farPx, y, { steps: 4 });
      if (name === "Onset" || name === "Counted from")
        await shot(`skim-drag-${name === "Onset" ? "onset" : "counted"}`);
      await page.mouse.up();
      await undoTo(label);
      const after = await valueOf(name);
      // A pixel of the strip is a little more than the whole ride over its width: the lanes' names take some of it.
      expect(after - before, name).toBeGreaterThan(Math.min(farPx * perPx * 0.9, farPx * perPx * 1.35));
      expect(after - before, name).toBeLessThan(Math.max(farPx * perPx * 0.9, farPx * perPx * 1.35));
      await page.keyboard.press("Control+z");
      await page.getByTitle(`Redo: ${label}`).waitFor({ timeout: 20_000 });
      await page.waitForFunction(
        ([at, value]) =>
          Number(document.querySelector(`.strip-handle[aria-label="${at}"]`)?.getAttribute("aria-valuenow")) === value,
        [name, before] as const,
      );
    }
  });

  it("a break excused takes its moment away, and no other stands in for it", async () => {
    const { page } = opened;
    page.setDefaultTimeout(20_000);
    await page.getByRole("button", { name: /^Moments/ }).click();
    const lapse = page.locator(".skim-moment", { hasText: LAPSE });
    const times = await page.locator(".skim-moment .skim-at").allTextContents();
    const time = (await lapse.first().locator("span").first().textContent())!;
    await lapse.first().click();
    await page.locator('.skim-moment[aria-current="true"]', { hasText: time }).waitFor();
    const lapses = page.locator(".skim-breaks li.lapse");
    for (let left = await lapses.count(); left > 0; left = await lapses.count()) {
      await lapses.first().locator("select").selectOption("braking");
      await page.waitForFunction((before) => document.querySelectorAll(".skim-breaks li.lapse").length < before, left, {
        timeout: 20_000,
      });
    }
    await page.getByText("this is no moment any more").waitFor({ timeout: 20_000 });
    expect(await page.locator('.skim-moment[aria-current="true"]').count()).toBe(0);
    await shot("skim-gone");
    await page.keyboard.press("Control+z");
    await page.locator('.skim-moment[aria-current="true"]', { hasText: time }).waitFor({ timeout: 20_000 });
    await page.keyboard.press("Control+Shift+z");
    await page.getByText("this is no moment any more").waitFor({ timeout: 20_000 });
    await page.keyboard.press("n");
    await page
      .locator('.skim-moment[aria-current="true"]', { hasText: times[times.indexOf(time) + 1] ?? times.at(-2)! })
      .waitFor();
    await page.keyboard.press("Control+z");
  });

  it("asks which moment a kept one is when an overrule took it away, and puts it there or lets it go", async () => {
    const { page } = opened;
    page.setDefaultTimeout(20_000);
    await page.getByRole("button", { name: /^Moments/ }).click();
    await opened.idle();
    const lapse = page.locator(".skim-moment", { hasText: LAPSE }).first();
    await lapse.click();
    await opened.idle();
    await page.keyboard.press("k");
    await page.locator(".skim-moment.kept", { hasText: LAPSE }).first().waitFor();
    const lapses = page.locator(".skim-breaks li.lapse");
    const asked = page.getByRole("region", { name: "Which is it?" });
    for (let left = await lapses.count(); left > 0; left = await lapses.count()) {
      await lapses.first().locator("select").selectOption("braking");
      await page.waitForFunction((before) => document.querySelectorAll(".skim-breaks li.lapse").length < before, left);
    }
    await asked.waitFor();
    await page.locator(".skim-moment").first().click();
    await shot("skim-asked");
    expect(await opened.faults()).toEqual([]);
    expect(await asked.innerText()).toContain('"keep" for no pressure without a reason at');
    // The moment that is open may always be the one.
    await asked.getByLabel(/^Which one it is/).selectOption({ index: 1 });
    await asked.waitFor({ state: "detached" });
    await page.locator(".skim-moment.kept").first().waitFor();
    await page.keyboard.press("Control+z");
    await asked.waitFor();
    await asked.getByRole("button", { name: /^Let it go/ }).click();
    await asked.waitFor({ state: "detached" });
    for (const label of ["let go", "reason of the break"]) {
      await page.getByTitle(new RegExp(`^Undo: ${label}`)).waitFor();
      await page.keyboard.press("Control+z");
      await page.getByTitle(new RegExp(`^Redo: ${label}`)).waitFor();
    }
    await page.locator(".skim-moment.kept", { hasText: LAPSE }).first().waitFor();
  });

  it("says in Build that a part teaches a break that has a reason now, and takes it out on wish", async () => {
    const { page } = opened;
    // The film is the coach's from here on: else it is picked anew and teaches nothing that is excused.
    await page.locator(".frame-step", { hasText: "Build" }).click();
    await page.locator(".build-part").first().click();
    await page.keyboard.press("Alt+ArrowDown");
    await undoTo("move a part of the film");
    await page.locator(".frame-step", { hasText: "Skim" }).click();
    await page.locator(".skim-moment.kept", { hasText: LAPSE }).first().click();
    const lapses = page.locator(".skim-breaks li.lapse");
    await lapses.first().locator("select").selectOption("braking");
    await undoTo("reason of the break");
    await opened.idle();
    await page.locator(".frame-step", { hasText: "Build" }).click();
    const parts = page.locator(".build-part");
    const before = await parts.count();
    const excused = page.locator(".build-part", { has: page.locator(".build-excused") });
    await excused.first().click();
    const note = page.locator(".build-head [role=status]");
    expect(await note.textContent()).toMatch(
      /^The break at [\d:]+ has a reason now: brak.*This part still teaches it\./,
    );
    await shot("build-excused");
    await note.getByRole("button", { name: "Take it out of the film" }).click();
    await expect.poll(() => parts.count()).toBe(before - 1);
    expect(await excused.count()).toBe(0);
    for (let steps = 0; steps < 3; steps++) {
      await page.keyboard.press("Control+z");
      await opened.idle();
    }
    await page.locator(".frame-step", { hasText: "Skim" }).click();
  });

  it("keeps to the window's width at twice the text size", async () => {
    const { page } = opened;
    await page.setViewportSize({ width: Math.round(look.widthPx / 2), height: Math.round(look.heightPx / 2) });
    await opened.idle();
    await shot("skim-twice");
    expect(await opened.faults()).toEqual([]);
  });

  it("goes on without an error on the console", () => {
    expect(opened.problems).toEqual([]);
  });
});
