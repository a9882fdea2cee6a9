import { Failure } from "../contract/failure.ts";
import type { Tools } from "../contract/tools.ts";
import { basename } from "node:path";
import { ffmpegArguments } from "../host/ffmpegArguments.edge.ts";
import { runProgram } from "../host/program.edge.ts";
import { LOUDNESS_LUFS, type Loudness, loudnessOf } from "./loudness.ts";
import { Cancelled } from "../contract/job.ts";

/**
 * Loudness of a file's sound by EBU R 128, as ffmpeg's `ebur128` measures it; null for a file without sound.
 * @param filters what the sound goes through first, or null
 * @throws Cancelled; Failure tool-failed, tool-hung, tool-missing
 */
export async function measureLoudness(
  source: string,
  inputOptions: readonly string[],
  filters: string | null,
  tools: Tools,
  signal?: AbortSignal,
  hungAfterS?: number,
): Promise<Loudness> {
  const chain = [...(filters === null ? [] : [filters]), "ebur128=peak=true:framelog=verbose"].join(",");
  const args = ffmpegArguments({
    inputs: [{ source, options: inputOptions }],
    filterGraph: null,
    outputOptions: ["-map", "0:a:0", "-af", chain, "-f", "null"],
    output: "-",
    log: "info",
  });
  const fileName = basename(source);
  const result = await runProgram({ program: tools.ffmpeg, args, signal, hungAfterS });
  if (result.trouble === "cancelled") throw new Cancelled();
  if (result.trouble === "hung") throw new Failure("ffmpeg-hung", { subject: { kind: "files", names: [fileName] } });
  if (result.trouble === "not started") {
    throw new Failure("tool-not-started", { tool: "ffmpeg", program: tools.ffmpeg }, result.notStarted);
  }
  const measured = loudnessOf(result.stderr);
  if (result.code === 0 && measured !== null) return measured;
  throw new Failure("loudness-unmeasured", { fileName }, new Error(result.stderr));
}

/** A comment that is all but silent is not blown up to a roar, dB. */
const MOST_GAIN_DB = 30;

/** What brings a spoken comment to the loudness of the film, dB. */
export async function speechGainDb(path: string, tools: Tools): Promise<number> {
  const { integratedLufs } = await measureLoudness(path, [], null, tools);
  return integratedLufs === null ? 0 : Math.max(-MOST_GAIN_DB, Math.min(MOST_GAIN_DB, LOUDNESS_LUFS - integratedLufs));
}
