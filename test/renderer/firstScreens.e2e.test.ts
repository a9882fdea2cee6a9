import { mkdirSync } from "node:fs";
import { stat } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
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

describeWindow.each(LOOKS)("gather, line up and hand over by keyboard, $theme at $widthPx x $heightPx", (look) => {
  let opened: OpenedWindow;
  const refused: string[] = [];
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}-${look.theme}-${look.widthPx}.png`) });
  };

  beforeAll(async () => {
    opened = await openWindow(look);
    opened.context.on("response", (response) => {
      if (response.status() >= 400) refused.push(`${response.status()} ${new URL(response.url()).pathname}`);
    });
  });
  afterAll(() => opened.close());

  it("starts with a place to drop on, and is clean for axe", async () => {
    const { page } = opened;
    await page.getByRole("heading", { level: 1, name: "Drop a ride and its footage here" }).waitFor();
    await shot("start");
    expect(await opened.faults()).toEqual([]);
    // In the words of who comes for the first time.
    await page.getByRole("button", { name: /^Debrief a ride/ }).click();
    await page.getByRole("listbox").waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("listbox").waitFor({ state: "detached" });
  });

  it("helps to find what was dropped, where the browser does not tell its place", async () => {
    const { page, demo, home } = opened;
    const bytes = (await stat(join(home, "rides", demo.rideName))).size;
    await page.evaluate(
      ({ name, size }) => {
        const dataTransfer = new DataTransfer();
        dataTransfer.items.add(new File([new Uint8Array(size)], name));
        window.dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
      },
      { name: demo.rideName, size: bytes },
    );
    const list = page.getByRole("listbox");
    await list.getByRole("option", { name: /rides/ }).click();
    await page.getByText("All of them are here and chosen.").waitFor();
    expect(await list.locator('[aria-selected="true"]').allTextContents()).toEqual([
      expect.stringContaining(demo.rideName),
    ]);
    await shot("dropped");
    await page.keyboard.press("Escape");
  });

  it("chooses a ride and clips in the picker without a pointer", async () => {
    const { page, demo } = opened;
    await page.keyboard.press("f");
    const list = page.getByRole("listbox");
    await list.focus();
    await list.getByRole("option", { name: /rides/ }).waitFor();
    await page.keyboard.press("Home");
    const names = await list.getByRole("option").allTextContents();
    for (let step = names.findIndex((name) => name.startsWith("rides")); step > 0; step--)
      await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await list.getByRole("option", { name: demo.rideName }).waitFor();
    const inside = await list.getByRole("option").allTextContents();
    for (const name of inside) {
      if (name.includes("ride") || name.includes("clip")) await page.keyboard.press(" ");
      await page.keyboard.press("ArrowDown");
    }
    await shot("picker");
    expect(await opened.faults()).toEqual([]);
    await page.getByRole("button", { name: `Take ${1 + demo.clipNames.length} files` }).press("Enter");
    await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor({ timeout: 60_000 });
    for (const name of [demo.rideName, ...demo.clipNames])
      await page.locator(".gather .name", { hasText: name }).first().waitFor();
  });

  it("opens a folder by one click or two, and a file clicked twice stays chosen", async () => {
    const { page, demo } = opened;
    await page.keyboard.press("f");
    const list = page.getByRole("listbox");
    // It begins where files were taken last.
    await list.getByRole("option", { name: demo.rideName }).waitFor();
    await list.press("Backspace");
    await list.getByRole("option", { name: /rides/ }).dblclick();
    const ride = list.getByRole("option", { name: demo.rideName });
    await ride.waitFor();
    expect(await list.locator('[aria-selected="true"]').count()).toBe(0);
    await ride.dblclick();
    expect(await list.locator('[aria-selected="true"]').allTextContents()).toEqual([
      expect.stringContaining(demo.rideName),
    ]);
    await page.keyboard.press("Escape");
  });

  it("chooses a row of files and all of them, and keeps them in another folder", async () => {
    const { page, demo } = opened;
    await page.keyboard.press("f");
    const list = page.getByRole("listbox");
    await list.getByRole("option", { name: demo.rideName }).waitFor();
    const chosen = () => list.locator('[aria-selected="true"]').count();
    const [first, , last] = demo.clipNames;
    await list.getByRole("option", { name: first! }).click();
    await list.getByRole("option", { name: last! }).click({ modifiers: ["Shift"] });
    expect(await chosen()).toBe(3);
    await list.press("Control+a");
    expect(await chosen()).toBe(1 + demo.clipNames.length);
    await list.press("Backspace");
    await list.getByRole("option", { name: /rides/ }).waitFor();
    await page.getByRole("button", { name: `Take ${1 + demo.clipNames.length} files` }).waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("f");
    await list.getByRole("option", { name: first! }).waitFor();
    await list.press("Home");
    await list.press("Shift+ArrowDown");
    await list.press("Shift+ArrowDown");
    expect(await chosen()).toBeGreaterThanOrEqual(2);
    await page.keyboard.press("Escape");
  });

  it("takes the plan field by field, and undoes it", async () => {
    const { page } = opened;
    const target = page.getByLabel("Target power");
    await target.fill("162");
    await target.press("Enter");
    await page.getByRole("button", { name: "Undo" }).and(page.locator(":not([disabled])")).waitFor();
    await page.getByLabel("Give or take").fill("12");
    await page.getByLabel("Give or take").press("Enter");
    await page.getByLabel("Warm-up").fill("10");
    await page.getByLabel("Warm-up").press("Enter");
    for (const [typed, shown] of [
      ["1 h 15 min", "1 h 15 min"],
      ["1:15", "1 h 15 min"],
      ["0", "0 s"],
      ["10 min", "10 min"],
    ] as const) {
      // What was typed before has been taken in.
      await opened.idle();
      await page.getByLabel("Warm-up").fill(typed);
      await page.getByLabel("Warm-up").press("Enter");
      await expect.poll(() => page.getByLabel("Warm-up").inputValue(), { message: typed }).toBe(shown);
      expect(await page.locator(".plan-row [role=alert], .plan-row .fault").count()).toBe(0);
    }
    await page.waitForFunction(() => document.querySelector(".told-rows")?.textContent?.includes("162") === true);
    await shot("gather");
    expect(await opened.faults()).toEqual([]);
    await page.getByLabel("How long it takes").fill("much");
    await page.getByLabel("How long it takes").press("Enter");
    await page.getByText("Write it as 3:30, 3 h 30 min").waitFor();
    await page.getByLabel("How long it takes").fill("");
    await page.getByLabel("How long it takes").press("Tab");
  });

  it("lines up with an anchor, moves the footage by a second, and undoes that", async () => {
    const { page, demo } = opened;
    const [clipName, rest] = demo.anchor.split("@") as [string, string];
    const rideT = rest.slice(rest.indexOf("=") + 1);
    const mediaText = rest.slice(0, rest.indexOf("="));
    await page.locator("body").click({ position: { x: 5, y: 400 } });
    await page.keyboard.press("1");
    await page.getByRole("slider").waitFor();
    await page.getByRole("button", { name: `Look at ${clipName}` }).press("Enter");
    await page.locator('.player[data-frame]:not([data-frame=""])').waitFor({ timeout: 30_000 });
    await shot("lineup-unsure");
    expect(await opened.faults()).toEqual([]);
    // The anchor belongs to a picture inside the clip; the field speaks of the picture that is shown.
    const seconds = mediaText.split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
    const field = page.getByLabel(/of the clip, the ride is at/);
    await field.fill("nonsense");
    await page.locator(".anchor-form .fault").waitFor();
    await field.fill(`1:00:00`);
    await page.getByText("That is 1:00:00 of the ride.").waitFor();
    expect(seconds).toBeGreaterThanOrEqual(0);
    await field.fill(rideT);
    await field.press("Enter");
    await page.getByText("by an anchor").first().waitFor({ timeout: 30_000 });
    const slider = page.getByRole("slider");
    const before = Number(await slider.getAttribute("aria-valuenow"));
    await slider.focus();
    await page.keyboard.press("Shift+ArrowRight");
    await page.waitForFunction(
      (value) =>
        Math.abs(Number(document.querySelector('[role="slider"]')!.getAttribute("aria-valuenow")) - value - 1) < 0.05,
      before,
    );
    await shot("lineup-anchored");
    expect(await opened.faults()).toEqual([]);
    await page.keyboard.press("Control+z");
    await page.waitForFunction(
      (value) =>
        Math.abs(Number(document.querySelector('[role="slider"]')!.getAttribute("aria-valuenow")) - value) < 0.05,
      before,
    );
  });

  it("takes the footage along by dragging it, with the numbers on the picture at once, and undoes it", async () => {
    const { page } = opened;
    const lane = page.getByRole("slider");
    const valueOf = (name: string) => lane.getAttribute(name).then(Number);
    const rideTime = () => page.getByRole("group", { name: "Picture", exact: true }).locator(".figure").textContent();
    const before = await valueOf("aria-valuenow");
    const stoodAt = await rideTime();
    const secondsAPx =
      ((await valueOf("aria-valuemax")) - (await valueOf("aria-valuemin"))) /
      (await lane.locator("canvas").evaluate((canvas) => canvas.clientWidth));
    const box = (await lane.boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 60, y, { steps: 6 });
    await expect.poll(rideTime).not.toBe(stoodAt);
    await shot("lineup-dragging");
    await page.mouse.up();
    const is = (value: number) =>
      expect.poll(() => valueOf("aria-valuenow"), { timeout: 20_000 }).toBeCloseTo(value, 0);
    await is(before + 60 * secondsAPx);
    await page.keyboard.press("Control+z");
    await is(before);
    await expect.poll(rideTime).toBe(stoodAt);
  });

  it("has a button for every step and every nudge, which does what its key does", async () => {
    const { page } = opened;
    const shownFrame = () => page.locator(".lineup .player").getAttribute("data-frame").then(Number);
    const frameIs = (frame: number) =>
      page.waitForFunction(
        (number) => document.querySelector<HTMLElement>(".lineup .player")!.dataset.frame === String(number),
        frame,
        { timeout: 30_000 },
      );
    const transport = page.getByRole("group", { name: "Picture", exact: true });
    const press = (name: string) => transport.getByRole("button", { name, exact: true }).click();
    await press("1 min back");
    await frameIs(0);
    await press("1 frame on");
    await frameIs(1);
    await press("1 frame back");
    await frameIs(0);
    await press("1 s on");
    await page.waitForFunction(() => Number(document.querySelector<HTMLElement>(".lineup .player")!.dataset.frame) > 5);
    const aSecond = await shownFrame();
    await page.locator("body").click({ position: { x: 5, y: 400 } });
    await page.keyboard.press("Shift+ArrowUp");
    await frameIs(0);
    await page.keyboard.press("Shift+ArrowDown");
    await frameIs(aSecond);
    await press("Play");
    await page.waitForFunction(
      (frame) => Number(document.querySelector<HTMLElement>(".lineup .player")!.dataset.frame) > frame,
      aSecond,
      { timeout: 30_000 },
    );
    await press("Stop");
    await transport.getByRole("button", { name: "Play", exact: true }).waitFor();
    // What the anchor would be set for is the frame that now stands there.
    const atS = Math.floor((await shownFrame()) / 29.97);
    await page.getByLabel(`At 0:00:${String(atS).padStart(2, "0")} of the clip, the ride is at`).waitFor();

    const place = () => page.getByRole("slider").getAttribute("aria-valuenow").then(Number);
    const moved = (from: number, by: number) =>
      page.waitForFunction(
        ({ to }) =>
          Math.abs(Number(document.querySelector('[role="slider"]')!.getAttribute("aria-valuenow")) - to) < 0.06,
        { to: from + by },
        { timeout: 30_000 },
      );
    const before = await place();
    for (const [name, byS] of [
      ["1 s later", 1],
      ["1 min later", 60],
      ["1 min earlier", -60],
      ["1 s earlier", -1],
    ] as const) {
      const from = await place();
      const rideTime = () =>
        transport
          .locator(".figure")
          .textContent()
          .then((text) => (text ?? "").split(":").reduce((sum, part) => sum * 60 + Number(part), 0));
      const stoodAt = await rideTime();
      await page.getByRole("button", { name, exact: true }).click();
      await moved(from, byS);
      // The same frame, at another time of the ride.
      await expect.poll(rideTime).toBe(stoodAt + byS);
    }
    await page.getByRole("button", { name: "1 frame later", exact: true }).click();
    await page.waitForFunction(
      (value) => Number(document.querySelector('[role="slider"]')!.getAttribute("aria-valuenow")) > value + 0.01,
      before,
    );
    await page.getByRole("button", { name: "1 frame earlier", exact: true }).click();
    await moved(before, 0);
    await shot("lineup-steps");
  });

  it("says what would be written, and what has to be agreed to for a lesson", async () => {
    const { page } = opened;
    await page.locator("body").click({ position: { x: 5, y: 400 } });
    await page.keyboard.press("4");
    await page.getByRole("heading", { level: 1, name: "Hand over" }).waitFor();
    await page.getByText("film.mp4").first().waitFor({ timeout: 30_000 });
    await shot("handover");
    expect(await opened.faults()).toEqual([]);
    await page.getByRole("radio", { name: /a lesson for others/ }).check();
    await page.getByLabel("Say watts as a share of the plan").waitFor();
    await shot("handover-lesson");
  });

  it("lists the keys that work here, and the cautions", async () => {
    const { page } = opened;
    await page.keyboard.press("?");
    await page.getByRole("heading", { name: "Keys that work here" }).waitFor();
    await shot("keys");
    expect(await opened.faults()).toEqual([]);
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "About" }).press("Enter");
    await page.getByText("Not a medical device").waitFor();
    await page.getByText("of the last 10 starts").waitFor();
    await shot("about");
    expect(await opened.faults()).toEqual([]);
    await page.getByText("Packages and their licences").click();
    const packages = page.getByLabel("Packages and their licences");
    await packages.getByText("GNU GENERAL PUBLIC LICENSE").waitFor();
    for (const name of ["ffmpeg-static", "react-dom", "@napi-rs/canvas", "zod"])
      expect(await packages.textContent()).toMatch(new RegExp(`^${name} \\d+\\.\\d+\\.\\d+ \\(`, "m"));
    await shot("about-packages");
    expect(await opened.faults()).toEqual([]);
    await page.keyboard.press("Escape");
  });

  it("makes an athlete, shows the weeks, and deletes only what was named", async () => {
    const { page } = opened;
    await page.keyboard.press("Shift+A");
    await page.getByRole("heading", { level: 1, name: "Athletes" }).waitFor();
    await page.keyboard.press("n");
    await page.getByLabel("Name").fill("Ana Probe");
    await page.getByLabel("Target power").first().fill("162");
    await page.getByLabel("Target found on").first().fill("2026-10-03");
    await page.getByRole("button", { name: "Add an event" }).press("Enter");
    await page.getByLabel("Event", { exact: true }).fill("Ridge Ride");
    await page.getByLabel("How long").fill("3:30");
    await shot("athlete-form");
    expect(await opened.faults()).toEqual([]);
    await page.getByRole("button", { name: "Save" }).press("Enter");
    const take = page.getByRole("button", { name: "Take this folder" });
    await take.and(page.locator(":not([disabled])")).waitFor();
    await take.press("Enter");
    await page.getByRole("heading", { level: 2, name: "Ana Probe" }).waitFor();
    await shot("athletes");
    expect(await opened.faults()).toEqual([]);
    await page.getByRole("button", { name: "Weeks" }).press("Enter");
    await page.getByRole("heading", { level: 1, name: "Weeks of Ana Probe" }).waitFor();
    await page.locator(".weeks .note, iframe.weeks-page").first().waitFor();
    await shot("weeks");
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Delete" }).press("Enter");
    await page.getByText("athlete.json").waitFor();
    const remove = page.getByRole("button", { name: "Delete for good" });
    await page.getByLabel(/To delete, type the name/).fill("Ana");
    expect(await remove.isDisabled()).toBe(true);
    await page.getByLabel(/To delete, type the name/).fill("Ana Probe");
    await shot("athlete-delete");
    expect(await opened.faults()).toEqual([]);
    await remove.press("Enter");
    await page.getByText("No athlete yet.").waitFor();
  });

  it("keeps to the window's width at twice the text size", async () => {
    const { page } = opened;
    await page.setViewportSize({ width: Math.round(look.widthPx / 2), height: Math.round(look.heightPx / 2) });
    for (const key of ["0", "1", "4", "Shift+A"]) {
      await page.keyboard.press(key);
      await opened.idle();
      await shot(`twice-${key}`);
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth), key).toBe(true);
    }
  });

  it("loaded nothing from elsewhere and said nothing wrong", () => {
    expect(refused).toEqual([]);
    expect(opened.problems).toEqual([]);
  });
});
