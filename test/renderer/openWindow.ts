import AxeBuilder from "@axe-core/playwright";
import { cp, mkdir, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { _electron, chromium, type BrowserContext, type Page, type WebSocket as Socket } from "playwright-core";
import { describe } from "vitest";
import { startFallback } from "../../main/app/fallback/openInBrowser.ts";
import { findElectron } from "../../main/app/launch/findElectron.ts";
import { shellParts } from "../../main/app/launch/shellParts.ts";
import type { ShellParts } from "../../main/app/program.ts";
import { findTools } from "../../main/setup/tools.mjs";
import { coveredControls } from "./coveredControls.ts";
import { faintDisabled } from "./faintDisabled.ts";
import { faintWhenTouched } from "./faintWhenTouched.ts";
import { demoFiles, type DemoFiles } from "./demoFiles.ts";

const forced = process.env.FOLLOWCAR_SHELL;
const electronPath = forced === "chromium" ? null : findElectron();
const chromiumPath = findTools().chromium?.path ?? null;
if (forced === "electron" && electronPath === null)
  throw new Error("FOLLOWCAR_SHELL=electron, but Electron's binary is not here: npx install-electron");
if (electronPath === null && chromiumPath === null && (process.env.FOLLOWCAR_REQUIRE ?? "").includes("chromium"))
  throw new Error("Chromium is required here and was not found");

/** Which shell the window's tests run in on this machine. */
export const testShell: "electron" | "chromium" | null =
  electronPath !== null ? "electron" : chromiumPath !== null ? "chromium" : null;
process.stdout.write(`window tests run in: ${testShell ?? "no shell was found, skipped"}\n`);

/** `describe` for tests that need a window; skipped where no shell is. */
export const describeWindow = describe.skipIf(testShell === null);

export interface OpenWindowOptions {
  readonly widthPx?: number;
  readonly heightPx?: number;
  readonly theme?: "light" | "dark";
  readonly reducedMotion?: boolean;
  /** Chromium only: another desk than the program's. */
  readonly parts?: Partial<ShellParts>;
  /** A debrief to open with, from the temporary home. */
  readonly debrief?: string;
  /** More arguments for the browser. */
  readonly browserArguments?: readonly string[];
  /** A home left by an earlier window; it is then kept at the end. */
  readonly home?: string;
}

/** A window on a home folder of its own. */
export interface OpenedWindow {
  readonly page: Page;
  readonly context: BrowserContext;
  /** The temporary home; the demo's small files lie in `rides`. */
  readonly home: string;
  readonly demo: DemoFiles;
  /** Console errors, page errors and refused loads so far; a test asserts that it is empty. */
  readonly problems: readonly string[];
  /** Addresses asked for so far. */
  readonly requests: readonly string[];
  /** What keeps someone from using what is shown now: serious and critical findings of axe, controls that something covers, a page wider than the window. */
  faults(): Promise<readonly string[]>;
  /** Controls too faint to be read while they are hovered, pressed, armed or disabled: once for each screen, since it takes a while. */
  touchedFaults(): Promise<readonly string[]>;
  /**
   * Waits until every call of the window is answered, and the page has drawn what came. Finished animations are waited
   * for too; what a person waits for (a job, a playing film) is not. Rejects after 60 s.
   */
  idle(): Promise<void>;
  close(): Promise<void>;
}

/** Puts a temporary home with the demo's files in place; `os.homedir` of this process follows it. */
export async function temporaryHome(demo: DemoFiles, given?: string): Promise<string> {
  const home = given ?? (await mkdtemp(join(tmpdir(), "followcar-home-")));
  if (given === undefined) {
    await mkdir(join(home, "rides"));
    for (const name of [demo.rideName, ...demo.clipNames]) await cp(join(demo.folder, name), join(home, "rides", name));
    await cp(join(demo.folder, "plan.json"), join(home, "rides", "plan.json"));
  }
  process.env.HOME = home;
  process.env.USERPROFILE = home;
  process.env.FOLLOWCAR_CACHE = join(home, ".cache", "followcar");
  return home;
}

/** Opens the window on a temporary home with the demo's files, in Electron where its binary is, else in Chromium. */
export async function openWindow(options: OpenWindowOptions = {}): Promise<OpenedWindow> {
  const demo = await demoFiles();
  const home = await temporaryHome(demo, options.home);
  const opened = testShell === "electron" ? await inElectron(options) : await inChromium(options, home);
  const { page, context } = opened;
  return {
    ...opened,
    home,
    demo,
    async faults() {
      // Legacy mode: the other one opens a second page, which an app window does not have.
      const { violations } = await new AxeBuilder({ page: page }).setLegacyMode(true).analyze();
      const grave = violations
        .filter(({ impact }) => impact === "serious" || impact === "critical")
        .map(
          ({ id, nodes }) =>
            `${id}: ` +
            `${nodes.map(({ html, failureSummary }) => `${html.slice(0, 160)} (${(failureSummary ?? "").replace(/\s+/g, " ").slice(0, 200)})`).join(" | ")}`,
        );
      const overPx = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      return [
        ...grave,
        ...(await coveredControls(page)),
        ...(overPx > 0 ? [`wider than the window by ${overPx} px`] : []),
      ];
    },
    touchedFaults: async () => [...(await faintWhenTouched(page)), ...(await faintDisabled(page))],
    async idle() {
      const endMs = Date.now() + 60_000;
      for (let quiet = 0; quiet < 2;) {
        await page.evaluate(drawn);
        quiet = opened.calls.size === 0 ? quiet + 1 : 0;
        if (Date.now() > endMs) throw new Error(`not answered in 60 s: ${[...opened.calls.values()].join(", ")}`);
      }
    },
    async close() {
      await context.close();
      await opened.end();
      if (options.home === undefined) await rm(home, { recursive: true, force: true, maxRetries: 3 });
    },
  };
}

interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly problems: readonly string[];
  readonly requests: readonly string[];
  /** Calls of the window that are not answered yet, by the number they carry. Electron's go another way: none. */
  readonly calls: ReadonlyMap<string, string>;
  readonly end: () => Promise<void>;
}

