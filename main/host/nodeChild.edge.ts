import type { ChildLine, ChildName } from "../contract/childLine.ts";
import { childEnvironment } from "./childEnvironment.ts";
import { HEAD_BYTES, headOf } from "./messageHead.ts";
import { startProgram } from "./program.edge.ts";
import { projectFile } from "./projectFile.edge.ts";

/** So much of a child's error output is kept, letters. */
const SAID_LIMIT = 2000;

/** One of our bundles as a Node process; messages go over its standard input and output, each with its length before it. */
export function startNodeChild(name: ChildName): ChildLine {
  const child = startProgram(process.execPath, [projectFile("dist", `${name}.mjs`)], "piped", {
    ...childEnvironment(name, process.env, process.platform),
    ELECTRON_RUN_AS_NODE: "1",
  });
  let said = "";
  child.stderr?.setEncoding("utf8").on("data", (text: string) => (said = (said + text).slice(-SAID_LIMIT)));
  const ended = child.ended.then(({ code, notStarted }) => {
    said += notStarted?.message ?? "";
    return code;
  });
  const take = messagesOf(child.stdout as AsyncIterable<Buffer>);
  return {
    tell(message) {
      if (message.length === 0) {
        child.stdin?.end();
        return;
      }
      child.stdin?.write(headOf(message.length));
      child.stdin?.write(message);
    },
    take,
    said: () => said,
    ended,
    kill: () => child.kill(),
  };
}

/** Takes whole messages off a stream; null when it has ended, also in the middle of one. */
function messagesOf(stream: AsyncIterable<Buffer>): () => Promise<Uint8Array | null> {
  const pieces = stream[Symbol.asyncIterator]();
  let rest: Buffer = Buffer.alloc(0);
  const take = async (bytes: number): Promise<Buffer | null> => {
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
  };
  return async () => {
    const head = await take(HEAD_BYTES);
    return head === null ? null : take(head.readUInt32LE(0));
  };
}
