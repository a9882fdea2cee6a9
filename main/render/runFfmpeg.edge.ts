import { StringDecoder } from "node:string_decoder";
import { Failure } from "../contract/failure.ts";
import { Cancelled } from "../contract/job.ts";
import { pictureEnvironment } from "../host/childEnvironment.ts";
import { runProgram, type ProgramRun } from "../host/program.edge.ts";
import type { FfmpegSubject } from "../contract/notices/render.ts";

export interface FfmpegRun extends Pick<ProgramRun, "args" | "feed" | "guard" | "hungAfterS"> {
  readonly ffmpeg: string;
  /** What the run makes or reads, for messages: a file name. */
  readonly subject: FfmpegSubject;
  readonly signal: AbortSignal;
  /** Frames written so far; called as often as ffmpeg says so. */
  readonly onFrames?: ((frames: number) => void) | undefined;
}

/** Of what it said so many of the last lines tell why it failed. */
const LINES_TOLD = 40;

/**
 * One run of ffmpeg, to its end.
 *
 * @returns frames written, as ffmpeg counted them
 * @throws Cancelled, or Failure: tool-missing, tool-hung, disk-full, output-not-writable, tool-failed
 */
export async function runFfmpeg(run: FfmpegRun): Promise<number> {
  let frames = 0;
  const { ffmpeg, onFrames, subject, ...how } = run;
  const { code, trouble, notStarted, stderr, unfed } = await runProgram({
    ...how,
    program: ffmpeg,
    env: pictureEnvironment(process.env, process.platform),
    onOutput: byLine((line) => {
      const counted = /^frame=\s*(\d+)/.exec(line);
      if (!counted) return;
      frames = Number(counted[1]);
      onFrames?.(frames);
    }),
  });
  if (trouble === "cancelled") throw new Cancelled();
  if (trouble === "hung") throw new Failure("ffmpeg-hung", { subject });
  if (trouble === "not started") {
    throw new Failure("tool-not-started", { tool: "ffmpeg", program: ffmpeg }, notStarted);
  }
  if (unfed !== null) throw unfed;
  if (code !== 0) throw exitFailure(subject, code, stderr);
  return frames;
}

function exitFailure(subject: FfmpegSubject, code: number | null, stderr: string): Failure {
  const lines = stderr.split(/[\r\n]+/).filter((line) => line.trim() !== "");
  const all = lines.slice(-LINES_TOLD).join("\n");
  const cause = all === "" ? undefined : new Error(all);
  if (/No space left on device|disk quota exceeded/i.test(all)) {
    return new Failure("ffmpeg-disk-full", { subject }, cause);
  }
  if (/Permission denied|Read-only file system|Operation not permitted/i.test(all)) {
    return new Failure("ffmpeg-forbidden", { subject }, cause);
  }
  return new Failure("ffmpeg-failed", { subject, said: lines.at(-1)?.trim() ?? null, exitCode: code }, cause);
}

/** Cuts what comes piece by piece into lines; one that never ends is not kept. */
function byLine(onLine: (line: string) => void): (chunk: Buffer) => void {
  const decoder = new StringDecoder("utf8");
  let rest = "";
  return (chunk) => {
    const lines = (rest + decoder.write(chunk)).split(/[\r\n]+/);
    rest = (lines.pop() ?? "").slice(-4000);
    lines.forEach(onLine);
  };
}
