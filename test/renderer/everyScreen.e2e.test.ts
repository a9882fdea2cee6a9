// Every screen and every dialog, light and dark, at the sizes that people have and at twice the text size: words can be read
// whatever the pointer does, hints look like hints, nothing covers a control, nothing is wider than the window.
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openDesk } from "../app/desk/openDesk.ts";
import { made } from "../app/desk/deskParts.ts";
import { coveredControls } from "./coveredControls.ts";
import { demoFiles } from "./demoFiles.ts";
import { unlikeHints } from "./unlikeHints.ts";
import { describeWindow, openWindow, temporaryHome, type OpenedWindow } from "./openWindow.ts";

/** Pictures of every screen are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;
const SIZES = [
  [900, 720],
  [1280, 800],
  [1440, 900],
  [1920, 1080],
] as const;
const WEEK_MS = 7 * 86_400_000;
/** Drift of the weeks before, beats: what a rider's rides look like. */
const WEEKS = [7.5, 9, 6, 8, 5.5, 6.5, 4];

/** An athlete with a debrief of the demo and its footage, and one of each of the weeks before. */
async function weeksOfDebriefs(home: string, names: readonly string[]): Promise<void> {
  const open = await openDesk(home);
  try {
    mkdirSync(join(home, "people"));
    const athlete = await open.api.saveAthlete(open.id(join(home, "people")), {
      name: "Mira Voss",
      events: [{ name: "Three Valleys", durationS: 9000 }],
      road: { targetW: 162, toleranceW: 12 },
    });
    await open.api.beginDebrief(athlete.id);
    await open.api.addFiles(names.map((name) => open.id(join(home, "rides", name))));
    await made({ part: "words", value: { ...open.view().document.words, notes: "rode well" }, label: "note" }, open);
    await open.api.saveNow();
    const { folder } = open.view();
    await open.api.closeDebrief();
    const document = JSON.parse(readFileSync(join(folder, "debrief.json"), "utf8")) as {
      readonly figures: { readonly startUtcMs: number };
    };
    const { figures } = document;
    for (const [k, driftBeats] of WEEKS.entries()) {
      const before = `${folder}-${k + 1}`;
      cpSync(folder, before, { recursive: true });
      const ridden = { ...figures, startUtcMs: figures.startUtcMs - (WEEKS.length - k) * WEEK_MS, driftBeats };
      writeFileSync(join(before, "debrief.json"), JSON.stringify({ ...document, figures: ridden }));
    }
  } finally {
    await open.close();
  }
}

describeWindow("every screen", () => {
  let home: string;
  let opened: OpenedWindow;
  const press = (keys: string) => opened.page.keyboard.press(keys);
  const step = (name: string) => opened.page.locator(".frame-step", { hasText: name }).click();
  const close = async () => {
    await press("Escape");
    await opened.page.locator("dialog:modal").waitFor({ state: "detached" });
  };
  /** In their order: how one comes to each, what stands there when it is ready, and how one leaves it. */
  const SCREENS: readonly (readonly [string, () => Promise<unknown>, string, (() => Promise<unknown>)?])[] = [
    ["start", () => Promise.resolve(), ".start-open"],
    ["picker", () => press("f"), "dialog [role=option]", close],
    // Its files lie outside its folder, and another desk made it.
    ["trust", () => opened.page.locator(".start-open", { hasText: "12 April 2026" }).click(), ".gather-trust button"],
    ["files", () => opened.page.getByRole("button", { name: "I trust it" }).click(), ".told-rows"],
    ["line up", () => step("Line up"), ".lineup .lane canvas"],
    ["skim", () => step("Skim"), ".skim .strip-canvas"],
    ["own moment", () => press("a"), "dialog input", close],
    ["the reading", () => press("r"), ".skim .told", () => press("m")],
    ["build", () => step("Build"), ".build-part"],
    ["hand over", () => step("Hand over"), ".handover-page"],
    ["keys", () => press("?"), "dialog table, dialog dl, dialog li", close],
    ["about", () => opened.page.getByRole("button", { name: "About" }).click(), "dialog details", close],
    ["athletes", () => press("Shift+A"), ".athlete-row"],
    ["an athlete", () => press("n"), ".athletes form, .athletes fieldset", () => press("Escape")],
    [
      "weeks",
      () => opened.page.getByRole("button", { name: "Weeks" }).click(),
      "iframe.weeks-page",
      () => press("Escape"),
    ],
    ["delete an athlete", () => opened.page.getByRole("button", { name: "Delete" }).click(), "dialog input", close],
  ];

  beforeAll(async () => {
    const demo = await demoFiles();
    home = await temporaryHome(demo);
    await weeksOfDebriefs(home, [demo.rideName, ...demo.clipNames]);
    opened = await openWindow({ home, widthPx: 1280, heightPx: 800, theme: "light", reducedMotion: true });
  }, 240_000);
  afterAll(async () => {
    await opened.close();
    rmSync(home, { recursive: true, force: true, maxRetries: 3 });
  });

  it.each(SCREENS.map(([name]) => name))(
    "%s",
    async (name) => {
      const { page } = opened;
      const [, come, there, leave] = SCREENS.find((one) => one[0] === name)!;
      await come();
      await page
        .locator(there)
        .first()
        .waitFor({ timeout: 60_000 })
        .catch(async (error: unknown) => {
          throw new Error(`not shown; there was: ${(await page.locator("main").innerText()).slice(0, 600)}`, {
            cause: error,
          });
        });
      await opened.idle();
      const faults: string[] = [];
      // What is asked, or went wrong, is seen from where the person was.
      for (const told of await page.locator("[role=alert]").all()) {
        const { top, bottom } = await told.evaluate((one) => one.getBoundingClientRect());
        if (top < -1 || bottom > 801) faults.push(`told out of sight: from ${top} to ${bottom} px`);
      }
      for (const theme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme: theme, reducedMotion: "reduce" });
        for (const [width, height] of SIZES) {
          await at(width, height, theme, name, faults);
          // Twice the text size is half the room for the same words.
          await at(width / 2, height / 2, theme, `${name} twice`, faults);
        }
        await page.setViewportSize({ width: 1280, height: 800 });
        const found = [...(await opened.touchedFaults()), ...(await unlikeHints(page))];
        faults.push(...found.map((one) => `${theme}, ${one}`));
      }
      await page.emulateMedia({ colorScheme: "light", reducedMotion: "reduce" });
      await leave?.();
      expect(faults).toEqual([]);
    },
    180_000,
  );

  async function at(width: number, height: number, theme: string, name: string, faults: string[]): Promise<void> {
    const { page } = opened;
    if (theme === "dark" && shots === undefined) return;
    await page.setViewportSize({ width: Math.round(width), height: Math.round(height) });
    await opened.idle();
    if (shots !== undefined) {
      mkdirSync(shots, { recursive: true });
      await page.screenshot({ path: join(shots, `${name.replaceAll(" ", "-")}-${theme}-${width}.png`) });
    }
    // What covers and what is too wide is the same in both themes.
    if (theme === "dark") return;
    const overPx = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    const found = [...(await coveredControls(page)), ...(overPx > 0 ? [`wider than the window by ${overPx} px`] : [])];
    faults.push(...found.map((one) => `${width} x ${height}: ${one}`));
  }
});
