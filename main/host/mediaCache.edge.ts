import { mkdir, readdir, rm, stat, utimes } from "node:fs/promises";
import { join } from "node:path";
import { cacheFolder } from "./cacheFolder.edge.ts";

/** Proxies and small pictures together may take so much, bytes; what was used longest ago goes first. */
export const MEDIA_CACHE_LIMIT_BYTES = 8e9;

/** Where proxies lie: `<fingerprint>-<first frame>-<frames>.mp4`. */
export function proxyPath(fingerprint: string, firstFrame: number, frames: number): string {
  return join(cacheFolder(), "proxies", `${fingerprint}-${firstFrame}-${frames}.mp4`);
}

/** Where the small pictures of a clip lie. */
export function filmstripFolder(fingerprint: string): string {
  return join(cacheFolder(), "filmstrips", fingerprint);
}

/** Says that a file or folder of the cache is in use now, so that it goes last. */
export async function touch(path: string): Promise<void> {
  const now = new Date();
  await utimes(path, now, now).catch(() => undefined);
}

interface Entry {
  readonly path: string;
  readonly bytes: number;
  readonly usedMs: number;
}

async function bytesUnder(path: string): Promise<number> {
  const found = await stat(path).catch(() => null);
  if (found === null) return 0;
  if (!found.isDirectory()) return found.size;
  let sum = 0;
  for (const name of await readdir(path).catch(() => [])) sum += await bytesUnder(join(path, name));
  return sum;
}

async function entries(): Promise<Entry[]> {
  const found: Entry[] = [];
  for (const room of ["proxies", "filmstrips"]) {
    const folder = join(cacheFolder(), room);
    for (const name of await readdir(folder).catch(() => [])) {
      const path = join(folder, name);
      const { mtimeMs } = await stat(path).catch(() => ({ mtimeMs: 0 }));
      found.push({ path, bytes: await bytesUnder(path), usedMs: mtimeMs });
    }
  }
  return found.sort((a, b) => b.usedMs - a.usedMs);
}

/** Keeps proxies and small pictures within the limit; what is in use stays whatever it takes. */
export async function pruneMediaCache(inUse: ReadonlySet<string>, limitBytes = MEDIA_CACHE_LIMIT_BYTES): Promise<void> {
  await mkdir(cacheFolder(), { recursive: true, mode: 0o700 }).catch(() => undefined);
  let total = 0;
  for (const { path, bytes } of await entries()) {
    total += bytes;
    if (total > limitBytes && !inUse.has(path)) {
      await rm(path, { recursive: true, force: true });
      total -= bytes;
    }
  }
}

/** Everything in the cache folder, bytes. */
export function cacheBytes(): Promise<number> {
  return bytesUnder(cacheFolder());
}
