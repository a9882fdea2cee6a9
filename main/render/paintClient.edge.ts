import { spawn } from "node:child_process";
import type { Readable, Writable } from "node:stream";
import { deserialize, serialize } from "node:v8";
import { Failure } from "../contract/failure.ts";
import { layoutFor } from "../../overlay/layout/layout.ts";
import { createKeptPicture } from "./keptPicture.ts";
import { matroskaHeader, matroskaPictureHead, type PixelLayout } from "./matroskaStream.ts";
import {
  CHUNK_HEAD_BYTES,
  type PaintMessage,
  type PaintOrder,
  type PaintSetup,
  type PictureChange,
} from "./paintMessages.ts";
import { SENTINEL_US } from "./panelPictures.ts";
import { projectFile } from "../host/projectFile.edge.ts";
import { childEnvironment } from "./runFfmpeg.edge.ts";
import { Cancelled } from "../contract/job.ts";

/** A painting child, ready for orders; one at a time. */
export interface PaintClient {
  /**
   * Sends an order and hands the answer on piece by piece, in step with the taker: for panels a Matroska stream of the
   * whole band, put together here from what changes between pictures. A piece is valid until the taker returns.
   */
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
    env: paintEnvironment(),
    windowsHide: true,
  });
  let messages = "";
  child.stderr.setEncoding("utf8").on("data", (text: string) => (messages = (messages + text).slice(-2000)));
  child.stdin.on("error", () => undefined);
  child.on("error", (error) => (messages += error.message));
  const close = (): void => void child.kill("SIGKILL");
  signal.addEventListener("abort", close, { once: true });
  child.once("exit", () => signal.removeEventListener("abort", close));

  const { band } = layoutFor(setup.layoutOptions);
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
      const chunks = answerOf(reader, () => {
        if (signal.aborted) throw new Cancelled();
        throw new Failure("panels-unpainted", { said: messages === "" ? "" : firstLine(messages) });
      });
      if (order.kind === "panels") await joinPanelStream(band, order.pixels, chunks, takeOrDrop);
      else for await (const chunk of chunks) await takeOrDrop(chunk);
      if (refusal !== null) throw (refusal as { readonly reason: unknown }).reason;
    },
  };
}

function paintEnvironment(): NodeJS.ProcessEnv {
  const env = { ...childEnvironment(), ELECTRON_RUN_AS_NODE: "1" };
  // Listing every installed font takes longer than all other preparations; foreign letters are found without it.
  return process.platform === "linux" ? { ...env, DISABLE_SYSTEM_FONTS_LOAD: "1" } : env;
}

function tell(stdin: Writable, message: PaintMessage): void {
  const body = serialize(message);
  const head = Buffer.alloc(CHUNK_HEAD_BYTES);
  head.writeUInt32LE(body.length);
  stdin.write(head);
  stdin.write(body);
}

function firstLine(messages: string): string {
  return (
    messages
      .split("\n")
      .find((line) => /Error/.test(line))
      ?.trim() ??
    messages.trim().split("\n")[0] ??
    ""
  );
}

/** The chunks of one answer. @param broken throws; called when the stream ends before the answer does */
async function* answerOf(reader: ChunkReader, broken: () => never): AsyncGenerator<Buffer> {
  for (;;) {
    const head = await reader.take(CHUNK_HEAD_BYTES);
    const bytes = head?.readUInt32LE(0) ?? broken();
    if (bytes === 0) return;
    yield (await reader.take(bytes)) ?? broken();
  }
}

/** Keeps the band's picture, brings it up to date with each change and hands on the whole as a live stream. */
async function joinPanelStream(
  band: { readonly width: number; readonly height: number },
  pixels: PixelLayout,
  changes: AsyncIterable<Buffer>,
  take: (bytes: Uint8Array) => Promise<void>,
): Promise<void> {
  const picture = createKeptPicture(band.width, band.height, pixels);
  const takePicture = async (timeUs: number, bytes: Uint8Array): Promise<void> => {
    await take(matroskaPictureHead(timeUs, bytes.length));
    await take(bytes);
  };
  await take(matroskaHeader(band.width, band.height, pixels));
  let lastOpacity = 0;
  for await (const chunk of changes) {
    const { timeUs, opacity, patches } = deserialize(chunk) as PictureChange;
    for (const patch of patches) picture.lay(patch);
    await takePicture(timeUs, picture.bytes(opacity));
    lastOpacity = opacity;
  }
  await takePicture(SENTINEL_US, picture.bytes(lastOpacity));
}

interface ChunkReader {
  /** So many bytes; null when the stream ended before. */
  take(bytes: number): Promise<Buffer | null>;
}

function chunkReader(stream: Readable): ChunkReader {
  const pieces = stream[Symbol.asyncIterator]() as AsyncIterator<Buffer>;
  let rest: Buffer = Buffer.alloc(0);
  return {
    async take(bytes) {
      const found: Buffer[] = [];
      let missing = bytes;
      for (;;) {
        const piece = rest.subarray(0, missing);
        rest = rest.subarray(piece.length);
        missing -= piece.length;
        found.push(piece);
        if (missing === 0) return found.length === 1 ? piece : Buffer.concat(found, bytes);
        const next = await pieces.next();
        if (next.done === true) return null;
        rest = next.value;
      }
    },
  };
}
