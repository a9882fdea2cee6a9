import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { build } from "esbuild";
import { describe, expect, it } from "vitest";
import { debriefSchema } from "../../../main/debrief/debriefDocument.ts";
import { openDesk } from "./openDesk.ts";

describe("a program killed in the middle of editing", () => {
  it("has lost at most the last two seconds, and the debrief opens for editing again", async () => {
    const outfile = resolve("dist", "test", "deskChild.mjs");
    await build({
      entryPoints: ["test/app/desk/deskChild.ts"],
      outfile,
      bundle: true,
      platform: "node",
      target: "node20",
      format: "esm",
      packages: "external",
      logLevel: "error",
    });
    const folder = await mkdtemp(join(tmpdir(), "followcar-killed-"));
    try {
      const taken: { n: number; atMs: number }[] = [];
      let messages = "";
      const child = spawn(process.execPath, [outfile, folder], { stdio: ["ignore", "pipe", "pipe"] });
      child.stdout.setEncoding("utf8").on("data", (text: string) => {
        for (const line of text.trim().split("\n"))
          taken.push({ n: Number(line.split(" ")[0]), atMs: Number(line.split(" ")[1]) });
      });
      child.stderr.setEncoding("utf8").on("data", (text: string) => (messages += text));
      const ended = new Promise((done) => child.once("exit", done));
      // Long enough for edits that are older than what may be lost.
      await expect
        .poll(() => taken.length > 0 && taken.at(-1)!.atMs - taken[0]!.atMs > 5000, {
          timeout: 60_000,
          message: messages,
        })
        .toBe(true);
      const killedMs = Date.now();
      child.kill("SIGKILL");
      await ended;
      const saved = debriefSchema.parse(
        JSON.parse(await readFile(join(folder, "rides", "sunday-debrief", "debrief.json"), "utf8")),
      );
      const due = taken.filter(({ atMs }) => atMs <= killedMs - 2000).at(-1)!;
      expect(due.n).toBeGreaterThan(5);
      expect(Number(saved.words.notes)).toBeGreaterThanOrEqual(due.n);

      const again = await openDesk(folder);
      await again.api.openDebrief(again.id(join(folder, "rides", "sunday-debrief")), false);
      expect(again.view()).toMatchObject({ readOnly: null, missingMedia: [] });
      await again.close();
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  }, 90_000);
});
