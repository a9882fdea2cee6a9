import { basename, resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Ride } from "../contract/ride.ts";
import { openToRead } from "../host/openToRead.edge.ts";
import { parseRide } from "./parseRide.ts";
import { MOST_BYTES } from "./unpackGzip.ts";

/** Reads a ride file from disk. Failure `file-unreadable` or `ride-not-usable`, both with the file's name. */
export async function readRide(path: string): Promise<Ride> {
  const ride = parseRide(await readBytes(path), basename(path));
  if (ride.raw.count < 2) {
    throw new Failure("ride-one-record", { fileName: basename(path) });
  }
  return ride;
}

async function readBytes(path: string): Promise<Uint8Array> {
  const fileName = basename(path);
  let file;
  try {
    file = await openToRead(path);
    const stat = await file.stat();
    if (stat.isDirectory()) throw new Failure("ride-is-folder", { fileName });
    // A pipe or device has no size and may never end.
    if (!stat.isFile()) throw new Failure("ride-no-ordinary-file", { fileName });
    if (stat.size > MOST_BYTES) throw new Failure("ride-file-too-large", { fileName });
    return await file.readFile();
  } catch (error) {
    if (error instanceof Failure) throw error;
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT" || code === "ENOTDIR") {
      throw new Failure("ride-file-missing", { path: resolve(path) }, error);
    }
    if (code === "EACCES" || code === "EPERM") {
      throw new Failure("ride-file-forbidden", { fileName }, error);
    }
    throw new Failure("ride-file-unreadable", { fileName, error: code ?? null }, error);
  } finally {
    await file?.close();
  }
}
