/**
 * The one edge through which other programs are started: ffmpeg, ffprobe, a browser, Electron, the file manager, our own
 * bundles. None goes by way of a shell. `main/setup/`, which runs before anything is installed, starts its own.
 */
import { spawn, type ChildProcess, type StdioOptions } from "node:child_process";
import type { Readable, Writable } from "node:stream";
import { watchChild } from "./watchChild.edge.ts";

/**
 * Where a program's lines lead. `ignored`: it reads nothing, what it says is dropped; `shown`: it says it where we say
 * ours; `heard`: we read what it says; `piped`: and write what it reads; `released`: ignored, and it outlives us.
 */
type Lines = "ignored" | "shown" | "heard" | "piped" | "released";

const STDIO: Readonly<Record<Lines, StdioOptions>> = {
  ignored: "ignore",
  shown: ["ignore", "inherit", "inherit"],
  heard: ["ignore", "pipe", "pipe"],
  piped: "pipe",
  released: "ignore",
};

/** How a program ended. */
interface ProgramEnd {
  /** Exit code; null where it was ended from outside or could not start. */
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  /** Why it could not start; null where it did. */
  readonly notStarted: Error | null;
}

/** A program that runs, as whoever looks after it sees it. */
export interface Running {
  /** Undefined where it could not start. */
  readonly pid: number | undefined;
  readonly stdin: Writable | null;
  readonly stdout: Readable | null;
  readonly stderr: Readable | null;
  /** Once it runs, or could not start: why, else null. */
  readonly started: Promise<Error | null>;
  /** Once it has ended and all that it said was read. Never rejects. */
  readonly ended: Promise<ProgramEnd>;
  /** Ends it, at once where no gentler signal is named; safe to call again. */
  readonly kill: (signal?: "SIGTERM" | "SIGKILL") => void;
}

/** Starts a program. @param env in place of our own environment */
export function startProgram(
  program: string,
  args: readonly string[],
  lines: Lines,
  env: NodeJS.ProcessEnv = process.env,
): Running {
  let child: ChildProcess;
  try {
    child = spawn(program, args, {
      stdio: STDIO[lines],
      env,
      detached: lines === "released",
      // No console beside a program that is heard; one with a window of its own shows it.
      windowsHide: lines === "heard" || lines === "piped",
    });
  } catch (error) {
    // Most of why a program can't start is an event; arguments that the system does not take are thrown.
    return neverRan(error as Error);
  }
  const started = new Promise<Error | null>((resolve) => {
    child.once("spawn", () => resolve(null));
    child.once("error", resolve);
  });
  const ended = new Promise<ProgramEnd>((resolve) => {
    child.once("close", (code, signal) => resolve({ code, signal, notStarted: null }));
    child.once("error", (notStarted) => resolve({ code: null, signal: null, notStarted }));
  });
  // A signal that could not be sent; why it did not start is told above.
  child.on("error", () => undefined);
  // One that ended early says so by its end; what it would still have read is dropped.
  child.stdin?.on("error", () => undefined);
  if (lines === "released") child.unref();
  return {
    pid: child.pid,
    stdin: child.stdin,
    stdout: child.stdout,
    stderr: child.stderr,
    started,
    ended,
    kill: (signal = "SIGKILL") => void child.kill(signal),
  };
}

function neverRan(notStarted: Error): Running {
  return {
    pid: undefined,
    stdin: null,
    stdout: null,
    stderr: null,
    started: Promise.resolve(notStarted),
    ended: Promise.resolve({ code: null, signal: null, notStarted }),
    kill: () => undefined,
  };
}

/** A run of a program that does its work and ends. */
export interface ProgramRun {
  readonly program: string;
  readonly args: readonly string[];
  /** In place of our own environment. */
  readonly env?: NodeJS.ProcessEnv | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Ended as hung after so long without a word and without processor time, s; 30 where it is not said. */
  readonly hungAfterS?: number | undefined;
  /** Ended after so long whatever it does, s; never where it is not said. */
  readonly limitS?: number | undefined;
  /** Writes what the program reads, and returns when all is handed over; its stdin is then closed. */
  readonly feed?: ((stdin: Writable) => Promise<void>) | undefined;
  /** Takes its stdout piece by piece; else that is in the result. */
  readonly onOutput?: ((chunk: Buffer) => void) | undefined;
  /** Told the process's id once it runs; what it returns is called when that has ended. */
  readonly guard?: ((pid: number) => () => void) | undefined;
}

