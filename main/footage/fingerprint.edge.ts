import { createHash, type Hash } from "node:crypto";
import type { ByteSource } from "./mp4/byteSource.ts";
import { fileSource } from "./mp4/fileSource.edge.ts";

const MIB = 1024 * 1024;

/** Between the first and the last MiB so many places are looked at … */
const PLACES = 128;
/** … each so many bytes long: all of a file up to 10 MiB, and 8 MiB of a larger one. */
const PLACE_BYTES = 64 * 1024;

/** Hash of what lies between the first and the last MiB: another clip differs there, be its ends the same. */
async function middleOf(source: ByteSource): Promise<Hash> {
  const hash = createHash("sha256");
  const between = source.size - 2 * MIB;
  if (between <= 0) return hash;
  const step = Math.max(PLACE_BYTES, Math.floor(between / PLACES));
  for (let at = MIB; at < source.size - MIB; at += step)
    hash.update(await source.read(at, Math.min(PLACE_BYTES, source.size - MIB - at)));
  return hash;
}

/**
 * Hash of a file's size, first and last MiB (32 hexadecimal digits) and of 128 places between them (16 more): finds a clip
 * again after a move, and tells another clip that was put in its place.
 */
export async function fingerprintSource(source: ByteSource): Promise<string> {
  const ends = createHash("sha256").update(String(source.size));
  ends.update(await source.read(0, MIB));
  ends.update(await source.read(Math.max(0, source.size - MIB), MIB));
  return ends.digest("hex").slice(0, 32) + (await middleOf(source)).digest("hex").slice(0, 16);
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
