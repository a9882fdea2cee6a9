// What a person waits for in the window, in the installed browser: until it can be used, a hop to a moment, the strip.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openProgram } from "./openProgram.ts";
import { benchHop } from "./windowHop.ts";
import { benchStrip } from "./windowStrip.ts";

const RUNS = 5;

/** Prints the figures of the window. */
export async function benchWindow(): Promise<void> {
  await benchReady();
  await benchStrip();
  await benchHop();
}

/** From the command to the page that can be used; the first run also makes the browser's profile. */
async function benchReady(): Promise<void> {
  const home = mkdtempSync(join(tmpdir(), "followcar-bench-"));
  const timesMs: number[] = [];
  for (let run = 0; run < RUNS; run++) {
    const program = await openProgram(home);
    timesMs.push(program.readyMs);
    await program.close();
  }
  rmSync(home, { recursive: true, force: true, maxRetries: 3 });
  const median = [...timesMs.slice(1)].sort((a, b) => a - b)[Math.floor((RUNS - 1) / 2)]!;
  process.stdout.write(
    `command to window ready: first ${timesMs[0]!.toFixed(0)} ms (new profile), then ${timesMs
      .slice(1)
      .map((ms) => ms.toFixed(0))
      .join(", ")} ms; median ${median.toFixed(0)} ms (wanted: under 2000)\n`,
  );
}
