import { createHash } from "node:crypto";
import { mkdir, realpath, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { cacheFolder } from "../host/cacheFolder.edge.ts";

async function markPath(folder: string): Promise<string> {
  const name = createHash("sha256")
    .update(await realpath(folder))
    .digest("hex")
    .slice(0, 32);
  return join(cacheFolder(), "made-here", name);
}

/** Notes that the debrief in a folder was made by this user on this machine: its paths need no consent. Best effort. */
export async function noteMadeHere(folder: string): Promise<void> {
  try {
    const path = await markPath(folder);
    await mkdir(join(path, ".."), { recursive: true, mode: 0o700 });
    await writeFile(path, "");
  } catch {
    // Without the note, the person is asked for consent later.
  }
}

/** True when `noteMadeHere` was called for the folder. */
export async function wasMadeHere(folder: string): Promise<boolean> {
  try {
    return (await stat(await markPath(folder))).isFile();
  } catch {
    return false;
  }
}
