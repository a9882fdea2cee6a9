import { readdir } from "node:fs/promises";
import { join, relative } from "node:path";
import { Failure } from "../contract/failure.ts";

/** So many links are named; the rest are counted. */
const NAMED = 5;

/** Links below a folder, by their path from there; links are never followed, and what can't be listed holds none. */
async function linksBelow(folder: string, root: string): Promise<string[]> {
  const found: string[] = [];
  for (const entry of await readdir(folder, { withFileTypes: true }).catch(() => [])) {
    const path = join(folder, entry.name);
    if (entry.isSymbolicLink()) found.push(relative(root, path));
    else if (entry.isDirectory()) found.push(...(await linksBelow(path, root)));
  }
  return found;
}

/**
 * A folder that may come from a stranger holds no symbolic links, so that nothing read, written or deleted in it lies
 * elsewhere. Asked before anything is done in one: when a debrief is loaded, locked and saved. The folder itself may be
 * reached by a link.
 *
 * @param names only these entries of the folder are looked at, for a folder that is the person's own
 * @throws Failure `folder-with-links`, which names them
 */
export async function refuseLinks(folder: string, names: readonly string[] | null = null): Promise<void> {
  const entries = names === null ? null : await readdir(folder, { withFileTypes: true }).catch(() => []);
  const links =
    entries === null
      ? await linksBelow(folder, folder)
      : entries.filter((one) => one.isSymbolicLink() && names!.includes(one.name)).map(({ name }) => name);
  if (links.length === 0) return;
  links.sort();
  throw new Failure("folder-with-links", {
    folder,
    links: links.slice(0, NAMED),
    more: Math.max(0, links.length - NAMED),
  });
}
