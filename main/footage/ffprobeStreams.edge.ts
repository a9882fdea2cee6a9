import { Failure } from "../contract/failure.ts";
import { ffprobeArguments } from "../host/ffmpegArguments.edge.ts";
import type { Probed } from "./probed.ts";
import { runTool } from "./runTool.edge.ts";

/** Coding, colour and tags of a file as ffprobe sees them from its head (packets are not read through). */
export async function ffprobeStreams(ffprobe: string, path: string, fileName: string): Promise<Probed> {
  const chunks: Buffer[] = [];
  const args = ffprobeArguments(path, ["-show_streams", "-show_format"]);
  const result = await runTool(ffprobe, args, { onData: (chunk) => chunks.push(chunk) });
  if (result.trouble === "missing") {
    throw new Failure(
      "tool-missing",
      `ffprobe could not be started (${ffprobe}).`,
      "Run `npm run setup`, which finds or installs it.",
    );
  }
  if (result.trouble === "hung") {
    throw new Failure(
      "tool-hung",
      `ffprobe gave no answer about ${fileName} for 30 s.`,
      "Copy the clip to a local disk and try again.",
    );
  }
  try {
    if (result.code === 0) return JSON.parse(Buffer.concat(chunks).toString("utf8")) as Probed;
  } catch {
    // falls through to the failure below
  }
  const why = result.stderr.trim().split("\n").at(-1)?.slice(0, 200) ?? "";
  throw new Failure(
    "clip-not-usable",
    `${fileName} cannot be read as a video${why ? ` (ffprobe: ${why.replace(/^.*: /, "")})` : ""}.`,
    "Try to play it; if it does not play, copy it from the camera again.",
  );
}
