import { lstat, open, rename, rm, writeFile } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { Failure } from "../contract/failure.ts";
import { inFolder } from "./heldFolder.edge.ts";
import { clearUnfinished, unfinishedName } from "./leftovers.edge.ts";

/** Mode of what holds a person's data and is for the program alone. */
export const PRIVATE = 0o600;

/** How long a rename is tried again where another program (a virus scanner, a sync client) holds the file. */
const RENAME_TRIES_S = 5;
const HELD = new Set(["EPERM", "EBUSY", "EACCES"]);

function code(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "";
}

/** `rename` that waits up to 5 s for a file held by another program; Windows only, elsewhere the first answer stands. */
export async function renameHeld(
  from: string,
  to: string,
  platform: NodeJS.Platform = process.platform,
  move = rename,
): Promise<void> {
  const until = performance.now() + RENAME_TRIES_S * 1000;
  for (;;) {
    try {
      return await move(from, to);
    } catch (error) {
      if (platform !== "win32" || !HELD.has(code(error)) || performance.now() > until) throw error;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
}

/**
 * Makes a file that stands under its name only when it is whole: `make` fills the file it is told, which is then flushed
 * to the disk and renamed over the old one; where it throws, nothing is left of it. The one way in which files are made.
 * The file stands beside `path`, since a rename works only within a volume, under a name of its own: two may make the
 * same file at once, no link that lies there is followed, and what a killed program left of it is cleared here. The
 * folder is opened once (`inFolder`): where its name leads meanwhile does not matter.
 * @returns what `make` returns
 */
export function makeAtomic<T>(path: string, make: (unfinished: string) => Promise<T>): Promise<T> {
  return inFolder(dirname(path), async (through) => {
    const whole = join(through, basename(path));
    await clearUnfinished(through, basename(path));
    const unfinished = unfinishedName(whole);
    try {
      const made = await make(unfinished);
      const rights = await rightsOf(whole);
      const file = await open(unfinished, "r+");
      try {
        if (rights !== null) await file.chmod(rights);
        await file.sync();
      } finally {
        await file.close();
      }
      await renameHeld(unfinished, whole);
      return made;
    } catch (error) {
      // What is told of it is the file that was asked for, not the name it had on the way.
      if (error instanceof Error && "path" in error && error.path === unfinished) error.path = path;
      throw error;
    } finally {
      await rm(unfinished, { force: true });
    }
  });
}

/** Who may read and write a file that stands there: whoever closed it keeps it closed. Null: none does, or the system has no such rights. */
async function rightsOf(path: string): Promise<number | null> {
  if (process.platform === "win32") return null;
  const there = await lstat(path).catch(() => null);
  return there?.isFile() === true ? there.mode & 0o777 : null;
}

/** Deletes a file in the folder that was opened; one that is not there is none. */
export function removeFile(path: string): Promise<void> {
  return inFolder(dirname(path), (through) => rm(join(through, basename(path)), { force: true }));
}

/**
 * Writes a file whole or not at all: a temporary file in the same folder, flushed, then renamed over the old one.
 * Failures: `disk-full`, `output-not-writable`, as `inFolder`; the old file then stands untouched.
 * @param mode of a file that is new; `PRIVATE`: its owner alone reads it. One that stands there keeps its rights
 */
export async function writeAtomic(path: string, content: string | Uint8Array, mode = 0o666): Promise<void> {
  try {
    await makeAtomic(path, (unfinished) => writeFile(unfinished, content, { flag: "wx", mode }));
  } catch (error) {
    if (error instanceof Failure) throw error;
    if (code(error) === "ENOSPC") throw new Failure("file-no-room", { path }, error);
    throw new Failure("file-not-written", { path, error: code(error) }, error);
  }
}
