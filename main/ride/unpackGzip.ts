import { constants, gunzipSync, inflateRawSync } from "node:zlib";
import { Failure } from "../contract/failure.ts";
import { note, type Note } from "../contract/notice.ts";

/** Larger than a day's ride at 1 s in the wordiest format; what unpacks to more is no ride. */
export const MOST_BYTES = 128 * 1024 * 1024;

/** Whether the bytes begin like a gzip file (RFC 1952, 2.3.1). */
export function isGzip(bytes: Uint8Array): boolean {
  return bytes.length > 2 && bytes[0] === 0x1f && bytes[1] === 0x8b;
}

/**
 * Unpacks a gzip file, up to 128 MB; a file cut short gives what is whole and a warning. Failure `ride-not-usable`
 * where it unpacks to more, or to nothing.
 */
export function unpackGzip(
  bytes: Uint8Array,
  fileName: string,
  limit = MOST_BYTES,
): { bytes: Uint8Array; warnings: Note[] } {
  const bounds = { maxOutputLength: limit };
  try {
    return { bytes: gunzipSync(bytes, bounds), warnings: [] };
  } catch (error) {
    refuseBomb(error, fileName, limit);
  }
  try {
    // Without its checksum, and as far as it goes.
    const start = gzipHeaderBytes(bytes);
    const whole = inflateRawSync(bytes.subarray(start), { ...bounds, finishFlush: constants.Z_SYNC_FLUSH });
    if (whole.length > 0)
      return {
        bytes: whole,
        warnings: [note("ride-gzip-cut", {})],
      };
  } catch (error) {
    refuseBomb(error, fileName, limit);
  }
  throw new Failure("ride-gzip-damaged", { fileName });
}

function refuseBomb(error: unknown, fileName: string, limit: number): void {
  if ((error as { code?: string }).code !== "ERR_BUFFER_TOO_LARGE") return;
  throw new Failure("ride-gzip-too-large", { fileName, limitMb: Math.round(limit / 1024 / 1024) }, error);
}

/** Length of a gzip header with its optional parts (RFC 1952, 2.3). */
function gzipHeaderBytes(bytes: Uint8Array): number {
  const flags = bytes[3] ?? 0;
  let at = 10;
  if (flags & 4) at += 2 + (bytes[at] ?? 0) + ((bytes[at + 1] ?? 0) << 8);
  for (const flag of [8, 16]) {
    if (!(flags & flag)) continue;
    while (at < bytes.length && bytes[at] !== 0) at++;
    at++;
  }
  return flags & 2 ? at + 2 : at;
}
