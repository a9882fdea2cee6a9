import { spawn } from "node:child_process";
import type { Writable } from "node:stream";
import { Failure } from "../contract/failure.ts";
import { Cancelled } from "../contract/job.ts";
import { pictureEnvironment } from "../host/childEnvironment.ts";
import { watchChild } from "../host/watchChild.edge.ts";
import type { FfmpegSubject } from "../contract/notices/render.ts";

export interface FfmpegRun {
  readonly ffmpeg: string;
  readonly args: readonly string[];
  /** What the run makes or reads, for messages: a file name. */
  readonly subject: FfmpegSubject;
  readonly signal: AbortSignal;
  /** Writes to ffmpeg's stdin and returns when all is handed over; stdin is then closed. */
  readonly feed?: ((stdin: Writable) => Promise<void>) | undefined;
  /** Told the process's id once it runs; what it returns is called when that has ended. */
  readonly guard?: (pid: number) => () => void;
  /** Frames written so far; called as often as ffmpeg says so. */
  readonly onFrames?: ((frames: number) => void) | undefined;
  /** No output and no processor time for so long is hung, s. */
  readonly hungAfterS?: number;
}

const HUNG_AFTER_S = 30;
const LINES_KEPT = 40;

/**
 * One run of ffmpeg, to its end.
 *
 * @returns frames written, as ffmpeg counted them
 * @throws Cancelled, or Failure: tool-missing, tool-hung, disk-full, output-not-writable, tool-failed
 */
export async function runFfmpeg(run: FfmpegRun): Promise<number> {
  if (run.signal.aborted) throw new Cancelled();
  const child = spawn(run.ffmpeg, run.args, {
    stdio: [run.feed ? "pipe" : "ignore", "pipe", "pipe"],
    env: pictureEnvironment(process.env, process.platform),
    windowsHide: true,
  });
  const watch = watchChild(child, run.hungAfterS ?? HUNG_AFTER_S);
  const release = child.pid === undefined ? undefined : run.guard?.(child.pid);
  const stop = (): void => void child.kill("SIGKILL");
  run.signal.addEventListener("abort", stop, { once: true });

  let frames = 0;
  readLines(child.stdout, (line) => {
    watch.seen();
    const counted = /^frame=\s*(\d+)/.exec(line);
    if (counted) {
      frames = Number(counted[1]);
      run.onFrames?.(frames);
    }
  });
  const messages: string[] = [];
  readLines(child.stderr, (line) => {
    watch.seen();
    if (messages.push(line) > LINES_KEPT) messages.shift();
  });

  const ended = new Promise<{ code: number | null; error: Error | null }>((resolve) => {
    child.once("error", (error) => resolve({ code: null, error }));
    child.once("close", (code) => resolve({ code, error: null }));
  });
  const feeding = feed(run, child.stdin, stop);
  const { code, error } = await ended;
  // After a good end the feeder is done soon: what it could not write, it throws away.
  const fed = code === 0 || child.signalCode !== null ? await Promise.race([feeding, soon()]) : null;
  watch.end();
  release?.();
  run.signal.removeEventListener("abort", stop);

  if (run.signal.aborted) throw new Cancelled();
  if (watch.hung()) {
    throw new Failure("ffmpeg-hung", { subject: run.subject });
  }
  if (error) throw startFailure(run, error);
  if (fed !== null) throw fed;
  if (code !== 0) throw exitFailure(run, code, messages);
  return frames;
}

/** Feeds stdin; what went wrong with it, or null. ffmpeg may have all it wants before all is sent: that is no error. */
async function feed(run: FfmpegRun, stdin: Writable | null, stop: () => void): Promise<Error | null> {
  if (!run.feed || stdin === null) return null;
  stdin.on("error", () => undefined);
  try {
    await run.feed(stdin);
    stdin.end();
  } catch (error) {
    if (isBrokenPipe(error)) return null;
    stop();
    return error instanceof Error ? error : new Error(String(error));
  }
  return null;
}

const SOON_MS = 5000;

function soon(): Promise<null> {
  return new Promise((resolve) => setTimeout(resolve, SOON_MS, null).unref());
}

function startFailure(run: FfmpegRun, error: Error): Failure {
  return new Failure("tool-not-started", { tool: "ffmpeg", program: run.ffmpeg }, error);
}

function exitFailure(run: FfmpegRun, code: number | null, messages: readonly string[]): Failure {
  const all = messages.join("\n");
  const cause = all === "" ? undefined : new Error(all);
  if (/No space left on device|disk quota exceeded/i.test(all)) {
    return new Failure("ffmpeg-disk-full", { subject: run.subject }, cause);
  }
  if (/Permission denied|Read-only file system|Operation not permitted/i.test(all)) {
    return new Failure("ffmpeg-forbidden", { subject: run.subject }, cause);
  }
  const said = messages.findLast((line) => line.trim() !== "")?.trim() ?? null;
  return new Failure("ffmpeg-failed", { subject: run.subject, said, exitCode: code }, cause);
}

function isBrokenPipe(error: unknown): boolean {
  const code = (error as NodeJS.ErrnoException | null)?.code;
  return (
    code === "EPIPE" ||
    code === "ERR_STREAM_DESTROYED" ||
    code === "ERR_STREAM_WRITE_AFTER_END" ||
    code === "ECONNRESET"
  );
}

function readLines(stream: NodeJS.ReadableStream | null, onLine: (line: string) => void): void {
  let rest = "";
  stream?.setEncoding("utf8");
  stream?.on("data", (chunk: string) => {
    const lines = (rest + chunk).split(/[\r\n]+/);
    rest = (lines.pop() ?? "").slice(-4000);
    lines.forEach(onLine);
  });
  stream?.on("end", () => {
    if (rest !== "") onLine(rest);
  });
}
