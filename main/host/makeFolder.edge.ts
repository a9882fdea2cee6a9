import { mkdir } from "node:fs/promises";
import { Failure } from "../contract/failure.ts";

/**
 * Makes a folder for output, where there is none one that no other user can enter: rides tell where people live.
 * Failure `output-not-writable` that names it.
 */
export async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    throw new Failure("folder-not-made", { folder }, error);
  }
}
