import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import { holdsLock, lockDebrief } from "./debriefLock.edge.ts";
import { filmMark } from "./filmMark.ts";
import { type OpenedDebrief, debriefText, parseDebrief } from "./parseDebrief.ts";
import { rememberFolder } from "../host/heldFolder.edge.ts";
import { NoTextFile, readText } from "../host/readText.edge.ts";
import { refuseLinks } from "../host/refuseLinks.edge.ts";
import { PRIVATE, writeAtomic } from "../host/writeAtomic.edge.ts";

/** Name of the document in a debrief's folder. */
export const DEBRIEF_FILE = "debrief.json";
const BACKUP_FILE = "debrief.json.bak";

/** Reads `debrief.json` of a folder. Failures: `file-unreadable`, `debrief-not-usable`, `folder-with-links`. */
export async function loadDebrief(folder: string): Promise<OpenedDebrief> {
  // From here on what is saved goes into this folder; one that is locked is known already.
  if (!holdsLock(folder)) await rememberFolder(folder);
  await refuseLinks(folder);
  const path = join(folder, DEBRIEF_FILE);
  return parseDebrief(await readDocument(path), path);
}

/** Larger than any debrief, bytes: reading this much takes half a second. */
const MOST_BYTES = 16 * 1024 * 1024;
const TOO_LARGE = { kind: "too big", path: "", most: MOST_BYTES } as const;

async function readDocument(path: string): Promise<string> {
  try {
    return await readText(path, MOST_BYTES);
  } catch (error) {
    if (error instanceof NoTextFile && error.why === "too large")
      throw new Failure("debrief-unusable", { fileName: path, fault: TOO_LARGE });
    throw new Failure("debrief-unreadable", { path }, error);
  }
}

/** `debrief.schema-1.json` for a document of schema 1; with a number where that is another one. */
async function freeCopyName(folder: string, schema: number, text: string): Promise<string> {
  for (let n = 1; ; n++) {
    const name = `debrief.schema-${schema}${n === 1 ? "" : `-${n}`}.json`;
    const there = await readText(join(folder, name)).catch(() => null);
    if (there === null || there === text) return name;
  }
}

/**
 * Saves a document whose revision is the one it was loaded with, and gives it back with the next. The one before
 * stays as `.bak`, one of an older schema also as `debrief.schema-N.json`. Failures: `debrief-not-usable` when someone
 * else saved in between (nothing is overwritten), or where what is saved could not be opened again,
 * `debrief-open-elsewhere` where another program has it open and this one
 * does not hold its lock, `folder-with-links`, `disk-full`, `output-not-writable`.
 */
export async function saveDebrief(folder: string, document: DebriefDocument): Promise<DebriefDocument> {
  await refuseLinks(folder);
  if (holdsLock(folder)) return save(folder, document);
  const lock = await lockDebrief(folder);
  // By itself: the folder can't be written, which the save will say.
  if (!lock.held && lock.by.pid !== process.pid)
    throw new Failure("debrief-open-elsewhere", { folder, pid: lock.by.pid, host: lock.by.host });
  try {
    return await save(folder, document);
  } finally {
    if (lock.held) await lock.release();
  }
}

/** Refuses by name what could be written and never opened again, before anything on disk changes. */
function requireOpenable(text: string, path: string): void {
  try {
    parseDebrief(text, path);
  } catch (error) {
    if (error instanceof Failure && error.notice.code === "debrief-unusable")
      throw new Failure("debrief-not-savable", error.notice.facts, error);
    throw error;
  }
}

async function save(folder: string, document: DebriefDocument): Promise<DebriefDocument> {
  const path = join(folder, DEBRIEF_FILE);
  const onDisk = await readText(path).catch(() => null);
  if (onDisk !== null) {
    const before = parseDebrief(onDisk, path);
    if (before.readOnly !== null) throw new Failure("debrief-newer-kept", { fileName: path });
    if (before.document.revision !== document.revision) throw new Failure("debrief-changed-elsewhere", { path });
    if (before.schema !== document.schema)
      await writeAtomic(join(folder, await freeCopyName(folder, before.schema, onDisk)), onDisk, PRIVATE);
  }
  const made = document.filmSetBy === "computed" && document.film !== null ? filmMark(document.film) : null;
  const saved = { ...document, revision: document.revision + 1, filmMark: made };
  const text = debriefText(saved);
  requireOpenable(text, path);
  // Whole or not at all: on a full disk the copy before this one stays.
  if (onDisk !== null) await writeAtomic(join(folder, BACKUP_FILE), onDisk, PRIVATE);
  await writeAtomic(path, text, PRIVATE);
  return saved;
}

export { lockDebrief } from "./debriefLock.edge.ts";
