import { constants, open, type FileHandle } from "node:fs/promises";

/** Opens a file for reading without ever waiting for it: a pipe that is named like a file and that nobody writes to would else hold the program for good. */
export function openToRead(path: string): Promise<FileHandle> {
  // Windows has no such flag, and no such pipes among its files.
  return open(path, constants.O_RDONLY | ((constants as { O_NONBLOCK?: number }).O_NONBLOCK ?? 0));
}
