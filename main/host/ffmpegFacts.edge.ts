import { execFile } from "node:child_process";
import { Failure } from "../contract/failure.ts";
import type { Tools } from "../contract/tools.ts";

const LIMIT_MS = 20_000;
const known = new Map<string, Promise<string>>();

/** What ffmpeg answers to a short question, asked once for each program and question. @throws Failure tool-missing, tool-failed */
function askFfmpeg(ffmpeg: string, args: readonly string[]): Promise<string> {
  const key = [ffmpeg, ...args].join("\0");
  const before = known.get(key);
  if (before) return before;
  const answer = new Promise<string>((resolve, reject) => {
    execFile(
      ffmpeg,
      ["-hide_banner", ...args],
      { timeout: LIMIT_MS, maxBuffer: 16e6, windowsHide: true },
      (error, stdout) => {
        if (!error) return resolve(stdout);
        const missing =
          (error as NodeJS.ErrnoException).code === "ENOENT" || (error as NodeJS.ErrnoException).code === "EACCES";
        reject(
          missing
            ? new Failure("tool-not-started", { tool: "ffmpeg", program: ffmpeg }, error)
            : new Failure("ffmpeg-no-answer", { ffmpeg }, error),
        );
      },
    );
  });
  known.set(key, answer);
  answer.catch(() => known.delete(key));
  return answer;
}

/** Its version as it says it, e.g. `5.1.9-0+deb12u1`. */
export async function ffmpegVersion(tools: Tools): Promise<string> {
  const answer = await askFfmpeg(tools.ffmpeg, ["-version"]);
  return /^ffmpeg version (\S+)/m.exec(answer)?.[1] ?? "unknown";
}

/** Those of the filters that this ffmpeg does not have. */
export async function missingFilters(tools: Tools, filters: readonly string[]): Promise<string[]> {
  const answer = await askFfmpeg(tools.ffmpeg, ["-filters"]);
  return filters.filter((filter) => !new RegExp(`^\\s*\\S+\\s+${filter}\\s`, "m").test(answer));
}

/** Whether this ffmpeg was built with an encoder. */
export async function hasEncoder(tools: Tools, encoder: string): Promise<boolean> {
  const answer = await askFfmpeg(tools.ffmpeg, ["-encoders"]);
  return new RegExp(`^\\s*\\S+\\s+${encoder}\\s`, "m").test(answer);
}