/** What a finished program left. */
export interface ProgramResult extends ProgramEnd {
  /** Why it was ended by us or never ran: `late` is one that passed its limit; null where it ended by itself. */
  readonly trouble: "not started" | "cancelled" | "hung" | "late" | null;
  /** All that it wrote on stdout; empty where `onOutput` took it. */
  readonly stdout: Buffer;
  /** The end of what it said on stderr: 16,000 letters. */
  readonly stderr: string;
  /** What went wrong with feeding it; null also where it did not want all. */
  readonly unfed: Error | null;
}

const HUNG_AFTER_S = 30;
const SAID_LETTERS = 16_000;
/** What a program of ours answers is short; a file made to fill the memory is not let. */
const MOST_OUTPUT_BYTES = 64e6;
/** After a good end the feeder is done soon: what it could not write, it throws away. */
const SOON_MS = 5000;

/** Runs a program to its end. Never rejects, and never leaves it behind. */
export async function runProgram(run: ProgramRun): Promise<ProgramResult> {
  const nothing = { code: null, signal: null, notStarted: null, stdout: Buffer.alloc(0), stderr: "", unfed: null };
  if (run.signal?.aborted) return { ...nothing, trouble: "cancelled" };
  const running = startProgram(run.program, run.args, run.feed ? "piped" : "heard", run.env);
  const watch = watchChild(running, run.hungAfterS ?? HUNG_AFTER_S);
  const release = running.pid === undefined ? undefined : run.guard?.(running.pid);
  let late = false;
  const stop = (): void => running.kill();
  const limit = setTimeout(
    () => {
      late = true;
      stop();
    },
    (run.limitS ?? 0) * 1000,
  ).unref();
  if (run.limitS === undefined) clearTimeout(limit);
  run.signal?.addEventListener("abort", stop, { once: true });

  const output: Buffer[] = [];
  let bytes = 0;
  const keep = (chunk: Buffer): void => {
    bytes += chunk.length;
    if (bytes <= MOST_OUTPUT_BYTES) output.push(chunk);
  };
  running.stdout?.on("data", (chunk: Buffer) => {
    watch.seen();
    (run.onOutput ?? keep)(chunk);
  });
  let stderr = "";
  running.stderr?.setEncoding("utf8").on("data", (text: string) => {
    watch.seen();
    stderr = (stderr + text).slice(-SAID_LETTERS);
  });

  const feeding = feed(run, running);
  const end = await running.ended;
  const unfed = end.code === 0 || end.signal !== null ? await Promise.race([feeding, soon()]) : null;
  watch.end();
  clearTimeout(limit);
  release?.();
  run.signal?.removeEventListener("abort", stop);
  const trouble = run.signal?.aborted
    ? "cancelled"
    : watch.hung()
      ? "hung"
      : late
        ? "late"
        : end.notStarted !== null
          ? "not started"
          : null;
  return { ...end, trouble, stdout: Buffer.concat(output), stderr, unfed };
}

/** Feeds stdin; what went wrong with it, or null. A program may have all it wants before all is sent: that is no error. */
async function feed(run: ProgramRun, { stdin, kill }: Running): Promise<Error | null> {
  if (!run.feed || stdin === null) return null;
  try {
    await run.feed(stdin);
    stdin.end();
  } catch (error) {
    if (isBrokenPipe(error)) return null;
    kill();
    return error instanceof Error ? error : new Error(String(error));
  }
  return null;
}

function soon(): Promise<null> {
  return new Promise((resolve) => setTimeout(resolve, SOON_MS, null).unref());
}

const BROKEN_PIPE = new Set([
  "EPIPE",
  "ERR_STREAM_DESTROYED",
  "ERR_STREAM_WRITE_AFTER_END",
  "ERR_STREAM_PREMATURE_CLOSE",
  "ECONNRESET",
]);

function isBrokenPipe(error: unknown): boolean {
  return BROKEN_PIPE.has((error as NodeJS.ErrnoException | null)?.code ?? "");
}
