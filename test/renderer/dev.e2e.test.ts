// `npm run dev` as a person has it: the sources are changed under a running window, in a copy of them.
import { spawn } from "node:child_process";
import { cp, mkdir, mkdtemp, readFile, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { chromium } from "playwright-core";
import { describe, expect, it } from "vitest";
import { testShell } from "./openWindow.ts";

/** The text that `read` gives once it gives one. */
async function textOf(read: () => Promise<string>): Promise<string> {
  for (const endMs = Date.now() + 90_000; Date.now() < endMs; await sleep(200)) {
    const text = await read().catch(() => "");
    if (text !== "") return text;
  }
  throw new Error("nothing came");
}

describe.skipIf(testShell !== "chromium" || process.platform === "win32")("npm run dev", () => {
  it("a change to the window loads its page anew; one to the program starts it anew", async () => {
    const root = await mkdtemp(join(tmpdir(), "followcar-dev-"));
    for (const folder of [
      "main",
      "overlay",
      "renderer",
      "assets",
      "package.json",
      "package-lock.json",
      "tsconfig.json",
    ])
      await cp(resolve(folder), join(root, folder), { recursive: true });
    await symlink(resolve("node_modules"), join(root, "node_modules"), "dir");
    await mkdir(join(root, "dist"));
    const portFile = join(root, "cache", "browser", "DevToolsActivePort");
    const child = spawn(process.execPath, [join(root, "main", "setup", "dev.mjs")], {
      env: {
        ...process.env,
        FOLLOWCAR_SHELL: "chromium",
        FOLLOWCAR_CACHE: join(root, "cache"),
        FOLLOWCAR_STATE: join(root, "state"),
        FOLLOWCAR_BROWSER_ARGUMENTS: "--headless=new --remote-debugging-port=0",
      },
      stdio: ["ignore", "ignore", "pipe"],
    });
    let said = "";
    child.stderr.setEncoding("utf8").on("data", (text: string) => (said += text));
    const ended = new Promise<void>((done) => child.on("exit", () => done()));
    const port = async () => (await textOf(() => readFile(portFile, "utf8"))).split("\n")[0];
    const change = async (file: string, from: string, to: string) => {
      const text = await readFile(join(root, file), "utf8");
      expect(text).toContain(from);
      await writeFile(join(root, file), text.replace(from, to));
    };
    try {
      const browser = await chromium.connectOverCDP(`http://127.0.0.1:${await port()}`);
      const page = browser.contexts()[0]!.pages()[0]!;
      await page.locator("h1").first().waitFor({ timeout: 60_000 });
      await page.evaluate("window.mark = 1");
      await change("renderer/main.tsx", "openDesk();", 'openDesk();\ndocument.body.dataset.changed = "yes";');
      await page.locator("body[data-changed=yes]").waitFor({ timeout: 60_000 });
      expect(await page.evaluate("window.mark")).toBeUndefined();
      expect(said).toContain("the window loads anew");
      expect(said).not.toContain("the program starts anew");

      // A fault in the sources leaves all as it is.
      await change("renderer/main.tsx", "openDesk();", "openDesk(;");
      await expect.poll(() => said, { timeout: 60_000 }).toContain("not built");
      await change("renderer/main.tsx", "openDesk(;", "openDesk();");

      await rm(portFile);
      await change("main/cli/followcar.ts", "\n", '\nprocess.stderr.write("changed program\\n");\n');
      await expect.poll(() => said, { timeout: 60_000 }).toMatch(/the program starts anew[^]*changed program/);
      const second = await chromium.connectOverCDP(`http://127.0.0.1:${await port()}`);
      await second.contexts()[0]!.pages()[0]!.locator("h1").first().waitFor({ timeout: 60_000 });
    } finally {
      child.kill("SIGTERM");
      await ended;
      await rm(root, { recursive: true, force: true, maxRetries: 3 });
    }
  }, 240_000);
});
