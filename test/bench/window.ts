// How long a person waits for the window: from the command to the page that can be used, in the installed browser.
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { chromium } from "playwright-core";

const RUNS = 5;

/** Prints each run and the median, ms; the first run also makes the browser's profile. */
export async function benchWindow(): Promise<void> {
  const home = mkdtempSync(join(tmpdir(), "followcar-bench-"));
  const timesMs: number[] = [];
  for (let run = 0; run < RUNS; run++) timesMs.push(await readyMs(home));
  rmSync(home, { recursive: true, force: true, maxRetries: 3 });
  const median = [...timesMs.slice(1)].sort((a, b) => a - b)[Math.floor((RUNS - 1) / 2)];
  process.stdout.write(`command to window ready: first ${timesMs[0].toFixed(0)} ms (new profile), then ${timesMs.slice(1).map((ms) => ms.toFixed(0)).join(", ")} ms; median ${median.toFixed(0)} ms (wanted: under 2000)\n`);
}

async function readyMs(home: string): Promise<number> {
  const env = { ...process.env, HOME: home, FOLLOWCAR_CACHE: join(home, "cache"), FOLLOWCAR_SHELL: "chromium", FOLLOWCAR_BROWSER_ARGUMENTS: "--headless=new --disable-gpu --remote-debugging-port=0" };
  const portFile = join(home, "cache", "browser", "DevToolsActivePort");
  rmSync(portFile, { force: true });
  const startedMs = performance.now();
  const child = spawn(process.execPath, [resolve("dist", "followcar.mjs"), "open"], { env, stdio: "ignore" });
  const ended = new Promise((done) => child.on("exit", done));
  try {
    const browser = await chromium.connectOverCDP(`http://127.0.0.1:${await portOf(portFile)}`);
    const page = browser.contexts()[0].pages()[0] ?? (await browser.contexts()[0].waitForEvent("page"));
    await page.waitForSelector(".frame");
    const tookMs = performance.now() - startedMs;
    await browser.close();
    return tookMs;
  } finally {
    child.kill("SIGTERM");
    await ended;
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
