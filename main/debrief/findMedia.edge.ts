import { readdir, stat } from "node:fs/promises";
import { isAbsolute, join, relative, sep } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { MediaRef } from "../contract/debrief.ts";
import { leavesFolder } from "./mediaPath.ts";
import { isSameContent } from "./sameContent.ts";

/** Hash of a file's size and content; the function that made the reference, or made its first digits. */
export type Fingerprint = (path: string) => Promise<string>;

/** A reference to a file, by its path from the debrief's folder; absolute where the two share no root. */
export async function mediaRef(
  folder: string,
  path: string,
  id: string,
  kind: MediaRef["kind"],
  fingerprint: Fingerprint,
): Promise<MediaRef> {
  const { size } = await stat(path);
  return {
    id,
    kind,
    // A backslash is a letter like any other in names of most systems.
    path: (relative(folder, path) || path).replaceAll(sep, "/"),
    bytes: size,
    fingerprint: await fingerprint(path),
  };
}

async function isIt(path: string, media: MediaRef, fingerprint: Fingerprint): Promise<boolean> {
  const found = await stat(path).catch(() => null);
  if (found === null || !found.isFile() || found.size !== media.bytes) return false;
  return isSameContent(media.fingerprint, await fingerprint(path));
}

/**
 * Where a file of the debrief is now: at its path, else by size and fingerprint in the folders given (not deeper).
 * Null when it is not found. Failure `debrief-not-usable` for a path out of the folder without consent.
 */
export async function findMedia(
  folder: string,
  media: MediaRef,
  options: { readonly consent: boolean; readonly searchIn: readonly string[]; readonly fingerprint: Fingerprint },
): Promise<string | null> {
  if (leavesFolder(media.path) && !options.consent) throw new Failure("path-outside-debrief", { path: media.path });
  const path = isAbsolute(media.path) ? media.path : join(folder, media.path);
  if (await isIt(path, media, options.fingerprint)) return path;
  for (const place of options.searchIn) {
    const names = await readdir(place).catch(() => []);
    for (const name of names.sort()) {
      const candidate = join(place, name);
      if (await isIt(candidate, media, options.fingerprint)) return candidate;
    }
  }
  return null;
}
