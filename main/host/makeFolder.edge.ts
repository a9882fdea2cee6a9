import { Failure } from "../contract/failure.ts";
import { makeInwards } from "./heldFolder.edge.ts";

/**
 * Makes a folder for output, where there is none one that no other user can enter: rides tell where people live.
 * Failures: `output-not-writable` that names it, as `inFolder`.
 */
export async function makeFolder(folder: string): Promise<void> {
  try {
    await makeInwards(folder);
  } catch (error) {
    if (error instanceof Failure) throw error;
    throw new Failure("folder-not-made", { folder }, error);
  }
}
