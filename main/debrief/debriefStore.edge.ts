import { readFile, rm, writeFile } from "node:fs/promises";
import { hostname } from "node:os";
import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import { filmMark } from "./filmMark.ts";
import { type OpenedDebrief, debriefText, parseDebrief } from "./parseDebrief.ts";
import { refuseLinks } from "../host/refuseLinks.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";

/** Name of the document in a debrief's folder. */
export const DEBRIEF_FILE = "debrief.json";
const BACKUP_FILE = "debrief.json.bak";
const LOCK_FILE = "debrief.lock";

/** Reads `debrief.json` of a folder. Failures: `file-unreadable`, `debrief-not-usable`, `folder-with-links`. */
export async function loadDebrief(folder: string): Promise<OpenedDebrief> {
  await refuseLinks(folder);
  const path = join(folder, DEBRIEF_FILE);
  let text: string;
  try {
    text = await readFile(path, "utf8");
  } catch (error) {
    throw new Failure(
      "file-unreadable",
      `${path} could not be read.`,
      "Name the folder of a debrief, the one that holds debrief.json.",
      error,
    );
  }
  return parseDebrief(text, path);
}

/** `debrief.schema-1.json` for a document of schema 1; with a number where that is another one. */
async function freeCopyName(folder: string, schema: number, text: string): Promise<string> {
  for (let n = 1; ; n++) {
    const name = `debrief.schema-${schema}${n === 1 ? "" : `-${n}`}.json`;
    const there = await readFile(join(folder, name), "utf8").catch(() => null);
    if (there === null || there === text) return name;
  }
}

/**
 * Saves a document whose revision is the one it was loaded with, and gives it back with the next. The one before
 * stays as `.bak`, one of an older schema also as `debrief.schema-N.json`. Failures: `debrief-not-usable` when someone
 * else saved in between (nothing is overwritten), `folder-with-links`, `disk-full`, `output-not-writable`.
 */
export async function saveDebrief(folder: string, document: DebriefDocument): Promise<DebriefDocument> {
  await refuseLinks(folder);
  const path = join(folder, DEBRIEF_FILE);
  const onDisk = await readFile(path, "utf8").catch(() => null);
  if (onDisk !== null) {
    const before = parseDebrief(onDisk, path);
    if (before.readOnly !== null)
      throw new Failure(
        "debrief-not-usable",
        `${before.readOnly}: it was not overwritten.`,
        "Update this program, or save to another folder.",
      );
    if (before.document.revision !== document.revision)
      throw new Failure(
        "debrief-not-usable",
        `${path} was changed by another window since it was opened.`,
        "Open it again, or save to another folder.",
      );
    if (before.schema !== document.schema)
      await writeAtomic(join(folder, await freeCopyName(folder, before.schema, onDisk)), onDisk);
    // Whole or not at all: on a full disk the copy before this one stays.
    await writeAtomic(join(folder, BACKUP_FILE), onDisk);
  }
  const made = document.filmSetBy === "computed" && document.film !== null ? filmMark(document.film) : null;
  const saved = { ...document, revision: document.revision + 1, filmMark: made };
  await writeAtomic(path, debriefText(saved));
  return saved;
}

interface LockOwner {
  readonly pid: number;
  readonly host: string;
  /** When the lock was taken, ISO. */
  readonly since: string;
}

/** A lock that is ours, or who has it. */
export type DebriefLock =
  | { readonly held: true; readonly release: () => Promise<void> }
  | { readonly held: false; readonly by: { readonly pid: number; readonly host: string; readonly since: string } };

function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && "code" in error && error.code === "EPERM";
  }
}

async function lockOwner(path: string): Promise<LockOwner | null> {
  try {
    const owner: unknown = JSON.parse(await readFile(path, "utf8"));
    if (typeof owner !== "object" || owner === null) return null;
    const { pid, host, since } = owner as Partial<LockOwner>;
    return typeof pid === "number" && typeof host === "string" ? { pid, host, since: String(since) } : null;
  } catch {
    return null;
  }
}

/**
 * Takes `debrief.lock` of a folder, so that a second window opens it read-only. A lock is stale, and taken over, when
 * its process is dead on this host or when it can't be read. A folder that can't be written gives no lock either: its
 * owner is then this process. Failure `folder-with-links`.
 */
export async function lockDebrief(folder: string): Promise<DebriefLock> {
  await refuseLinks(folder);
  const path = join(folder, LOCK_FILE);
  const me: LockOwner = { pid: process.pid, host: hostname(), since: new Date().toISOString() };
  for (let attempt = 0; attempt < 3; attempt++) {
    try {
      await writeFile(path, JSON.stringify(me), { flag: "wx" });
      return {
        held: true,
        release: async () => {
          const owner = await lockOwner(path);
          if (owner?.pid === me.pid && owner.since === me.since) await rm(path, { force: true });
        },
      };
    } catch (error) {
      if (!(error instanceof Error && "code" in error && error.code === "EEXIST")) return { held: false, by: me };
    }
    const owner = await lockOwner(path);
    if (owner !== null && (owner.host !== me.host || alive(owner.pid))) return { held: false, by: owner };
    await rm(path, { force: true });
  }
  return { held: false, by: (await lockOwner(path)) ?? me };
}
