import { spawn } from "node:child_process";
import type { Readable, Writable } from "node:stream";
import { serialize } from "node:v8";
import { Failure } from "../contract/failure.ts";
import { CHUNK_HEAD_BYTES, type PaintMessage, type PaintOrder, type PaintSetup } from "./paintMessages.ts";
import { projectFile } from "./projectFile.edge.ts";
import { Cancelled, childEnvironment } from "./runFfmpeg.edge.ts";

/** A painting child, ready for orders; one at a time. */
export interface PaintClient {
  /** Sends an order and hands every piece of the answer on, in step with the taker. */
  paint(order: PaintOrder, take: (bytes: Uint8Array) => Promise<void>): Promise<void>;
  /** The child ends this process if our own is killed outright. Returns what to call once it has ended. */
  guard(pid: number): () => void;
  /** Ends the child; safe to call again. */
  close(): void;
}

/** Starts the painting child. It ends with `close` or with the signal. */
export function startPaintClient(setup: Omit<PaintSetup, "kind" | "fontsFolder">, signal: AbortSignal): PaintClient {
  const child = spawn(process.execPath, [projectFile("dist", "paintChild.mjs")], {
    stdio: ["pipe", "pipe", "pipe"],
    env: { ...childEnvironment(), ELECTRON_RUN_AS_NODE: "1" },
    windowsHide: true,
  });
  let messages = "";
  child.stderr.setEncoding("utf8").on("data", (text: string) => (messages = (messages + text).slice(-2000)));
  child.stdin.on("error", () => undefined);
  child.on("error", (error) => (messages += error.message));
  const close = (): void => void child.kill("SIGKILL");
  signal.addEventListener("abort", close, { once: true });
  child.once("exit", () => signal.removeEventListener("abort", close));

  const reader = chunkReader(child.stdout);
  tell(child.stdin, { kind: "setup", fontsFolder: projectFile("assets", "fonts"), ...setup });
  return {
    close,
    guard(pid) {
      tell(child.stdin, { kind: "guard", pid, ended: false });
      return () => tell(child.stdin, { kind: "guard", pid, ended: true });
    },
    async paint(order, take) {
      tell(child.stdin, order);
      // A taker that has enough must not leave the rest of its answer to the next order.
      let refusal: { readonly reason: unknown } | null = null;
      const takeOrDrop = async (bytes: Uint8Array): Promise<void> => {
        if (refusal !== null) return;
        try {
          await take(bytes);
        } catch (reason) {
          refusal = { reason };
        }
      };
      for (;;) {
        const left = await reader.head();
        if (left === null) {
          if (signal.aborted) throw new Cancelled();
          throw new Failure(
            "internal",
            `The pictures of the panels could not be painted${messages === "" ? "" : `: ${firstLine(messages)}`}.`,
            "Run it again; if it stays, report it with the line above.",
          );
        }
        if (left === 0) break;
        await reader.body(left, takeOrDrop);
      }
      if (refusal !== null) throw (refusal as { readonly reason: unknown }).reason;
    },
  };
}

function tell(stdin: Writable, message: PaintMessage): void {
  const body = serialize(message);
  const head = Buffer.alloc(CHUNK_HEAD_BYTES);
  head.writeUInt32LE(body.length);
  stdin.write(head);
  stdin.write(body);
}

function firstLine(messages: string): string {
  return messages.split("\n").find((line) => /Error/.test(line))?.trim() ?? messages.trim().split("\n")[0] ?? "";
}

interface ChunkReader {
  /** Bytes in the next chunk; null when the stream ended. */
  head(): Promise<number | null>;
  body(bytes: number, take: (bytes: Uint8Array) => Promise<void>): Promise<void>;
}

function chunkReader(stream: Readable): ChunkReader {
  const pieces = stream[Symbol.asyncIterator]() as AsyncIterator<Buffer>;
  let rest: Buffer = Buffer.alloc(0);
  const more = async (): Promise<boolean> => {
    const next = await pieces.next();
    if (next.done === true) return false;
    rest = rest.length === 0 ? next.value : Buffer.concat([rest, next.value]);
    return true;
  };
  return {
    async head() {
      while (rest.length < CHUNK_HEAD_BYTES) if (!(await more())) return null;
      const bytes = rest.readUInt32LE(0);
      rest = rest.subarray(CHUNK_HEAD_BYTES);
      return bytes;
    },
    async body(bytes, take) {
      for (let left = bytes; left > 0; ) {
        if (rest.length === 0 && !(await more())) return;
        const piece = rest.subarray(0, left);
        rest = rest.subarray(piece.length);
        left -= piece.length;
        await take(piece);
      }
    },
  };
}
