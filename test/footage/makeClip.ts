import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { testTools } from "../support/tools.ts";

/** A folder that goes away with the process. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "footage-test-"));
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Runs ffmpeg with arguments; the last is the output, which may have any name. */
export function ffmpeg(...args: string[]): void {
  const output = args.pop()!;
  execFileSync(testTools().ffmpeg, ["-v", "error", "-nostdin", "-y", ...args, `file:${output}`], {
    stdio: ["ignore", "pipe", "pipe"],
  });
}

/** Presentation times that ffprobe lists for the video packets that are shown, in ticks, ascending, and which are keyframes. */
export function ffprobePackets(path: string): { ticks: number[]; keys: number[] } {
  const out = execFileSync(
    testTools().ffprobe,
    ["-v", "error", "-select_streams", "v:0", "-show_entries", "packet=pts,flags", "-of", "json", `file:${path}`],
    { encoding: "utf8", maxBuffer: 1 << 28 },
  );
  const shown = (JSON.parse(out) as { packets: { pts: number; flags: string }[] }).packets
    .filter((packet) => !packet.flags.includes("D"))
    .sort((a, b) => a.pts - b.pts);
  return { ticks: shown.map((p) => p.pts), keys: shown.flatMap((p, k) => (p.flags.includes("K") ? [k] : [])) };
}
