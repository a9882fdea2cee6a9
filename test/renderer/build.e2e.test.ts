// Build as a coach uses it: order, cut, speed, hold, caption, draw, comment, play the film unrendered; all undone again.
import { mkdirSync } from "node:fs";
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
          ["light", 1280, 800],
          ["dark", 1920, 1080],
          ["light", 900, 800],
        ] as const
      ).map(([theme, widthPx, heightPx]) => ({ theme, widthPx, heightPx }));

describeWindow.each(LOOKS)("build, $theme at $widthPx x $heightPx", (look) => {
  let opened: OpenedWindow;
  const shot = async (name: string) => {
    if (shots === undefined) return;
    mkdirSync(shots, { recursive: true });
    await opened.page.screenshot({ path: join(shots, `${name}-${look.theme}-${look.widthPx}.png`) });
  };
  const undone = async (label: string) => {
    await opened.page.getByTitle(`Undo: ${label}`).waitFor({ timeout: 20_000 });
    await opened.page.locator("body").click({ position: { x: 3, y: 300 } });
    await opened.page.keyboard.press("Control+z");
    await opened.page.getByTitle(`Redo: ${label}`).waitFor({ timeout: 20_000 });
  };
  const titles = () => opened.page.locator(".build-part .name").allTextContents();
  /** Pixels that are inked over the picture: what is drawn by hand, or the ride's numbers with caption and thread. */
  const inked = (layer: "over" | "panels") =>
    opened.page.evaluate((name) => {
      const canvas = document.querySelector<HTMLCanvasElement>(`.build .player-${name}`)!;
      const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
      let count = 0;
      for (let at = 3; at < data.length; at += 4) if (data[at]! > 200) count++;
      return count;
    }, layer);
  /** How long someone speaks is what the test is about: the made-up microphone gives sound all the while. */
  const speakFor = (lengthS: number) => opened.page.waitForTimeout(lengthS * 1000);
  /** Opens a section of the form at the side; the one before closes. */
  const open = async (title: string) => {
    const head = opened.page.locator(".fold-head", { hasText: title });
    if ((await head.getAttribute("aria-expanded")) === "false") await head.click();
    expect(await opened.page.locator('.fold-head[aria-expanded="true"]').count()).toBe(1);
  };
  const openShot = async () => {
    await opened.page.locator(".build-parts > li.firm .build-part").first().click();
    await opened.page.getByRole("heading", { level: 2, name: "Shot" }).waitFor();
    await open("Where it is cut");
    // Its first frame stands there, not one from before that is still on the screen.
    const beginS = Number(await opened.page.getByRole("slider", { name: "Begins" }).getAttribute("aria-valuenow"));
    const frame = () =>
      opened.page
        .locator(".build .player")
        .getAttribute("data-frame")
        .then((number) => (number === "" ? Number.NaN : Number(number)));
    await expect
      .poll(async () => Math.abs((await frame()) - beginS * (30_000 / 1001)), { timeout: 30_000 })
      .toBeLessThan(2);
  };

  beforeAll(async () => {
    // A made-up microphone, so that recording is tried where there is none.
    opened = await openWindow({
      ...look,
      browserArguments: ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"],
    });
    await gatherDemo(opened);
    await opened.page.locator("body").click({ position: { x: 3, y: 300 } });
    await opened.page.keyboard.press("3");
    await opened.page.getByRole("list", { name: "Parts of the film" }).waitFor();
  }, 180_000);
  afterAll(() => opened.close());

  it("shows the automatic film, card first, and is clean for axe", async () => {
    const { page } = opened;
    await page.locator(".build-card").waitFor();
    await opened.idle();
    await shot("build-card");
    expect(await opened.faults()).toEqual([]);
    await openShot();
    await opened.idle();
    await shot("build-shot");
    expect(await opened.faults()).toEqual([]);
    expect(await opened.touchedFaults()).toEqual([]);
    // The check itself can fail.
    const rule = (on: boolean) =>
      page.evaluate((add) => {
        const sheet = document.styleSheets[0]!;
        if (add) sheet.insertRule(".fold-head:active { color: #777; background: #777 }", sheet.cssRules.length);
        else sheet.deleteRule(sheet.cssRules.length - 1);
      }, on);
    await rule(true);
    expect((await opened.touchedFaults()).filter((one) => one.startsWith("pressed: ")).length).toBeGreaterThan(3);
    await rule(false);
  }, 120_000);

  it("gives the look of the numbers its room, and the picture shows what is chosen", async () => {
    const { page } = opened;
    await openShot();
    await open("Shape and numbers");
    await opened.idle();
    await shot("build-numbers");
    expect(await opened.faults()).toEqual([]);
    const plain = await inked("panels");
    await page.getByLabel("Where", { exact: true }).selectOption("at the top");
    await page.getByTitle(/^Undo: look of the numbers/).waitFor({ timeout: 20_000 });
    await page.getByLabel("speed", { exact: true }).uncheck();
    await expect.poll(() => inked("panels"), { timeout: 20_000 }).toBeLessThan(0.95 * plain);
    await shot("build-numbers-top");
    await page.getByRole("button", { name: "Take the plain look" }).click();
    await expect.poll(() => inked("panels"), { timeout: 20_000 }).toBe(plain);
  });

  it("gives the picture the room, whatever is open beside it, and the whole window by its key", async () => {
    const { page } = opened;
    await openShot();
    const width = () => page.locator(".build .player-picture").evaluate((one) => one.getBoundingClientRect().width);
    for (const [widthPx, heightPx, least] of [
      [1280, 800, 0.6 * 1280],
      [1440, 900, 0.6 * 1440],
      [900, 640, 480],
    ] as const) {
      await page.setViewportSize({ width: widthPx, height: heightPx });
      await opened.idle();
      for (const title of ["Where it is cut", "Captions", "Shape and numbers"]) {
        await open(title);
        expect(await width(), `${title} at ${widthPx}`).toBeGreaterThanOrEqual(least);
      }
    }
    await page.setViewportSize({ width: look.widthPx, height: look.heightPx });
    await opened.idle();
    const before = await width();
    await page.keyboard.press("v");
    await opened.idle();
    expect(await width()).toBeGreaterThan(1.1 * before);
    expect(await page.locator(".lane-film").isVisible()).toBe(false);
    await shot("build-large");
    expect(await opened.faults()).toEqual([]);
    await page.keyboard.press("Escape");
    await opened.idle();
    expect(await width()).toBe(before);
    await page.keyboard.press("Shift+V");
    await expect.poll(() => page.evaluate(() => document.fullscreenElement?.className ?? "")).toBe("build-picture");
    await page.keyboard.press("Shift+V");
    await expect.poll(() => page.evaluate(() => document.fullscreenElement === null)).toBe(true);
  });

  it("lays the film out as one lane: as wide as each part lasts, the playhead where the film stands", async () => {
    const { page } = opened;
    await openShot();
    const laid = await page.locator(".build-parts > li").evaluateAll((parts) =>
      parts.map((part) => {
        const { left, width } = part.getBoundingClientRect();
        const firm = part.classList.contains("firm");
        return { left, width, firm, seconds: Number(/(\d+) s$/.exec(part.querySelector("button")!.title)![1]) };
      }),
    );
    const all = laid.reduce((sum, { seconds }) => sum + seconds, 0);
    const wide = laid.reduce((sum, { width }) => sum + width, 0);
    laid.forEach(({ width, seconds }) => expect(width / wide).toBeCloseTo(seconds / all, 1));
    laid.forEach(({ left }, k) => k > 0 && expect(left).toBeCloseTo(laid[k - 1]!.left + laid[k - 1]!.width, 0));
    const head = page.getByRole("slider", { name: "Where the film stands" });
    const at = () => head.getAttribute("aria-valuenow").then(Number);
    const ruler = (await page.locator(".lane-ruler").boundingBox())!;
    const lengthS = Number(await head.getAttribute("aria-valuemax"));
    // Dragged over the ruler, the film follows: part, picture and clock.
    await page.mouse.move(ruler.x + ruler.width * 0.05, ruler.y + 8);
    await page.mouse.down();
    expect(await at()).toBeCloseTo(0.05 * lengthS, 0);
    await page.locator(".build-card").waitFor();
    const shotAt = laid.findIndex(({ firm }) => firm);
    await page.mouse.move(laid[shotAt]!.left + 0.5 * laid[shotAt]!.width, ruler.y + 8, { steps: 5 });
    await page.mouse.up();
    await page.locator(".build-card").waitFor({ state: "detached" });
    expect(await page.locator(".build-parts > li").nth(shotAt).getAttribute("class")).toContain("chosen");
    expect(await at()).toBeCloseTo(
      ((laid[shotAt]!.left - ruler.x + 0.5 * laid[shotAt]!.width) / ruler.width) * lengthS,
      0,
    );
    // By keys too.
    const stood = await at();
    await head.focus();
    await page.keyboard.press("ArrowRight");
    await expect.poll(at).toBeCloseTo(stood + 0.2, 1);
    await page.keyboard.press("Home");
    await expect.poll(at).toBe(0);
    await shot("build-lane");
  });

  it("cuts a shot by its edge in the lane, and undoes it", async () => {
    const { page } = opened;
    await openShot();
    const ends = page.getByRole("slider", { name: "Ends" });
    const before = Number(await ends.getAttribute("aria-valuenow"));
    const edge = (await page.locator(".lane-edge.end").boundingBox())!;
    await page.mouse.move(edge.x + edge.width / 2, edge.y + 10);
    await page.mouse.down();
    await page.mouse.move(edge.x + edge.width / 2 - 40, edge.y + 10, { steps: 4 });
    await shot("build-edge");
    await page.mouse.up();
    await page.getByTitle("Undo: cut a shot").waitFor({ timeout: 20_000 });
    const head = page.getByRole("slider", { name: "Where the film stands" });
    const ruler = (await page.locator(".lane-ruler").boundingBox())!;
    const lengthS = Number(await head.getAttribute("aria-valuemax"));
    const after = Number(await ends.getAttribute("aria-valuenow"));
    expect(after - before).toBeCloseTo((-40 / ruler.width) * lengthS, 0);
    await undone("cut a shot");
    await expect.poll(async () => Number(await ends.getAttribute("aria-valuenow"))).toBe(before);
  });

  it("types a caption on the picture, and opens it again by its mark in the lane", async () => {
    const { page } = opened;
    await openShot();
    await page.locator("body").click({ position: { x: 3, y: 60 } });
    await page.keyboard.press("c");
    await page.keyboard.type("One more breath 4 you");
    await shot("build-caption");
    await page.keyboard.press("Enter");
    await page.getByTitle("Undo: change a caption").waitFor({ timeout: 20_000 });
    const mark = page.getByRole("button", { name: "Caption: One more breath 4 you" });
    await mark.click();
    const field = page.getByLabel("Caption: type, then Enter");
    expect(await field.inputValue()).toBe("One more breath 4 you");
    // Given up, nothing is changed.
    await field.fill("no");
    await field.press("Escape");
    expect(await mark.count()).toBe(1);
    await undone("change a caption");
    await mark.waitFor({ state: "detached", timeout: 20_000 });
  });

  it("loses nothing of what is done while an answer is on its way", async () => {
    const { page } = opened;
    await openShot();
    const ends = page.getByRole("slider", { name: "Ends" });
    const before = Number(await ends.getAttribute("aria-valuenow"));
    await page.locator("body").click({ position: { x: 3, y: 60 } });
    await page.keyboard.press("c");
    await page.keyboard.type("Twice at once");
    // The words are not there yet when the part goes on, and its edge is taken.
    await page.keyboard.press("Enter");
    await page.keyboard.press("Alt+ArrowDown");
    await page.getByTitle("Undo: move a part of the film").waitFor({ timeout: 20_000 });
    await page.getByRole("button", { name: "Caption: Twice at once" }).waitFor();
    expect(await page.locator(".build .note.wrong").count()).toBe(0);
    const edge = (await page.locator(".lane-edge.end").boundingBox())!;
    const at = edge.x + edge.width / 2;
    await page.mouse.move(at, edge.y + 10);
    await page.mouse.down();
    await page.mouse.move(at - 20, edge.y + 10, { steps: 2 });
    // Another film comes while the edge is held.
    await page.keyboard.press("Control+z");
    await page.getByTitle("Undo: change a caption").waitFor({ timeout: 20_000 });
    await page.mouse.move(at - 40, edge.y + 10, { steps: 2 });
    await page.mouse.up();
    await page.getByTitle("Undo: cut a shot").waitFor({ timeout: 20_000 });
    expect(Number(await ends.getAttribute("aria-valuenow"))).toBeLessThan(before - 0.5);
    await undone("cut a shot");
    await undone("change a caption");
    await expect.poll(async () => Number(await ends.getAttribute("aria-valuenow"))).toBe(before);
  });

  it("moves a part by key, and undoes it", async () => {
    const { page } = opened;
    const before = await titles();
    await openShot();
    await page.keyboard.press("Alt+ArrowDown");
    await undone("move a part of the film");
    await page.waitForFunction(
      (first) => document.querySelector(".build-part .name")?.textContent === first,
      before[0],
    );
    expect(await titles()).toEqual(before);
  });

  it("moves a part by dragging it, and undoes it", async () => {
    const { page } = opened;
    const before = await titles();
    await openShot();
    const chosen = page.locator(".build-parts > li.chosen .name");
    const name = await chosen.textContent();
    const rows = page.locator(".build-parts > li");
    const written = await inked("panels");
    expect(written).toBeGreaterThan(500);
    await rows.nth(0).dragTo(rows.nth(2));
    await page.getByTitle("Undo: move a part of the film").waitFor({ timeout: 20_000 });
    expect((await titles()).slice(0, 3)).toEqual([before[1], before[2], before[0]]);
    // The shot that was open is still the one on the screen.
    expect(await chosen.textContent()).toBe(name);
    expect(await page.locator(".build-card").count()).toBe(0);
    expect(await inked("panels")).toBe(written);
    await shot("build-dragged");
    await undone("move a part of the film");
    await page.waitForFunction(
      (first) => document.querySelector(".build-part .name")?.textContent === first,
      before[0],
    );
    expect(await titles()).toEqual(before);
  });

  it("takes a part out: the next one stands on the screen, and stays there when that is undone", async () => {
    const { page } = opened;
    const before = await titles();
    await page.locator(".build-part").first().click();
    await page.locator(`.build-card[aria-label^="${before[0]}"]`).waitFor();
    await page.keyboard.press("Delete");
    await page.locator(`.build-card[aria-label^="${before[1]}"]`).waitFor({ timeout: 20_000 });
    expect(await page.locator(".build-parts > li.chosen .name").textContent()).toBe(before[1]);
    await undone("take a part out of the film");
    await page.waitForFunction(
      (first) => document.querySelector(".build-part .name")?.textContent === first,
      before[0],
    );
    expect(await titles()).toEqual(before);
    expect(await page.locator(".build-parts > li.chosen .name").textContent()).toBe(before[1]);
    await page.locator(`.build-card[aria-label^="${before[1]}"]`).waitFor();
  });

  it("cuts by the edge, runs at another speed, holds, and says", async () => {
    const { page } = opened;
    await openShot();
    // It is longer than the 6 s that a shot is never cut under.
    const edge = page.getByRole("slider", { name: "Ends" });
    const before = Number(await edge.getAttribute("aria-valuenow"));
    await edge.focus();
    for (let step = 0; step < 5; step++) await page.keyboard.press("ArrowLeft");
    await page.getByTitle("Undo: cut a shot").waitFor({ timeout: 20_000 });
    // On a slow machine the keys are taken together in two parts, each an edit.
    await expect
      .poll(async () => Number(await edge.getAttribute("aria-valuenow")), { timeout: 20_000 })
      .toBeCloseTo(before - 1, 1);
    // Pressed on while the answer to the first press comes back: none is lost.
    for (let step = 0; step < 5; step++) {
      await page.keyboard.press("ArrowRight");
      await new Promise((resolve) => setTimeout(resolve, step % 2 === 0 ? 630 : 20));
    }
    await expect
      .poll(async () => Number(await edge.getAttribute("aria-valuenow")), { timeout: 20_000 })
      .toBeCloseTo(before, 1);
    await open("Speed and sound");
    await page.getByRole("combobox", { name: "Speed" }).selectOption({ label: "2 times" });
    await page.getByTitle("Undo: speed of a shot").waitFor({ timeout: 20_000 });
    await open("Hold the picture");
    await page.getByRole("button", { name: "Hold here" }).click();
    await page.getByLabel(/^Hold at/).waitFor({ timeout: 20_000 });
    await open("Captions");
    await page.getByRole("button", { name: "Add a caption here" }).click();
    await page.getByLabel("Caption: type, then Enter").fill("Press on over the top");
    await page.keyboard.press("Enter");
    await page.getByTitle("Undo: change a caption").waitFor({ timeout: 20_000 });
    const caption = page
      .getByLabel(/^Caption \d/)
      .filter({ visible: true })
      .last();
    await caption.fill("Press on over the top, one more breath");
    await caption.press("Enter");
    await page.getByRole("button", { name: "Caption: Press on over the top, one more breath" }).waitFor();
    await shot("build-cut");
  });

  it("draws by pointer and by keys; the drawing is on the picture", async () => {
    const { page } = opened;
    await openShot();
    await page.getByRole("button", { name: "Ring" }).click();
    const box = (await page.locator(".draw-layer").boundingBox())!;
    await page.mouse.move(box.x + box.width * 0.5, box.y + box.height * 0.4);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.6, box.y + box.height * 0.45, { steps: 6 });
    await page.mouse.up();
    await page.getByTitle("Undo: drawn: ring").waitFor({ timeout: 20_000 });
    await expect.poll(() => inked("over"), { timeout: 20_000 }).toBeGreaterThan(100);
    await shot("build-draw");
    await page.keyboard.press("Escape");
    // Later taken by its rim and moved: what is inked goes along, and nothing is left behind.
    const centreX = () =>
      page.evaluate(() => {
        const canvas = document.querySelector<HTMLCanvasElement>(".build .player-over")!;
        const top = Math.round(0.2 * canvas.height);
        const { data, width } = canvas
          .getContext("2d")!
          .getImageData(0, top, canvas.width, Math.round(0.4 * canvas.height));
        let [count, sum] = [0, 0];
        for (let at = 0; at < data.length / 4; at++)
          if (data[4 * at + 3]! > 200) [count, sum] = [count + 1, sum + (at % width)];
        return sum / count / width;
      });
    expect(await centreX()).toBeCloseTo(0.5, 1);
    await page.getByRole("button", { name: "Move", exact: true }).click();
    await page.mouse.move(box.x + box.width * 0.6, box.y + box.height * 0.45);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.75, box.y + box.height * 0.45, { steps: 6 });
    await expect.poll(centreX, { timeout: 20_000 }).toBeCloseTo(0.65, 1);
    await shot("build-draw-moving");
    await page.mouse.up();
    await page.getByTitle("Undo: drawing moved").waitFor({ timeout: 20_000 });
    await opened.idle();
    expect(await centreX()).toBeCloseTo(0.65, 1);
    await page.keyboard.press("Escape");
    await page.keyboard.press("Shift+r");
    await page.keyboard.press("Enter");
    await page.getByTitle("Undo: drawn: arrow").waitFor({ timeout: 20_000 });
    await page.keyboard.press("Escape");
  });

  it("draws every shape by pointer, words too, and takes one away", async () => {
    const { page } = opened;
    await openShot();
    const box = (await page.locator(".build .player").boundingBox())!;
    for (const [k, shape] of ["Arrow", "Line", "Free hand"].entries()) {
      await page.getByRole("button", { name: shape, exact: true }).click();
      const [x, y] = [box.x + box.width * (0.12 + 0.2 * k), box.y + box.height * 0.3];
      await page.mouse.move(x, y);
      await page.mouse.down();
      for (let step = 1; step <= 8; step++) await page.mouse.move(x + 8 * step, y + 14 * Math.sin(step));
      await page.mouse.up();
      await page.getByTitle(`Undo: drawn: ${shape.toLowerCase()}`).waitFor({ timeout: 20_000 });
    }
    // Words are typed where they stand; what is typed is no key of the window.
    const parts = await page.locator(".build-part").count();
    await page.getByRole("button", { name: "Words", exact: true }).click();
    await page.mouse.click(box.x + box.width * 0.3, box.y + box.height * 0.55);
    await page.keyboard.type("cv for i? 3");
    expect(await page.locator(".build.large").count()).toBe(0);
    expect(await page.locator(".build-part").count()).toBe(parts);
    await shot("build-typing");
    await page.keyboard.press("Enter");
    await page.getByTitle("Undo: drawn: words").waitFor({ timeout: 20_000 });
    await opened.idle();
    // Pressed on words that stand there, those are changed.
    await page.mouse.click(box.x + box.width * 0.32, box.y + box.height * 0.55);
    const typed = page.getByLabel("Type, then Enter");
    expect(await typed.inputValue()).toBe("cv for i? 3");
    await typed.fill("look here");
    await typed.press("Enter");
    await page.getByTitle("Undo: drawing moved").waitFor({ timeout: 20_000 });
    await page.keyboard.press("Escape");
    await opened.idle();
    await open("Drawings");
    await page.locator(".draw-one", { hasText: "look here" }).click();
    await shot("build-draw-all");
    const drawn = page.locator(".draw-one");
    const before = await drawn.count();
    await page.getByRole("button", { name: "Remove the drawing" }).click();
    await page.getByTitle("Undo: drawing removed").waitFor({ timeout: 20_000 });
    expect(await drawn.count()).toBe(before - 1);
    await page.keyboard.press("Escape");
  });

  it("records a comment on one part, and takes it away", async () => {
    const { page } = opened;
    await openShot();
    // By its key from any section: its own opens.
    await page.keyboard.press("r");
    await page.getByRole("meter", { name: "Loudness of your voice" }).waitFor({ timeout: 20_000 });
    await speakFor(1.5);
    await shot("build-record");
    await page.keyboard.press("r");
    await page.getByTitle("Undo: record a comment").waitFor({ timeout: 20_000 });
    await page.getByText(/^Comment of|^There is a comment/).waitFor();
    await page.getByRole("button", { name: "Take the comment away" }).click();
    await page.getByTitle("Undo: remove a comment").waitFor({ timeout: 20_000 });
  });

  it("stays on its part until the last word, and keeps what was said where it was begun", async () => {
    const { page } = opened;
    const chosen = () =>
      page
        .locator(".build-parts > li")
        .evaluateAll((rows) => rows.findIndex((row) => row.classList.contains("chosen")));
    const meter = page.getByRole("meter", { name: "Loudness of your voice" });
    const takeAway = page.getByRole("button", { name: "Take the comment away" });
    // A card of 4 s, spoken on for longer.
    await page.locator(".build-part").first().click();
    await page.keyboard.press("r");
    await meter.waitFor({ timeout: 20_000 });
    expect(await meter.evaluate((one) => one.getBoundingClientRect().bottom <= window.innerHeight)).toBe(true);
    await speakFor(5.5);
    expect(await chosen()).toBe(0);
    await page.keyboard.press("r");
    await takeAway.waitFor({ timeout: 20_000 });
    expect(await chosen()).toBe(0);
    await page.getByText(/^Comment of [5-9] s/).waitFor();
    await takeAway.click();
    await takeAway.waitFor({ state: "detached", timeout: 20_000 });
    // Another part is clicked in the middle of a sentence.
    await page.keyboard.press("r");
    await meter.waitFor({ timeout: 20_000 });
    await speakFor(1.2);
    await page.locator(".build-part").nth(1).click();
    await page.getByTitle("Undo: record a comment").waitFor({ timeout: 20_000 });
    expect(await meter.count()).toBe(0);
    expect(await takeAway.count()).toBe(0);
    await page.locator(".build-part").first().click();
    await takeAway.waitFor();
    await takeAway.click();
    await takeAway.waitFor({ state: "detached", timeout: 20_000 });
  });

  it("steps through the picture by its buttons too", async () => {
    const { page } = opened;
    await openShot();
    const frame = () => page.locator(".build .player").getAttribute("data-frame").then(Number);
    const first = await frame();
    await page.getByRole("button", { name: "1 frame on" }).click();
    await page.waitForFunction(
      (number) => document.querySelector<HTMLElement>(".build .player")!.dataset.frame === String(number),
      first + 1,
      { timeout: 20_000 },
    );
    await page.getByRole("button", { name: "1 frame back" }).click();
    await page.waitForFunction(
      (number) => document.querySelector<HTMLElement>(".build .player")!.dataset.frame === String(number),
      first,
      { timeout: 20_000 },
    );
  });

  it("plays the whole film unrendered: from a card into a shot", async () => {
    const { page } = opened;
    const at = await page
      .locator(".build-parts > li")
      .evaluateAll((rows) => rows.findIndex((row) => row.classList.contains("firm")));
    await page
      .locator(".build-part")
      .nth(at - 1)
      .click();
    await page.locator("body").click({ position: { x: 3, y: 300 } });
    await page.keyboard.press(" ");
    await page.waitForFunction(
      (index) => document.querySelectorAll(".build-parts > li")[index]?.classList.contains("chosen"),
      at,
      { timeout: 40_000 },
    );
    const frame = () => page.locator(".build .player").getAttribute("data-frame");
    const first = await frame();
    await page.waitForFunction(
      (before) => document.querySelector<HTMLElement>(".build .player")!.dataset.frame !== before,
      first,
      { timeout: 20_000 },
    );
    await page.keyboard.press(" ");
    await page.getByRole("button", { name: "Play the film" }).waitFor();
  });

  it("fades into a shot as the film will: both pictures are seen", async () => {
    const { page } = opened;
    await openShot();
    const fade = page.getByLabel("Fade in from the part before");
    await open("Speed and sound");
    const before = await fade.inputValue();
    await fade.fill("2");
    await fade.press("Enter");
    await page.getByTitle("Undo: fade into a part").waitFor({ timeout: 20_000 });
    const at = await page
      .locator(".build-parts > li")
      .evaluateAll((rows) => rows.findIndex((row) => row.classList.contains("firm")));
    await page
      .locator(".build-part")
      .nth(at - 1)
      .click();
    await page.locator("body").click({ position: { x: 3, y: 300 } });
    await page.keyboard.press(" ");
    const seen = () =>
      page.evaluate(() => {
        const opacity = (one: string) => Number(getComputedStyle(document.querySelector(`.build ${one}`)!).opacity);
        return {
          shot: opacity(".player-picture > video"),
          beneath: opacity(".build-beneath"),
          cards: document.querySelectorAll(".build-card-out").length,
          panels: opacity(".player-panels"),
        };
      });
    await page.waitForFunction(
      () => {
        const share = getComputedStyle(document.querySelector(".build .player-picture > video")!).opacity;
        return document.querySelector(".build-card-out") !== null && Number(share) > 0.52 && Number(share) < 0.8;
      },
      undefined,
      { timeout: 60_000, polling: "raf" },
    );
    await page.keyboard.press(" ");
    await page.getByRole("button", { name: "Play the film" }).waitFor();
    const half = await seen();
    expect(half).toMatchObject({ beneath: 1, cards: 1 });
    expect(half.shot).toBeGreaterThan(0.5);
    expect(half.shot).toBeLessThan(1);
    // The numbers go out with the one picture and come in with the other.
    expect(half.panels).toBeCloseTo(Math.abs(2 * half.shot - 1), 5);
    await shot("build-crossfade");
    await openShot();
    expect(await seen()).toMatchObject({ shot: 1, beneath: 0, cards: 0 });
    await open("Speed and sound");
    await fade.fill(before);
    await fade.press("Enter");
    await expect.poll(() => fade.inputValue(), { timeout: 20_000 }).toBe(before);
  });

  it("slows a shot to an eighth, and hand-over then asks whether it keeps its sound", async () => {
    const { page } = opened;
    await openShot();
    await open("Speed and sound");
    const speed = page.getByRole("combobox", { name: "Speed" });
    const before = await speed.inputValue();
    await speed.selectOption({ label: "0.125 times" });
    await page.getByTitle("Undo: speed of a shot").waitFor({ timeout: 20_000 });
    await page.locator(".frame-step", { hasText: "Hand over" }).click();
    const keepsSound = page.getByRole("checkbox", { name: "Slow shots keep their sound" });
    expect(await keepsSound.isChecked()).toBe(true);
    await keepsSound.uncheck();
    await shot("handover-slow-sound");
    await page.locator(".frame-step", { hasText: "Build" }).click();
    await openShot();
    await open("Speed and sound");
    await speed.selectOption(before);
    await expect.poll(() => speed.inputValue(), { timeout: 20_000 }).toBe(before);
    await page.locator(".frame-step", { hasText: "Hand over" }).click();
    await page.getByRole("heading", { level: 1, name: "Hand over" }).waitFor();
    expect(await keepsSound.count()).toBe(0);
    await page.locator(".frame-step", { hasText: "Build" }).click();
  });

  it("goes on to the next part from a fast shot that ends with its clip", async () => {
    const { page } = opened;
    await openShot();
    await open("Speed and sound");
    await page.getByRole("combobox", { name: "Speed" }).selectOption({ label: "8 times" });
    await page.getByTitle("Undo: speed of a shot").waitFor({ timeout: 20_000 });
    await open("Where it is cut");
    const ends = page.getByRole("slider", { name: "Ends" });
    const clipEndS = Number(await ends.getAttribute("aria-valuemax"));
    await ends.hover();
    await page.mouse.down();
    await page.mouse.move(3000, (await ends.boundingBox())!.y, { steps: 4 });
    await page.mouse.up();
    await expect
      .poll(async () => Number(await ends.getAttribute("aria-valuenow")), { timeout: 20_000 })
      .toBeCloseTo(clipEndS, 1);
    const chosen = () =>
      page
        .locator(".build-parts > li")
        .evaluateAll((rows) => rows.findIndex((row) => row.classList.contains("chosen")));
    const at = await chosen();
    await page.locator("body").click({ position: { x: 3, y: 300 } });
    await page.keyboard.press(" ");
    await page.waitForFunction(
      (index) => document.querySelectorAll(".build-parts > li")[index + 1]?.classList.contains("chosen"),
      at,
      { timeout: 40_000 },
    );
    await page.keyboard.press(" ");
    await page.getByRole("button", { name: "Play the film" }).waitFor();
  });

  it("picks a film of another length, and gives the coach's back", async () => {
    const { page } = opened;
    await open("The whole film");
    await page.getByText("Yours: it stays as you made it.").waitFor();
    await page.getByLabel("Wished length").fill("60");
    await page.getByLabel("Wished length").press("Enter");
    await page.getByText("Picked by the program").waitFor({ timeout: 20_000 });
    await page.locator("body").click({ position: { x: 3, y: 300 } });
    await page.keyboard.press("Control+z");
    await page.getByText("Yours: it stays as you made it.").waitFor({ timeout: 20_000 });
  });

  it("keeps to the window's width at twice the text size", async () => {
    const { page } = opened;
    await page.setViewportSize({ width: Math.round(look.widthPx / 2), height: Math.round(look.heightPx / 2) });
    await opened.idle();
    await shot("build-twice");
    expect(await opened.faults()).toEqual([]);
    expect(opened.problems).toEqual([]);
  });
});
