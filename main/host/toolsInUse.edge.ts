import { Failure } from "../contract/failure.ts";
import type { Tools } from "../contract/tools.ts";
import { findTools } from "../setup/tools.mjs";

/** ffmpeg and ffprobe as found on this machine; Failure `tool-missing` with the command to run. */
export function toolsInUse(): Tools {
  const { ffmpeg, ffprobe } = findTools();
  if (!ffmpeg || !ffprobe) {
    throw new Failure("tool-not-found", { tool: ffmpeg ? "ffprobe" : "ffmpeg", system: systemName() });
  }
  return { ffmpeg: ffmpeg.path, ffprobe: ffprobe.path };
}

function systemName(): "macOS" | "Windows" | "Linux" {
  return process.platform === "darwin" ? "macOS" : process.platform === "win32" ? "Windows" : "Linux";
}

/** A Chromium that can print a page as PDF, or null. */
export function chromiumInUse(): string | null {
  return findTools().chromium?.path ?? null;
}
