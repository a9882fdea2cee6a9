import { createHash, randomBytes } from "node:crypto";
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { hostname, tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";

/** Files and folders for a while carry whose they are, so that what a killed program left is known as such. */
const MARK = /\.(\d+)\.([0-9a-f]{4})[0-9a-f]{8}\.part(?:\..*)?$/;
const TEMP_FOLDER = /^followcar-[a-z]+-(\d+)-([0-9a-f]{4})-/;

/** This computer among those that share a folder. */
function hostTag(): string {
  return createHash("sha256").update(hostname()).digest("hex").slice(0, 4);
}

/** True while a process of this user or another runs under the number. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && "code" in error && error.code === "EPERM";
  }
}

/** A name beside `path`, of no other writer and not to be guessed: nobody can have laid a link there. */
export function unfinishedName(path: string): string {
  const tag = `${hostTag()}${randomBytes(4).toString("hex")}`;
  return join(dirname(path), `.${basename(path)}.${process.pid}.${tag}.part`);
}

async function removeMarked(folder: string, mark: RegExp, prefix: string): Promise<void> {
  for (const name of await readdir(folder).catch(() => [])) {
    if (!name.startsWith(prefix)) continue;
    const found = mark.exec(name);
    if (found === null || found[2] !== hostTag() || isAlive(Number(found[1]))) continue;
    await rm(join(folder, name), { recursive: true, force: true }).catch(() => undefined);
  }
}

/** Removes what programs of this computer that are gone left unfinished in a folder; of `name` alone where it is given. */
export function clearUnfinished(folder: string, name: string | null = null): Promise<void> {
  return removeMarked(folder, MARK, name === null ? "." : `.${name}.`);
}

/** As `clearUnfinished` for a folder and all below it; links are not followed. */
export async function clearUnfinishedBelow(folder: string): Promise<void> {
  await clearUnfinished(folder);
  for (const entry of await readdir(folder, { withFileTypes: true }).catch(() => []))
    if (entry.isDirectory()) await clearUnfinishedBelow(join(folder, entry.name));
}

/** Done when the program starts: what killed ones left in the system's temporary folder and in the caches goes. */
export async function clearLeftBehind(cacheFolder: string): Promise<void> {
  await removeMarked(tmpdir(), TEMP_FOLDER, "followcar-");
  await clearUnfinishedBelow(cacheFolder);
}

/** Makes a folder for a while in the system's temporary one, and clears what killed programs left of the kind there. @param kind a word, `a` to `z` */
export async function temporaryFolder(kind: string): Promise<string> {
  await removeMarked(tmpdir(), TEMP_FOLDER, `followcar-${kind}-`);
  return mkdtemp(join(tmpdir(), `followcar-${kind}-${process.pid}-${hostTag()}-`));
}
