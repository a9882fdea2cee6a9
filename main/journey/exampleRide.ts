import { existsSync } from "node:fs";
import { mkdir, readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import type { JobContext } from "../contract/job.ts";
import { DEMO_SEED, type DemoOptions, makeDemo } from "../demo/makeDemo.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import type { Host } from "./host.ts";

/** A ride and footage of our own, to try everything on. */
export interface ExampleRide {
  readonly ridePath: string;
  readonly clipPaths: readonly string[];
  readonly planPath: string;
}

/** Says that all files are there: written last. */
const MADE = "made.json";

/**
 * The demo's ride, plan and clips in the program's cache folder: made once, found there afterwards. Progress counts
 * frames while they are made.
 *
 * @throws what `makeDemo` throws
 */
export async function exampleRide(
  host: Pick<Host, "cacheDir" | "tools">,
  context: JobContext,
  options: DemoOptions = {},
): Promise<ExampleRide> {
  const folder = join(host.cacheDir, "example");
  const there = await madeBefore(folder);
  if (there !== null) return there;
  await mkdir(folder, { recursive: true });
  const { ridePath, clipPaths, planPath } = await makeDemo(folder, host.tools, context, options);
  const names = { seed: DEMO_SEED, ride: basename(ridePath), plan: basename(planPath) };
  const made = { ...names, clips: clipPaths.map((path) => basename(path)) };
  await writeAtomic(join(folder, MADE), `${JSON.stringify(made)}\n`);
  return { ridePath, clipPaths, planPath };
}

/** Null where one of the files is missing, or another seed made them. */
async function madeBefore(folder: string): Promise<ExampleRide | null> {
  const text = await readFile(join(folder, MADE), "utf8").catch(() => null);
  if (text === null) return null;
  try {
    const { seed, ride, plan, clips } = JSON.parse(text) as Record<string, unknown>;
    if (seed !== DEMO_SEED || !Array.isArray(clips)) return null;
    const paths = [ride, plan, ...(clips as unknown[])].map((name) => join(folder, basename(String(name))));
    if (!paths.every((path) => existsSync(path))) return null;
    const [ridePath, planPath, ...clipPaths] = paths;
    return { ridePath: ridePath!, planPath: planPath!, clipPaths };
  } catch {
    return null;
  }
}
