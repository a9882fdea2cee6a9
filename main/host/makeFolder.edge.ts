import { mkdir } from "node:fs/promises";
import { Failure } from "../contract/failure.ts";

/** Makes a folder for output; Failure `output-not-writable` that names it. */
export async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
  } catch (error) {
    throw new Failure("folder-not-made", { folder }, error);
  }
}
