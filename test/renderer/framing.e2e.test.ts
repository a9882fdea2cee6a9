// Parts of the picture are covered and shown close up in Build, by pointer and by key; the preview shows what the film shows.
import { mkdirSync } from "node:fs";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { Shot } from "../../main/contract/film.ts";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

const shots = process.env.FOLLOWCAR_SHOTS;

describeWindow("what is hidden and shown of a picture", () => {
  let opened: OpenedWindow;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}.png`) });
  };
  const open = async (title: string) => {
    const head = opened.page.locator(".fold-head", { hasText: title });
    if ((await head.getAttribute("aria-expanded")) === "false") await head.click();
  };
  const did = (label: string) => opened.page.getByTitle(`Undo: ${label}`).waitFor({ timeout: 20_000 });
  /** Drags over the picture, shares of the clip's whole picture as it lies on the stage. */
  const drag = async (from: readonly [number, number], to: readonly [number, number]) => {
    const box = (await opened.page.locator(".frame-layer").boundingBox())!;
    const at = ([x, y]: readonly [number, number]) => [box.x + x * box.width, box.y + y * box.height] as const;
    await opened.page.mouse.move(...at(from));
    await opened.page.mouse.down();
    await opened.page.mouse.move(...at([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]));
    await opened.page.mouse.move(...at(to));
    await opened.page.mouse.up();
  };
  /** Mean brightness, and the mean step from pixel to pixel, of a part of the painted picture; shares of the stage. */
  const seen = (x: number, y: number, width: number, height: number) =>
    opened.page.evaluate(
      ([left, top, wide, high]) => {
        const canvas = document.querySelector<HTMLCanvasElement>(".build .player-framed")!;
        const [w, h] = [Math.round(wide! * canvas.width), Math.round(high! * canvas.height)];
        const { data } = canvas
          .getContext("2d")!
          .getImageData(Math.round(left! * canvas.width), Math.round(top! * canvas.height), w, h);
        let [light, steps] = [0, 0];
        for (let at = 0; at < data.length; at += 4) {
          light += data[at]! + data[at + 1]! + data[at + 2]!;
          if ((at / 4) % w > 0) steps += Math.abs(data[at + 1]! - data[at - 3]!);
        }
        return { light: light / (data.length / 4) / 3, step: steps / (data.length / 4) };
      },
      [x, y, width, height],
    );
  /** The shot as the debrief holds it on disk. */
  const saved = async (): Promise<Shot> => {
    const id = await opened.page.locator(".build-form h2 + p").textContent();
    const folder = join(opened.home, "rides");
    const found = (await readdir(folder, { recursive: true })).filter((name) => name.endsWith("debrief.json"));
    const { film } = JSON.parse(await readFile(join(folder, found[0]!), "utf8")) as { film: { items: Shot[] } };
    const one = film.items.find(({ type, covers, closeUp }) => type === "shot" && (covers ?? closeUp) !== undefined);
    if (one === undefined) throw new Error(`nothing is covered yet: ${id ?? ""}`);
    return one;
  };

  /** An edit is made, sent, drawn and saved: that takes a while on a busy machine. */
  const polled = <T>(look: () => Promise<T>) => expect.poll(look, { timeout: 20_000 });

  beforeAll(async () => {
    opened = await openWindow({ widthPx: 1280, heightPx: 720 });
    await gatherDemo(opened);
    await opened.page.locator("body").click({ position: { x: 3, y: 300 } });
    await opened.page.keyboard.press("3");
    await opened.page.getByRole("list", { name: "Parts of the film" }).waitFor();
    await opened.page.locator(".build-parts > li.firm .build-part").first().click();
    await opened.page.getByRole("heading", { level: 2, name: "Shot" }).waitFor();
    await opened.page.locator('.build .player[data-picture="shown"]').waitFor({ timeout: 60_000 });
    await opened.idle();
  }, 240_000);
  afterAll(() => opened.close());

  it("a part is covered from corner to corner, for the whole shot, and is hidden in the preview", async () => {
    const { page } = opened;
    await open("Covered parts");
    await page.getByRole("button", { name: "Cover a part" }).click();
    await page.getByText(/^Cover: drag from corner/).waitFor();
    await polled(async () => (await seen(0.1, 0.1, 0.8, 0.8)).light).toBeGreaterThan(20);
    const before = await seen(0.42, 0.52, 0.16, 0.16);
    await drag([0.4, 0.5], [0.6, 0.7]);
    await did("part covered");
    await opened.idle();
    await shot("cover-blur");
    expect(await opened.faults()).toEqual([]);
    await polled(async () => (await seen(0.42, 0.52, 0.16, 0.16)).step).toBeLessThan(0.5 * before.step);
    await page.getByRole("button", { name: "solid black" }).click();
    await polled(async () => (await seen(0.42, 0.52, 0.16, 0.16)).light).toBeLessThan(2);
    expect((await seen(0.1, 0.5, 0.2, 0.2)).light).toBeGreaterThan(20);
    await page.getByText("the whole shot", { exact: true }).waitFor();
    await polled(async () => (await saved()).covers).toMatchObject([{ kind: "solid" }]);
    const { keys } = (await saved()).covers![0]!;
    expect(keys).toHaveLength(1);
    expect(keys[0]!.width).toBeCloseTo(0.2, 2);
  }, 120_000);

  it("at a later instant it is moved by its middle and sized by a corner: in between it goes there", async () => {
    const { page } = opened;
    await page.keyboard.press("Escape");
    await page.locator(".frame-layer").waitFor({ state: "detached" });
    for (let second = 0; second < 2; second++) {
      await page.keyboard.press("Shift+ArrowRight");
      await opened.idle();
    }
    await page.locator(".draw-one", { hasText: "Cover 1" }).click();
    await drag([0.5, 0.6], [0.3, 0.6]);
    await did("cover changed");
    await polled(async () => (await saved()).covers![0]!.keys.length).toBeGreaterThan(2);
    const { keys } = (await saved()).covers![0]!;
    // Held to both ends of the clip, so that no later cut uncovers it.
    expect(keys[0]).toMatchObject({ atMediaS: 0 });
    expect(keys.at(-1)!.atMediaS).toBeGreaterThan(keys.at(-2)!.atMediaS + 5);
    expect(keys.at(-1)!.x).toBe(keys.at(-2)!.x);
    expect(keys.at(-2)!.x).toBeCloseTo(0.2, 2);
    await drag([0.4, 0.7], [0.5, 0.8]);
    await polled(async () => (await saved()).covers![0]!.keys.at(-2)!.width).toBeCloseTo(0.3, 2);
    await polled(async () => (await seen(0.21, 0.51, 0.28, 0.28)).light).toBeLessThan(2);
    // Half-way between the two instants.
    await page.keyboard.press("Escape");
    await page.keyboard.press("Shift+ArrowLeft");
    await opened.idle();
    await polled(async () => (await seen(0.34, 0.53, 0.12, 0.12)).light).toBeLessThan(2);
    await shot("cover-between");
    expect((await seen(0.06, 0.53, 0.1, 0.1)).light).toBeGreaterThan(5);
  }, 120_000);

  it("begins and ends where one says; before and after it the picture is whole", async () => {
    const { page } = opened;
    await page.getByRole("button", { name: "From here" }).click();
    await page.getByText(/^from 0:/).waitFor();
    await page.keyboard.press("Shift+ArrowLeft");
    await opened.idle();
    await polled(async () => (await seen(0.34, 0.53, 0.12, 0.12)).light).toBeGreaterThan(5);
    await page.getByRole("button", { name: "The whole shot" }).click();
    await page.getByText("the whole shot", { exact: true }).waitFor();
    await polled(async () => (await seen(0.34, 0.53, 0.12, 0.12)).light).toBeLessThan(2);
  }, 120_000);

  it("is put, moved, sized and taken away by keys alone", async () => {
    const { page } = opened;
    await page.locator("body").click({ position: { x: 3, y: 300 } });
    await page.keyboard.press("h");
    await page.keyboard.press("Enter");
    await did("part covered");
    await page.locator(".draw-one", { hasText: "Cover 2" }).waitFor();
    const width = async () => (await saved()).covers![1]!.keys[0]!;
    await page.keyboard.press("ArrowRight");
    await polled(async () => (await width()).x).toBeCloseTo(0.43, 5);
    await page.keyboard.press("Shift+ArrowRight");
    await polled(async () => (await width()).width).toBeCloseTo(0.17, 5);
    await page.keyboard.press("Backspace");
    await did("cover taken away");
    await page.locator(".draw-one", { hasText: "Cover 2" }).waitFor({ state: "detached" });
    await page.keyboard.press("Escape");
    await page.locator(".frame-layer").waitFor({ state: "detached" });
  }, 120_000);

  it("a part is shown close up from one instant to another, and the preview goes there", async () => {
    const { page } = opened;
    await page.keyboard.press("k");
    await page.getByText(/^Close-up: drag from corner/).waitFor();
    await open("Close-up");
    await drag([0.25, 0.25], [0.75, 0.75]);
    await did("close-up");
    await opened.idle();
    await shot("close-up-armed");
    expect(await opened.faults()).toEqual([]);
    await polled(async () => (await saved()).closeUp).toHaveLength(1);
    expect((await saved()).closeUp![0]!.share).toBeCloseTo(0.5, 2);
    const whole = await seen(0.26, 0.26, 0.48, 0.48);
    await page.keyboard.press("Escape");
    await opened.idle();
    await shot("close-up");
    // The same part, now over the whole frame: as bright, and softer from pixel to pixel.
    await polled(async () => (await seen(0.02, 0.02, 0.96, 0.96)).step).toBeLessThan(0.85 * whole.step);
    expect(Math.abs((await seen(0.02, 0.02, 0.96, 0.96)).light - whole.light)).toBeLessThan(4);
    await page.keyboard.press("k");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Shift+ArrowRight");
    await polled(async () => (await saved()).closeUp![0]!.share).toBeCloseTo(0.52, 2);
    await page.keyboard.press("Escape");
    await page.keyboard.press("Shift+ArrowRight");
    await opened.idle();
    await page.getByRole("button", { name: "All of it from here" }).click();
    await polled(async () => (await saved()).closeUp).toMatchObject([{}, { share: 1 }]);
    await page
      .getByRole("button", { name: /^Take away what is set at/ })
      .last()
      .click();
    await polled(async () => (await saved()).closeUp?.length).toBe(1);
    await page.keyboard.press("Control+z");
    await polled(async () => (await saved()).closeUp?.length).toBe(2);
    expect(opened.problems).toEqual([]);
  }, 120_000);
});
