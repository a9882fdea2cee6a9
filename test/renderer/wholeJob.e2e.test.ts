// The whole job on the demo, from the picker to a rendered film; and a program that is killed in the middle of it.
import { spawn, type ChildProcess } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { afterAll, describe, expect, it } from "vitest";
import { probeFile } from "../support/video.ts";
import { testTools } from "../support/tools.ts";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, testShell } from "./openWindow.ts";

describeWindow("the whole job", () => {
  it("from the picker to a film, by the program's own order of steps", async () => {
    const window = await openWindow({ widthPx: 1280, heightPx: 720 });
    try {
      const { page, home } = window;
      await gatherDemo(window);
      await page.locator("body").click({ position: { x: 5, y: 300 } });
      await page.keyboard.press("4");
      await page.getByLabel("a quick look", { exact: false }).check();
      const go = page.getByRole("button", { name: "Render and write", exact: false });
      await go.and(page.locator(":not([disabled])")).waitFor({ timeout: 30_000 });
      // Straight from the words: they are in what is written.
      await page.getByLabel("For the next ride").fill("Press on over every top.");
      await page.keyboard.press("Control+Enter");
      await page.getByText(/^done, \d+ files$/).waitFor({ timeout: 240_000 });
      const films = readdirSync(home, { recursive: true, encoding: "utf8" }).filter((name) =>
        name.endsWith("film.mp4"),
      );
      expect(films).toHaveLength(1);
      expect(readFileSync(join(home, dirname(films[0]!), "debrief.html"), "utf8")).toContain(
        "Press on over every top.",
      );
      const { streams, format } = await probeFile(join(home, films[0]!), testTools());
      expect(streams.some((stream) => stream.codec_type === "video")).toBe(true);
      expect(Number(format.duration)).toBeGreaterThan(5);
      const own = new URL(page.url()).origin;
      expect(window.requests.filter((url) => !url.startsWith(own) && !/^(data|blob):/.test(url))).toEqual([]);
      expect(window.problems).toEqual([]);
    } finally {
      await window.close();
    }
  }, 400_000);
});

/** `followcar open` as a person starts it, with a stand-in for the browser that only notes the address. */
async function startCommand(
  home: string,
  folder: string,
): Promise<{ readonly child: ChildProcess; readonly url: string }> {
  const note = join(folder, "url");
  rmSync(note, { force: true });
  const standIn = join(folder, "browser.sh");
  writeFileSync(
    standIn,
    `#!/bin/sh\nfor a in "$@"; do case "$a" in --app=*) printf %s "\${a#--app=}" > "${note}";; esac; ` +
      `done\necho $$ >> "${join(folder, "pids")}"\nexec sleep 600\n`,
  );
  chmodSync(standIn, 0o755);
  const child = spawn(process.execPath, [resolve("dist", "followcar.mjs"), "open"], {
    env: {
      ...process.env,
      HOME: home,
      FOLLOWCAR_CACHE: join(home, ".cache", "followcar"),
      FOLLOWCAR_SHELL: "chromium",
      FOLLOWCAR_CHROMIUM: standIn,
    },
    stdio: "ignore",
  });
  for (let tries = 0; tries < 600 && !(existsSync(note) && statSync(note).size > 0); tries++) await sleep(50);
  return { child, url: readFileSync(note, "utf8") };
}

describe.skipIf(testShell !== "chromium" || process.platform === "win32")("killed in the middle", () => {
  const folder = mkdtempSync(join(tmpdir(), "followcar-crash-"));
  afterAll(() => {
    for (const pid of existsSync(join(folder, "pids"))
      ? readFileSync(join(folder, "pids"), "utf8").trim().split("\n")
      : []) {
      try {
        process.kill(Number(pid), "SIGKILL");
      } catch {
        // Gone already.
      }
    }
    rmSync(folder, { recursive: true, force: true });
  });

  it("the window says so; started again, the debrief is there with what was decided two seconds before", async () => {
    const window = await openWindow({ widthPx: 1280, heightPx: 720 });
    const children: ChildProcess[] = [];
    try {
      const { page, home } = window;
      const first = await startCommand(home, folder);
      children.push(first.child);
      await page.goto(first.url);
      await gatherDemo(window);
      await sleep(2000);
      first.child.kill("SIGKILL");
      await page.getByText("The window lost the program").waitFor({ timeout: 10_000 });
      const shots = process.env.FOLLOWCAR_SHOTS;
      if (shots !== undefined) await page.screenshot({ path: join(shots, "lost-dark-1280.png") });
      expect(await window.faults()).toEqual([]);

      const second = await startCommand(home, folder);
      children.push(second.child);
      await page.goto(second.url);
      await page
        .getByRole("button", { name: /ride\.fit|rides/ })
        .first()
        .click();
      // It was left at Line up: there it is again.
      await page.locator(".lineup .player").waitFor({ timeout: 60_000 });
      await page.locator(".frame-step", { hasText: "Files" }).click();
      await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor();
      expect(await page.getByLabel("Target power").inputValue()).toBe("162");
    } finally {
      for (const child of children) child.kill("SIGTERM");
      await window.close();
    }
  }, 240_000);
});
