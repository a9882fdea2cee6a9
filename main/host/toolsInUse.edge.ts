import { Failure } from "../contract/failure.ts";
import type { PrintPage } from "../contract/printPage.ts";
import type { Tools } from "../contract/tools.ts";
import { findTools } from "../setup/tools.mjs";
import { browserPrinter } from "./browserPrinter.edge.ts";

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

/** The Chromium, Chrome or Edge of this machine, or null. */
export function chromiumInUse(): string | null {
  return findTools().chromium?.path ?? null;
}

/** Prints pages with the Chromium, Chrome or Edge of this machine, or null. */
export function printerInUse(): PrintPage | null {
  const path = chromiumInUse();
  return path === null ? null : browserPrinter(path);
}
