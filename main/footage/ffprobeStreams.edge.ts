import { Failure } from "../contract/failure.ts";
import { ffprobeArguments } from "../host/ffmpegArguments.edge.ts";
import { runProgram } from "../host/program.edge.ts";
import type { Probed } from "./probed.ts";

/** Coding, colour and tags of a file as ffprobe sees them from its head (packets are not read through). */
export async function ffprobeStreams(ffprobe: string, path: string, fileName: string): Promise<Probed> {
  const args = ffprobeArguments(path, ["-show_streams", "-show_format"]);
  const result = await runProgram({ program: ffprobe, args });
  if (result.trouble === "not started") {
    throw new Failure("tool-not-started", { tool: "ffprobe", program: ffprobe }, result.notStarted);
  }
  if (result.trouble === "hung") {
    throw new Failure("clip-probe-silent", { fileName });
  }
  try {
    if (result.code === 0) return JSON.parse(result.stdout.toString("utf8")) as Probed;
  } catch {
    // falls through to the failure below
  }
  const said = (result.stderr.trim().split("\n").at(-1)?.slice(0, 200) ?? "").replace(/^.*: /, "");
  throw new Failure("clip-no-video", { fileName, said });
}
