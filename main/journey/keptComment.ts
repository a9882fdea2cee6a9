import { createHash } from "node:crypto";
import { dirname, join } from "node:path";
import { Failure } from "../contract/failure.ts";
import { soundLengthS } from "../footage/soundLength.edge.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import type { Host } from "./host.ts";

/** Folder of the spoken comments, in the debrief's. */
const FOLDER = "comments";

/**
 * A spoken comment as the file it becomes: a name of its own for each take, so that a part of the film rendered with an
 * earlier take is told apart, and undo finds the earlier one. Failure `usage` where the bytes are no WAV (RIFF, WAVE).
 */
function commentFile(itemId: string, wavBase64: string): { readonly path: string; readonly bytes: Uint8Array } {
  const bytes = Buffer.from(wavBase64, "base64");
  if (bytes.length < 44 || bytes.toString("latin1", 0, 4) !== "RIFF" || bytes.toString("latin1", 8, 12) !== "WAVE") {
    throw new Failure("comment-no-sound", {});
  }
  const take = createHash("sha256").update(bytes).digest("hex").slice(0, 12);
  const name = itemId.replace(/[^A-Za-z0-9_-]+/g, "-").slice(0, 60);
  return { path: `${FOLDER}/${name}-${take}.wav`, bytes };
}

/**
 * Writes a spoken comment into a debrief's folder; gives its path from there and its length, s. Failures as
 * `commentFile`, and what writing and measuring give.
 */
export async function keepComment(
  folder: string,
  itemId: string,
  wavBase64: string,
  host: Host,
): Promise<{ readonly commentPath: string; readonly commentS: number }> {
  const { path, bytes } = commentFile(itemId, wavBase64);
  const whole = join(folder, path);
  await makeFolder(dirname(whole));
  await writeAtomic(whole, bytes);
  return { commentPath: path, commentS: await soundLengthS(whole, host.tools) };
}
