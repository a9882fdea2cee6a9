import { HEAD_BYTES, headOf } from "./messageHead.ts";

/** The line of a process of ours to the program that started it; the other end of a `ChildLine`. */
export interface OwnLine {
  /** What the program says; ends when it asks us to end, and when it is gone. */
  readonly messages: AsyncIterable<Uint8Array>;
  /** One message, its pieces one after the other. Resolves when it has left, so that its bytes may be used again. */
  send(...pieces: readonly Uint8Array[]): Promise<void>;
}

/** The part of Electron's `process.parentPort` that is used: Electron's documentation, utilityProcess. */
interface ParentPort {
  on(event: "message", listener: (event: { readonly data: unknown }) => void): unknown;
  postMessage(message: unknown): void;
}

/** What the program answers when it has taken a message of ours. */
const TAKEN = "taken";

/** The line of this process: a message port where Electron started it, else its standard input and output. */
export function ownLine(): OwnLine {
  const { parentPort } = process as { readonly parentPort?: ParentPort };
  return parentPort === undefined ? pipeLine() : portLine(parentPort);
}

function pipeLine(): OwnLine {
  return {
    messages: pipeMessages(),
    send(...pieces) {
      process.stdout.write(headOf(lengthOf(pieces)));
      for (const piece of pieces.slice(0, -1)) process.stdout.write(piece);
      const last = pieces.at(-1) ?? new Uint8Array(0);
      return new Promise((resolve, reject) => {
        process.stdout.write(last, (error) => (error ? reject(error) : resolve()));
      });
    },
  };
}

async function* pipeMessages(): AsyncGenerator<Uint8Array> {
  let pending = Buffer.alloc(0);
  for await (const chunk of process.stdin) {
    pending = Buffer.concat([pending, chunk as Buffer]);
    while (pending.length >= HEAD_BYTES) {
      const end = HEAD_BYTES + pending.readUInt32LE(0);
      if (pending.length < end) break;
      const message = pending.subarray(HEAD_BYTES, end);
      pending = pending.subarray(end);
      yield message;
    }
  }
}

/** A message port holds whatever is posted, so the next message waits until the last one was taken. */
function portLine(port: ParentPort): OwnLine {
  const waiting: Uint8Array[] = [];
  let wake: () => void = () => undefined;
  /** Those that wait for a message of theirs to be taken, in order. */
  const sent: (() => void)[] = [];
  port.on("message", ({ data }) => {
    if (data === TAKEN) sent.shift()?.();
    else if (data instanceof Uint8Array) {
      waiting.push(data);
      wake();
    }
  });
  return {
    messages: (async function* () {
      for (;;) {
        const next = waiting.shift();
        if (next === undefined) await new Promise<void>((resolve) => (wake = resolve));
        else if (next.length === 0) return;
        else yield next;
      }
    })(),
    send(...pieces) {
      const whole = new Uint8Array(lengthOf(pieces));
      let at = 0;
      for (const piece of pieces) {
        whole.set(piece, at);
        at += piece.length;
      }
      const gone = new Promise<void>((resolve) => sent.push(resolve));
      port.postMessage(whole);
      return gone;
    },
  };
}

function lengthOf(pieces: readonly Uint8Array[]): number {
  return pieces.reduce((sum, piece) => sum + piece.length, 0);
}
