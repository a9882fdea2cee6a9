import { Failure } from "../contract/failure.ts";
import type { Tools } from "../contract/tools.ts";
import { ffprobeArguments } from "../host/ffmpegArguments.edge.ts";
import { runProgram } from "../host/program.edge.ts";

/** Length of a sound file (WAV, M4A), s. Failure `file-unreadable` names it where it is missing or holds no sound. */
export async function soundLengthS(path: string, tools: Tools): Promise<number> {
  const asked = ["-select_streams", "a:0", "-show_entries", "stream=codec_type,duration:format=duration"];
  const args = ffprobeArguments(path, asked);
  const { code, stdout } = await runProgram({ program: tools.ffprobe, args });
  const refuse = (): Failure => new Failure("comment-unplayable", { path });
  if (code !== 0) throw refuse();
  const { streams, format } = JSON.parse(stdout.toString("utf8")) as {
    streams?: { duration?: string }[];
    format?: { duration?: string };
  };
  if (streams === undefined || streams.length === 0) throw refuse();
  const seconds = Number(streams[0]!.duration ?? format?.duration);
  if (!Number.isFinite(seconds) || seconds <= 0) throw refuse();
  return seconds;
}
