import { open } from "node:fs/promises";
import { basename } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Ride } from "../contract/ride.ts";
import { parseRide } from "./parseRide.ts";
import { MOST_BYTES } from "./unpackGzip.ts";

/** Reads a ride file from disk. Failure `file-unreadable` or `ride-not-usable`, both with the file's name. */
export async function readRide(path: string): Promise<Ride> {
  const ride = parseRide(await readBytes(path), basename(path));
  if (ride.raw.count < 2) {
    throw new Failure(
      "ride-not-usable",
      `${basename(path)} holds one record only: there is no ride in it.`,
      "Choose the file of a whole ride, or export it again.",
    );
  }
  return ride;
}

async function readBytes(path: string): Promise<Uint8Array> {
  const name = basename(path);
  let file;
  try {
    file = await open(path, "r");
    const stat = await file.stat();
    if (stat.isDirectory()) throw new Failure("file-unreadable", `${name} is a folder.`, "Choose the ride file in it.");
    // A pipe or device has no size and may never end.
    if (!stat.isFile())
      throw new Failure("file-unreadable", `${name} is not an ordinary file.`, "Copy the ride into a file.");
    if (stat.size > MOST_BYTES)
      throw new Failure(
        "ride-not-usable",
        `${name} is larger than any ride file.`,
        "Choose the file of a recorded ride.",
      );
    return await file.readFile();
  } catch (error) {
    if (error instanceof Failure) throw error;
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT" || code === "ENOTDIR") {
      throw new Failure("file-unreadable", `${path} does not exist.`, "Check the name and the folder.", error);
    }
    if (code === "EACCES" || code === "EPERM") {
      throw new Failure(
        "file-unreadable",
        `${name} may not be read.`,
        "Give yourself the right to read it, or copy it elsewhere.",
        error,
      );
    }
    throw new Failure(
      "file-unreadable",
      `${name} cannot be read (${code ?? "unknown reason"}).`,
      "Check the disk, or copy the file again.",
      error,
    );
  } finally {
    await file?.close();
  }
}
