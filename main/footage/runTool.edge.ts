import { spawn } from "node:child_process";
import { pipeline } from "node:stream/promises";
import { watchChild } from "../host/watchChild.edge.ts";

/** What a finished program left. */
export interface ToolResult {
  /** Exit code; null when it was ended by us or could not start. */
  readonly code: number | null;
  /** The last 4 kB of stderr. */
  readonly stderr: string;
  /** `spawn` error, or `hung` when it neither said nor did anything for too long, else null. */
  readonly trouble: "missing" | "hung" | "cancelled" | null;
}

export interface ToolOptions {
  readonly signal?: AbortSignal | undefined;
  /** Ended after this long without output and without processor time, s. */
  readonly hungAfterS?: number;
  /** What the program reads from its stdin; nothing by default. */
  readonly feed?: AsyncIterable<Uint8Array>;
  /** Gets stdout piece by piece. */
  readonly onData: (chunk: Buffer) => void;
}

const HUNG_AFTER_S = 30;

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
    const watch = watchChild(child, options.hungAfterS ?? HUNG_AFTER_S);
    const cancel = () => end("cancelled");
    if (options.signal?.aborted) cancel();
    options.signal?.addEventListener("abort", cancel);
    child.stdout!.on("data", (chunk: Buffer) => {
      watch.seen();
      options.onData(chunk);
    });
    child.stderr!.on("data", (chunk: Buffer) => {
      watch.seen();
      stderr = (stderr + chunk.toString("utf8")).slice(-4096);
    });
    child.on("error", () => {
      trouble = trouble ?? "missing";
    });
    const done = (code: number | null) => {
      watch.end();
      options.signal?.removeEventListener("abort", cancel);
      resolve({ code, stderr, trouble: trouble ?? (watch.hung() ? "hung" : null) });
    };
    child.on("close", done);
    child.on("error", () => done(null));
  });
}
