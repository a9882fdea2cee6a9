// A folder is a name, and names can be given to something else while a program writes. What is written here goes into
// the folder that was opened, wherever its name leads by then.
import { type FileHandle, constants, lstat, mkdir, open, readdir, readlink, realpath, stat } from "node:fs/promises";
import { existsSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import { Failure } from "../contract/failure.ts";

/** Linux names what a process has open (proc(5)): a path that begins there leads to the folder itself, not to its name. */
const BY_HANDLE = process.platform === "linux" && existsSync("/proc/self/fd");

/** What a folder is, beside its name. */
interface Identity {
  readonly device: bigint;
  readonly inode: bigint;
  /** Where it really lies. */
  readonly realPath: string;
}

/** Folders that were opened, by their resolved path. */
const remembered = new Map<string, Identity>();

async function identityOf(folder: string): Promise<Identity> {
  const { dev, ino } = await stat(folder, { bigint: true });
  return { device: dev, inode: ino, realPath: await realpath(folder) };
}

/**
 * What the name stands for now is what was opened, or will be; asked when a debrief is loaded or its folder made. Best
 * effort: what is not there is not remembered.
 */
export async function rememberFolder(folder: string): Promise<void> {
  try {
    remembered.set(resolve(folder), await identityOf(folder));
  } catch {
    remembered.delete(resolve(folder));
  }
}

/** As `rememberFolder`, where nothing is remembered of it yet. */
export async function rememberOnce(folder: string): Promise<void> {
  if (!remembered.has(resolve(folder))) await rememberFolder(folder);
}

/** The remembered folder that a path lies in, the innermost one; else the path itself. */
function rootOf(folder: string): string {
  let best: string | null = null;
  for (const root of remembered.keys()) {
    const inside = folder === root || folder.startsWith(root.endsWith(sep) ? root : root + sep);
    if (inside && (best === null || root.length > best.length)) best = root;
  }
  return best ?? folder;
}

/**
 * Throws `folder-replaced` where a folder is not the one remembered. A drive that was taken away and is back may come as
 * another device, and some file systems (a cloud's drive, say) number a folder anew each time: there the same place, with
 * a document of ours in it, is the same folder. What a link leads to lies elsewhere, and an empty mount point is not it.
 */
async function requireSame(root: string, through: string, now: Identity): Promise<void> {
  const before = remembered.get(root);
  if (before === undefined || (before.device === now.device && before.inode === now.inode)) return;
  const names = before.realPath === now.realPath ? await readdir(through) : [];
  if (!names.some((name) => name === "debrief.json" || name === "athlete.json"))
    throw new Failure("folder-replaced", { folder: root });
  remembered.set(root, now);
}

/** Opens each folder from the root inwards; none of them may be a link. Gives the innermost. */
async function openInwards(root: string, parts: readonly string[], make: boolean): Promise<FileHandle> {
  const { O_RDONLY, O_DIRECTORY, O_NOFOLLOW } = constants;
  let handle = await open(root, O_RDONLY | O_DIRECTORY);
  try {
    const { dev, ino } = await handle.stat({ bigint: true });
    const through = pathOf(handle);
    await requireSame(root, through, { device: dev, inode: ino, realPath: await readlink(through) });
    for (const [index, part] of parts.entries()) {
      const path = join(pathOf(handle), part);
      if (make) await mkdir(path, { mode: 0o700 }).catch(unlessThere);
      const inner = await open(path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW).catch((error: unknown) => {
        const { code } = error as NodeJS.ErrnoException;
        if (code !== "ELOOP" && code !== "ENOTDIR") throw error;
        throw new Failure("folder-with-links", { folder: root, links: [join(...parts.slice(0, index + 1))], more: 0 });
      });
      await handle.close();
      handle = inner;
    }
    return handle;
  } catch (error) {
    await handle.close();
    throw error;
  }
}

function unlessThere(error: unknown): void {
  if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
}

/** Leads there for this process and for those it starts. */
function pathOf(handle: FileHandle): string {
  return `/proc/${process.pid}/fd/${handle.fd}`;
}

/**
 * Gives a folder to write in, rename in and delete in: on Linux by the open folder itself, so that a name which is given
 * to another folder meanwhile changes nothing. Elsewhere by its name, looked at before and after: what was swapped between
 * the two is found, and what was written by then lies there under its name.
 *
 * @param make folders below a remembered one that are missing are made
 * @returns what `use` returns
 * @throws Failure `folder-replaced` where it is not the one remembered, `folder-with-links` where a folder on the way
 * inwards is a link; else what opening it and `use` throw
 */
export async function inFolder<T>(folder: string, use: (through: string) => Promise<T>, make = false): Promise<T> {
  const whole = resolve(folder);
  const root = rootOf(whole);
  const parts = relative(root, whole).split(sep).filter(Boolean);
  if (BY_HANDLE) {
    const handle = await openInwards(root, parts, make);
    try {
      return await use(pathOf(handle));
    } finally {
      await handle.close();
    }
  }
  const look = async (): Promise<void> => {
    if (remembered.has(root)) await requireSame(root, root, await identityOf(root));
    for (const index of parts.keys()) {
      const path = join(root, ...parts.slice(0, index + 1));
      if (make) await mkdir(path, { mode: 0o700 }).catch(unlessThere);
      if ((await lstat(path)).isSymbolicLink())
        throw new Failure("folder-with-links", { folder: root, links: [relative(root, path)], more: 0 });
    }
  };
  await look();
  const made = await use(whole);
  await look();
  return made;
}

/** Makes a folder and those on the way to it; below a remembered one, in that one. */
export async function makeInwards(folder: string): Promise<void> {
  if (rootOf(resolve(folder)) === resolve(folder)) await mkdir(folder, { recursive: true, mode: 0o700 });
  else await inFolder(folder, () => Promise.resolve(), true);
}