/** In the page: two frames are drawn and no animation that has an end is under way. */
async function drawn(): Promise<void> {
  const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
  await frame();
  const ending = document
    .getAnimations()
    .filter((one) => one.playState === "running" && one.effect?.getComputedTiming().endTime !== Infinity);
  await Promise.all(ending.map((one) => one.finished.catch(() => undefined)));
  await frame();
}

async function inChromium(options: OpenWindowOptions, home: string): Promise<Opened> {
  const { widthPx = 1440, heightPx = 900, theme = "dark", reducedMotion = false } = options;
  const given = options.debrief === undefined ? [] : [resolve(home, options.debrief)];
  const program = await startFallback({
    ...shellParts("chromium", null, given),
    openFolder: () => Promise.resolve(),
    ...options.parts,
  });
  const profile = await mkdtemp(join(tmpdir(), "followcar-browser-"));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath!,
    headless: true,
    viewport: { width: widthPx, height: heightPx },
    colorScheme: theme,
    reducedMotion: reducedMotion ? "reduce" : "no-preference",
    args: [
      "--disable-gpu",
      "--disable-dev-shm-usage",
      "--autoplay-policy=no-user-gesture-required",
      ...(options.browserArguments ?? []),
    ],
  });
  const heard = hear(context);
  const page = context.pages()[0] ?? (await context.newPage());
  page.setDefaultTimeout(60_000);
  await page.goto(program.server.openUrl);
  await page.waitForSelector(".frame");
  return {
    page,
    context,
    ...heard,
    async end() {
      await program.close();
      await rm(profile, { recursive: true, force: true, maxRetries: 3 });
    },
  };
}

async function inElectron({ debrief, theme = "dark" }: OpenWindowOptions): Promise<Opened> {
  const program = await _electron.launch({
    args: [resolve("dist", "electronMain.mjs"), ...(debrief === undefined ? [] : [debrief])],
    colorScheme: theme,
  });
  const context = program.context();
  const heard = hear(context);
  const page = await program.firstWindow();
  await page.waitForSelector(".frame");
  return { page, context, ...heard, end: () => program.close() };
}

function hear(context: BrowserContext): Pick<Opened, "problems" | "requests" | "calls"> {
  const problems: string[] = [];
  const requests: string[] = [];
  const calls = new Map<string, string>();
  const hearPage = (page: Page) => page.on("websocket", (socket) => hearCalls(socket, calls));
  context.on("page", hearPage);
  for (const page of context.pages()) hearPage(page);
  context.on("request", (request) => requests.push(request.url()));
  context.on("console", (message) => {
    // Refused loads and policy violations come as console errors.
    if (message.type() === "error") problems.push(message.text());
  });
  context.on("weberror", (error) => problems.push(error.error().message));
  return { problems, requests, calls };
}

/** Counts the calls on the window's socket: a request has `t: "q"`, its answer `t: "s"` with the same `i`. */
function hearCalls(socket: Socket, calls: Map<string, string>): void {
  const own = new Set<string>();
  const read = (payload: string | Buffer) =>
    JSON.parse(String(payload)) as { readonly t?: string; readonly i?: string; readonly m?: string };
  socket.on("framesent", ({ payload }) => {
    const { t, i, m } = read(payload);
    if (t !== "q" || i === undefined) return;
    own.add(i);
    calls.set(i, m ?? "?");
  });
  socket.on("framereceived", ({ payload }) => {
    const { t, i } = read(payload);
    if (t === "s" && i !== undefined) calls.delete(i);
  });
  socket.on("close", () => own.forEach((i) => calls.delete(i)));
}
