// kill -9 in the middle of saving: what was said to be saved is there, and nothing half stands under a name of ours.
import { spawn } from "node:child_process";
import { mkdtemp, readFile, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { loadDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { parseDebrief } from "../../main/debrief/parseDebrief.ts";
import { buildChild } from "./buildChild.ts";
import { seeded } from "../ride/mutate.ts";

/** Programs that save at the same time, each in a folder of its own. */
const AT_ONCE = 2;

/**
 * Kills a saving program so many times at points that the seed gives, or until the time is up. After each, what was said
 * to be saved is opened, and so is the copy before it.
 * @returns how many, and what was lost
 */
export async function killedSaves(
  count: number,
  seed: number,
  untilMs = Infinity,
): Promise<{ tried: number; faults: string[] }> {
  const program = await buildChild("saveChild");
  const each = Array.from({ length: AT_ONCE }, (_, k) =>
    killsInOne(program, Math.floor((count + k) / AT_ONCE), seeded(seed * AT_ONCE + k), untilMs),
  );
  const done = await Promise.all(each);
  return { tried: done.reduce((sum, { tried }) => sum + tried, 0), faults: done.flatMap(({ faults }) => faults) };
}

async function killsInOne(
  program: string,
  count: number,
  random: () => number,
  untilMs: number,
): Promise<{ tried: number; faults: string[] }> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-saves-"));
  const faults: string[] = [];
  let tried = 0;
  try {
    for (; tried < count && Date.now() < untilMs && faults.length < 10; tried++) {
      const { saved, wrong } = await killOne(program, folder, random() * 60);
      const fault = wrong === "" ? await lossIn(folder, saved) : wrong;
      if (fault !== null) faults.push(`kill ${tried}: ${fault}`);
    }
    // One more start clears what the last kill left.
    await killOne(program, folder, 50);
    const parts = (await readdir(folder)).filter((name) => name.endsWith(".part"));
    if (parts.length > 1) faults.push(`left behind: ${parts.join(", ")}`);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
  return { tried, faults };
}

/** What is lost of a document that was said to be saved; nothing that stands under a name of ours is half. */
async function lossIn(folder: string, saved: number): Promise<string | null> {
  const revisions: number[] = [];
  for (const name of await readdir(folder)) {
    if (!/^debrief\.json(\.bak)?$/.test(name)) continue;
    try {
      revisions.push(parseDebrief(await readFile(join(folder, name), "utf8"), name).document.revision);
    } catch (error) {
      return `${name}: ${String(error)}`;
    }
  }
  const { document } = await loadDebrief(folder);
  return document.revision < saved ? `${saved} saved, ${document.revision} there (of ${revisions.join(", ")})` : null;
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
