// A program that is killed outright leaves no ffmpeg at work, and the next run takes up its parts.
import { spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import { join, resolve } from "node:path";
import { build } from "esbuild";
import { afterAll, beforeAll, expect, test } from "vitest";
import { testTools } from "../support/tools.ts";
import { runProgram, scratchFolder } from "../support/video.ts";

let scratch: Awaited<ReturnType<typeof scratchFolder>>;
beforeAll(async () => {
  scratch = await scratchFolder();
});
afterAll(() => scratch.remove());

/** Command lines of the processes that name a path. */
function processesNaming(path: string): string[] {
  return readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name))
    .flatMap((pid) => {
      try {
        return [readFileSync(`/proc/${pid}/cmdline`, "utf8")];
      } catch {
        return [];
      }
    })
    .filter((line) => line.includes(path) && line.includes("-progress"));
}

async function until(what: () => boolean, limitMs = 20_000): Promise<boolean> {
  for (const endMs = Date.now() + limitMs; Date.now() < endMs; await new Promise((wait) => setTimeout(wait, 50)))
    if (what()) return true;
  return false;
}

test.runIf(process.platform === "linux").each(["plain", "panels"])(
  "killed outright while it renders %s",
  async (kind) => {
    const folder = join(scratch.path, kind);
    await mkdir(folder, { recursive: true });
    const clip = join(folder, "clip.mp4");
    await runProgram(testTools().ffmpeg, [
      "-v",
      "error",
      "-f",
      "lavfi",
      "-i",
      "testsrc2=s=640x360:r=30:d=20",
      "-c:v",
      "libx264",
      "-preset",
      "ultrafast",
      "-pix_fmt",
      "yuv420p",
      clip,
    ]);
    const program = resolve("dist", "test", "killedOne.mjs");
    await build({
      entryPoints: ["test/render/killedOne.ts"],
      outfile: program,
      bundle: true,
      platform: "node",
      format: "esm",
      packages: "external",
      logLevel: "error",
    });
    const child = spawn(process.execPath, [program, clip, folder, kind], { stdio: "ignore" });
    const parts = join(folder, "cache", "parts");
    const finished = (): string[] => {
      try {
        return readdirSync(parts).filter((name) => name.endsWith(".mov"));
      } catch {
        return [];
      }
    };
    expect(await until(() => finished().length >= 1 && processesNaming(folder).length > 0)).toBe(true);
    child.kill("SIGKILL");
    expect(await until(() => processesNaming(folder).length === 0, 3000)).toBe(true);
    expect(readdirSync(folder)).not.toContain("film.mp4");
    expect(finished().length).toBeGreaterThan(0);
    expect(finished().length).toBeLessThan(3);
  },
  60_000,
);
