import { statfs } from "node:fs/promises";
import { Failure } from "../contract/failure.ts";
import type { Preset } from "../contract/presets.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";

/** Bits a pixel that a film may take at crf 20 with much movement; halved every 6 steps of crf. Measured, with a margin. */
const BITS_A_PIXEL = 0.2;
const PCM_BYTES_A_SECOND = 48_000 * 2 * 2;

/** About how much a film takes while it is made, parts and the joined file together, bytes. On the safe side. */
export function neededBytes(
  preset: Preset,
  widthPx: number,
  heightPx: number,
  framesPerSecond: number,
  durationS: number,
): number {
  const bitsAPixel = BITS_A_PIXEL * 2 ** ((20 - preset.crf) / 6);
  const pictureBytes = (widthPx * heightPx * framesPerSecond * durationS * bitsAPixel) / 8;
  return Math.ceil(2 * pictureBytes + PCM_BYTES_A_SECOND * durationS + 20e6);
}

/**
 * Throws a Failure (disk-full, output-not-writable) where a folder cannot hold so much more. The folder is made where
 * it is not there.
 */
export async function checkDiskSpace(folder: string, bytes: number): Promise<void> {
  let free: number;
  try {
    await makeFolder(folder);
    const { bavail, bsize } = await statfs(folder);
    free = bavail * bsize;
  } catch (error) {
    if (error instanceof Failure && error.notice.code !== "folder-not-made") throw error;
    throw new Failure("output-folder-unusable", { folder }, error);
  }
  if (free < bytes) {
    throw new Failure("disk-too-full", { folder, freeBytes: free, neededBytes: bytes });
  }
}
