import { createHash } from "node:crypto";
import type { ByteSource } from "./mp4/byteSource.ts";
import { fileSource } from "./mp4/fileSource.edge.ts";

const MIB = 1024 * 1024;

/** Hash of a file's size, first and last MiB: finds a clip again after a move. 32 hexadecimal digits. */
export async function fingerprintSource(source: ByteSource): Promise<string> {
  const hash = createHash("sha256").update(String(source.size));
  hash.update(await source.read(0, MIB));
  hash.update(await source.read(Math.max(0, source.size - MIB), MIB));
  return hash.digest("hex").slice(0, 32);
}

/** `fingerprintSource` of a file by path. Rejects with Node's error when it cannot be read. */
export async function fingerprintFile(path: string): Promise<string> {
  const source = await fileSource(path);
  try {
    return await fingerprintSource(source);
  } finally {
    await source.close();
  }
}
