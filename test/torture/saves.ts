// kill -9 in the middle of saving: what was said to be saved is there, and nothing half stands under a name of ours.
import { build } from "esbuild";
import { spawn } from "node:child_process";
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { loadDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { seeded } from "../ride/mutate.ts";

/** Kills a saving program so many times at seeded points, or until the time is up. @returns how many, and what was lost */
export async function killedSaves(count: number, untilMs: number): Promise<{ tried: number; faults: string[] }> {
  const outfile = resolve("dist", "test", "saveChild.mjs");
  await build({
    entryPoints: ["test/torture/saveChild.ts"],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    packages: "external",
    logLevel: "error",
  });
  const folder = await mkdtemp(join(tmpdir(), "followcar-saves-"));
  const random = seeded(32);
  const faults: string[] = [];
  let tried = 0;
  try {
    for (; tried < count && Date.now() < untilMs && faults.length < 10; tried++) {
      const { saved, wrong } = await killOne(outfile, folder, random() * 60);
      const there = await loadDebrief(folder).then(
        ({ document }) => document.revision,
        (error: unknown) => String(error),
      );
      if (wrong !== "") faults.push(`kill ${tried}: ${wrong}`);
      else if (typeof there !== "number" || there < saved) faults.push(`kill ${tried}: ${saved} saved, ${there} there`);
    }
    // One more start clears what the last kill left.
    await killOne(outfile, folder, 50);
    const parts = (await readdir(folder)).filter((name) => name.endsWith(".part"));
    if (parts.length > 1) faults.push(`left behind: ${parts.join(", ")}`);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
  return { tried, faults };
}

function killOne(program: string, folder: string, afterMs: number): Promise<{ saved: number; wrong: string }> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [program, folder], { stdio: ["ignore", "pipe", "pipe"] });
    let said = "";
    let wrong = "";
    let timer: NodeJS.Timeout | null = null;
    child.stdout.on("data", (bytes: Buffer) => {
      said += bytes.toString();
      timer ??= setTimeout(() => child.kill("SIGKILL"), afterMs);
    });
    child.stderr.on("data", (bytes: Buffer) => (wrong += bytes.toString()));
    child.on("close", () => done({ saved: Number(said.split("\n").at(-2) ?? 0), wrong }));
  });
}
