import { spawn } from "node:child_process";
import { pipeline } from "node:stream/promises";

/** What a finished program left. */
export interface ToolResult {
  /** Exit code; null when it was ended by us or could not start. */
  readonly code: number | null;
  /** The last 4 kB of stderr. */
  readonly stderr: string;
  /** `spawn` error, or `hung` when it gave nothing for too long, else null. */
  readonly trouble: "missing" | "hung" | "cancelled" | null;
}

export interface ToolOptions {
  readonly signal?: AbortSignal | undefined;
  /** Ended after this long without output, s. */
  readonly silenceS?: number;
  /** What the program reads from its stdin; nothing by default. */
  readonly feed?: AsyncIterable<Uint8Array>;
  /** Gets stdout piece by piece. */
  readonly onData: (chunk: Buffer) => void;
}

/** Runs a program to its end, handing its stdout on. Never rejects; never leaves the child behind. */
export function runTool(program: string, args: readonly string[], options: ToolOptions): Promise<ToolResult> {
  return new Promise((resolve) => {
    let stderr = "";
    let trouble: ToolResult["trouble"] = null;
    const child = spawn(program, args, {
      stdio: [options.feed ? "pipe" : "ignore", "pipe", "pipe"],
      windowsHide: true,
    });
    const { stdin } = child;
    // A program that ended early says so by its exit; what it would still have read is dropped.
    if (options.feed && stdin) void pipeline(options.feed, stdin).catch(() => undefined);
    const end = (why: NonNullable<ToolResult["trouble"]>) => {
      trouble = trouble ?? why;
      child.kill("SIGKILL");
    };
    const silenceMs = (options.silenceS ?? 30) * 1000;
    let timer = setTimeout(() => end("hung"), silenceMs);
    const alive = () => {
      clearTimeout(timer);
      timer = setTimeout(() => end("hung"), silenceMs);
    };
    const cancel = () => end("cancelled");
    if (options.signal?.aborted) cancel();
    options.signal?.addEventListener("abort", cancel);
    child.stdout!.on("data", (chunk: Buffer) => {
      alive();
      options.onData(chunk);
    });
    child.stderr!.on("data", (chunk: Buffer) => {
      stderr = (stderr + chunk.toString("utf8")).slice(-4096);
    });
    child.on("error", () => {
      trouble = trouble ?? "missing";
    });
    const done = (code: number | null) => {
      clearTimeout(timer);
      options.signal?.removeEventListener("abort", cancel);
      resolve({ code, stderr, trouble });
    };
    child.on("close", done);
    child.on("error", () => done(null));
  });
}
