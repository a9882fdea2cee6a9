import { Failure } from "../contract/failure.ts";
import type { Tools } from "../contract/tools.ts";
import { ffmpegRemedy, findTools } from "../setup/tools.mjs";

/** ffmpeg and ffprobe as found on this machine; Failure `tool-missing` with the command to run. */
export function toolsInUse(): Tools {
  const { ffmpeg, ffprobe } = findTools();
  if (!ffmpeg || !ffprobe) {
    throw new Failure(
      "tool-missing",
      `${ffmpeg ? "ffprobe" : "ffmpeg"} was not found on this machine.`,
      `${ffmpegRemedy()}, or name it in FOLLOWCAR_${ffmpeg ? "FFPROBE" : "FFMPEG"}.`,
    );
  }
  return { ffmpeg: ffmpeg.path, ffprobe: ffprobe.path };
}

/** A Chromium that can print a page as PDF, or null. */
export function chromiumInUse(): string | null {
  return findTools().chromium?.path ?? null;
}
