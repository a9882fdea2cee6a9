import { spawn } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import { join, resolve } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { chromium, type Page } from "playwright-core";

/** The program as a person starts it (`followcar open`), in the installed browser without a screen. */
export interface OpenedProgram {
  readonly page: Page;
  /** From the command to the page that can be used, ms. */
  readonly readyMs: number;
  close(): Promise<void>;
}

/** Starts the program with a home folder of its own, whose `cache` and `state` it uses. */
export async function openProgram(
  home: string,
  more: readonly string[] = [],
  browserArguments: readonly string[] = [],
): Promise<OpenedProgram> {
  const env = {
    ...process.env,
    HOME: home,
    FOLLOWCAR_CACHE: join(home, "cache"),
    FOLLOWCAR_STATE: join(home, "state"),
    FOLLOWCAR_SHELL: "chromium",
    FOLLOWCAR_BROWSER_ARGUMENTS: [
      "--headless=new",
      "--disable-gpu",
      "--remote-debugging-port=0",
      ...browserArguments,
    ].join(" "),
  };
  const portFile = join(home, "cache", "browser", "DevToolsActivePort");
  rmSync(portFile, { force: true });
  const startedMs = performance.now();
  const child = spawn(process.execPath, [resolve("dist", "followcar.mjs"), "open", ...more], {
    env,
    stdio: process.env.FOLLOWCAR_DEBUG ? "inherit" : "ignore",
  });
  const ended = new Promise((done) => child.on("exit", done));
  const stop = async (): Promise<void> => {
    child.kill("SIGTERM");
    await ended;
  };
  try {
    const browser = await chromium.connectOverCDP(`http://127.0.0.1:${await portOf(portFile)}`, { timeout: 120_000 });
    const page = browser.contexts()[0]!.pages()[0] ?? (await browser.contexts()[0]!.waitForEvent("page"));
    await page.waitForSelector(".frame");
    const readyMs = performance.now() - startedMs;
    return {
      page,
      readyMs,
      async close() {
        await browser.close();
        await stop();
      },
    };
  } catch (error) {
    await stop();
    throw error;
  }
}

async function portOf(file: string): Promise<string> {
  for (let tries = 0; tries < 1000; tries++) {
    try {
      const [port] = readFileSync(file, "utf8").split("\n");
      if (port) return port;
    } catch {
      // The browser writes it when it listens.
    }
    await sleep(20);
  }
  throw new Error("the browser did not start");
}
