// Footage of hours under panels by script: what the program and its painter hold in memory, eighth by eighth. Small pictures,
// since their size is not what would grow.
import { readFileSync, readdirSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { countingRide, filmOf, layoutOptionsFor, shotOf } from "../render/filmFixtures.ts";
import { testTools } from "../support/tools.ts";
import { writeNumberedClip } from "../support/video.ts";

const EIGHTHS = 8;
const FPS = 30;

/** Memory held by a process of Linux (proc(5), VmRSS), MB. */
function heldMb(pid: number): number {
  const found = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, "utf8"));
  return Math.round(Number(found?.[1] ?? 0) / 1024);
}

/** What of our own this process has started: its painters, not ffmpeg. */
function paintersMb(): number {
  return readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name))
    .map((pid) => {
      try {
        const parent = Number(readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1)!.split(" ")[1]);
        const ours = parent === process.pid && readFileSync(`/proc/${pid}/cmdline`, "utf8").includes("paintChild");
        return ours ? heldMb(Number(pid)) : 0;
      } catch {
        return 0;
      }
    })
    .reduce((sum, mb) => sum + mb, 0);
}

/** Renders so many minutes of footage under panels and prints what is held after each eighth. */
export async function benchLongRender(minutes: number): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-long-"));
  const tools = testTools();
  try {
    const path = join(folder, "clip.mp4");
    const frames = minutes * 60 * FPS;
    await writeNumberedClip(path, { widthPx: 320, heightPx: 180, frames, rate: String(FPS) }, tools);
    const clip = await probeClip(path, "c1", tools);
    const held: string[] = [];
    const beganMs = performance.now();
    const result = await renderFilm(
      {
        film: filmOf(clip, [shotOf(clip, 0, minutes * 60)]),
        clips: [clip],
        columns: countingRide(minutes * 60 + 60),
        outPath: join(folder, "film.mp4"),
        preset: PRESETS.draft,
        layoutOptions: layoutOptionsFor(clip.widthPx, clip.heightPx),
        cacheDir: join(folder, "cache"),
      },
      tools,
      {
        signal: new AbortController().signal,
        report: ({ done }) => {
          if (done * EIGHTHS < held.length + 1) return;
          globalThis.gc?.();
          held.push(`${heldMb(process.pid)} + ${paintersMb()}`);
          console.log(`${held.length} of ${EIGHTHS}: ${held.at(-1)} MB held by program and painter`);
        },
      },
    );
    const tookMin = (performance.now() - beganMs) / 60_000;
    console.log(`${minutes} min of footage, ${result.kind} in ${tookMin.toFixed(1)} min: ${held.join(", ")} MB`);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
