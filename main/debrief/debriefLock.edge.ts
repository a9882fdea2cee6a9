import { readFileSync } from "node:fs";
import { link, open, rm, stat, writeFile } from "node:fs/promises";
import { hostname } from "node:os";
import { join, resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import { inFolder, rememberOnce } from "../host/heldFolder.edge.ts";
import { clearUnfinishedBelow, isAlive, unfinishedName } from "../host/leftovers.edge.ts";
import { refuseLinks } from "../host/refuseLinks.edge.ts";
import { readText } from "../host/readText.edge.ts";

const LOCK_FILE = "debrief.lock";
/** Held for moments, by whoever takes a stale lock over: one at a time. */
const TAKING_FILE = "debrief.lock.taking";

/** A lock is renewed so often … */
const RENEWED_MS = 20_000;
/** … and one of a process that can't be looked up is stale when it was not renewed for so long. */
const STALE_MS = 120_000;
/** Taking over lasts milliseconds: what is older was left by a crash. */
const TAKING_STALE_MS = 10_000;
const TRIES = 100;
const PAUSE_MS = 30;

/** Who has a debrief open. */
interface LockOwner {
  readonly pid: number;
  readonly host: string;
  /** When the lock was taken, ISO. */
  readonly since: string;
  /** When the process began, as the system counts it; null where it does not tell: a number may be used again. */
  readonly began?: string | null;
}

/** A lock that is ours, or who has it: this process itself where the folder can't be written. */
export type DebriefLock =
  { readonly held: true; readonly release: () => Promise<void> } | { readonly held: false; readonly by: LockOwner };

const heldHere = new Set<string>();

/** True while this process holds the lock of a folder. */
export function holdsLock(folder: string): boolean {
  return heldHere.has(resolve(folder));
}

/** Boot and clock tick at which a process began (Linux: proc(5), field 22 of stat); null elsewhere. */
function began(pid: number): string | null {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1)?.split(" ") ?? [];
    return `${readFileSync("/proc/sys/kernel/random/boot_id", "utf8").trim()} ${fields[19]}`;
  } catch {
    return null;
  }
}

async function lockOwner(path: string): Promise<LockOwner | null> {
  try {
    const owner: unknown = JSON.parse(await readText(path));
    if (typeof owner !== "object" || owner === null) return null;
    const { pid, host, since, began: at } = owner as Partial<LockOwner>;
    return typeof pid === "number" && typeof host === "string"
      ? { pid, host, since: String(since), began: typeof at === "string" ? at : null }
      : null;
  } catch {
    return null;
  }
}

/** How far a file's time is from now, by the clock of the disk it lies on, ms, either way; null: it is gone. */
async function ageMs(path: string): Promise<number | null> {
  const probe = unfinishedName(path);
  try {
    const { mtimeMs } = await stat(path);
    await writeFile(probe, "", { flag: "wx" });
    return Math.abs((await stat(probe)).mtimeMs - mtimeMs);
  } catch {
    return null;
  } finally {
    await rm(probe, { force: true });
  }
}

async function isStale(path: string, owner: LockOwner | null): Promise<boolean> {
  if (owner?.host === hostname()) {
    if (!isAlive(owner.pid)) return true;
    const now = began(owner.pid);
    if (now !== null && owner.began) return now !== owner.began;
  }
  return ((await ageMs(path)) ?? 0) > STALE_MS;
}

function same(a: LockOwner | null, b: LockOwner | null): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** Puts a file there with its content at once, or not at all. False: one is there. */
async function placeWhole(path: string, text: string): Promise<boolean> {
  const whole = unfinishedName(path);
  const there = (error: unknown): boolean => error instanceof Error && "code" in error && error.code === "EEXIST";
  try {
    await writeFile(whole, text, { flag: "wx" });
    try {
      await link(whole, path);
    } catch (error) {
      if (there(error)) return false;
      // A disk without hard links.
      await writeFile(path, text, { flag: "wx" });
    }
    return true;
  } catch (error) {
    if (there(error)) return false;
    throw error;
  } finally {
    await rm(whole, { force: true });
  }
}

/** Removes a stale lock if it is still the one that was judged; never that of someone who was quicker. */
async function takeAway(folder: string, path: string, stale: LockOwner | null): Promise<void> {
  const taking = join(folder, TAKING_FILE);
  if (!(await placeWhole(taking, String(process.pid)))) {
    if (((await ageMs(taking)) ?? 0) > TAKING_STALE_MS) await rm(taking, { force: true });
    return;
  }
  try {
    if (same(await lockOwner(path), stale)) await rm(path, { force: true });
  } finally {
    await rm(taking, { force: true });
  }
}

/**
 * Takes `debrief.lock` of a folder, so that a second window opens it read-only. A lock is stale, and taken over, when its
 * process is gone from this computer (another under the same number is another), or, where that can't be looked up, when
 * it was not renewed for two minutes. Of any number that ask at once, one gets it, and clears away what a crash left.
 * Failures `folder-with-links`, `folder-replaced`.
 */
export async function lockDebrief(folder: string): Promise<DebriefLock> {
  await refuseLinks(folder);
  await rememberOnce(folder);
  const me: LockOwner = {
    pid: process.pid,
    host: hostname(),
    since: new Date().toISOString(),
    began: began(process.pid),
  };
  const by = await inFolder(folder, (through) => takeLock(through, me)).catch((error: unknown) => {
    if (error instanceof Failure) throw error;
    return me;
  });
  return by === null ? held(folder, me) : { held: false, by };
}

/** Null: it is ours; else who has it, `me` where the folder can't be written. */
async function takeLock(folder: string, me: LockOwner): Promise<LockOwner | null> {
  const path = join(folder, LOCK_FILE);
  for (let attempt = 0; attempt < TRIES; attempt++) {
    try {
      if (await placeWhole(path, JSON.stringify(me))) {
        await clearUnfinishedBelow(folder);
        return null;
      }
    } catch {
      return me;
    }
    const owner = await lockOwner(path);
    if (!(await isStale(path, owner))) {
      if (owner !== null) return owner;
    } else await takeAway(folder, path, owner);
    await new Promise((done) => setTimeout(done, PAUSE_MS));
  }
  return (await lockOwner(path)) ?? me;
}

/** Gives a lock the time of the disk's own clock, by which its age is told: ours may be wrong. Its first byte is that of every lock. */
async function touch(path: string): Promise<void> {
  const file = await open(path, "r+");
  try {
    await file.write("{", 0);
  } finally {
    await file.close();
  }
}

function held(folder: string, me: LockOwner): DebriefLock {
  const key = resolve(folder);
  /** What is done with a lock that is still ours; a folder that went has none. */
  const withOurs = (use: (path: string) => Promise<void>): Promise<void> =>
    inFolder(folder, async (through) => {
      const path = join(through, LOCK_FILE);
      if (same(await lockOwner(path), me)) await use(path);
    }).catch(() => undefined);
  heldHere.add(key);
  const renew = setInterval(() => void withOurs(touch), RENEWED_MS);
  renew.unref();
  return {
    held: true,
    release: async () => {
      clearInterval(renew);
      heldHere.delete(key);
      await withOurs((path) => rm(path, { force: true }));
    },
  };
}
