import { existsSync } from "node:fs";
import { readdir, realpath, stat } from "node:fs/promises";
import { basename, dirname, join, relative, isAbsolute } from "node:path";
import type { Listing } from "../../contract/debriefApi.ts";
import { Failure } from "../../contract/failure.ts";
import type { PathBook } from "../desk/pathBook.ts";
import type { Picker } from "../surroundings.ts";
import { kindOfFile } from "./kindOfFile.ts";
import { volumes, type Place } from "./volumes.ts";

/** Files dropped on the window, whose paths only the shell knows: token to path. Each token is good once. */
export interface Drops {
  take(token: string): string | null;
}

type Entry = Listing["entries"][number];

/** A folder with more entries than this is cut short. */
const MOST_ENTRIES = 4000;
/** Files looked at in one go. */
const AT_ONCE = 32;
/** Folders with rides or clips that were opened last, kept while the program runs. */
const MOST_RECENT = 4;

/**
 * The in-app picker. It goes no further than the home folder and mounted volumes; links are followed to where they
 * lead, and what leads outside is not listed. `places` is handed in by tests.
 */
export function makePicker(
  paths: PathBook,
  drops: Drops | null,
  places: () => Promise<readonly Place[]> = volumes,
): Picker {
  let recent: readonly string[] = [];

  const roots = async (): Promise<readonly string[]> => {
    const all = await Promise.all((await places()).map(({ path }) => realpath(path).catch(() => null)));
    return all.filter((path) => path !== null);
  };

  const entryOf = async (folder: string, name: string, allowed: readonly string[]): Promise<Entry | null> => {
    const path = await realpath(join(folder, name)).catch(() => null);
    if (path === null || !isBelow(path, allowed)) return null;
    const facts = await stat(path).catch(() => null);
    if (facts === null || !(facts.isFile() || facts.isDirectory())) return null;
    const kind = facts.isDirectory()
      ? existsSync(join(path, "debrief.json"))
        ? "debrief"
        : "folder"
      : await kindOfFile(path);
    return {
      id: paths.idOf(path),
      name,
      kind,
      bytes: facts.isDirectory() ? 0 : facts.size,
      modifiedUtcMs: Math.round(facts.mtimeMs),
    };
  };

  return {
    async places() {
      const fixed = await places();
      const last = recent.filter((path) => !fixed.some((place) => place.path === path));
      return [...fixed, ...last.map((path) => ({ path, name: basename(path) }))].map(({ path, name }) => ({
        id: paths.idOf(path),
        name,
      }));
    },

    async listFolder(id) {
      const shown = paths.pathOf(id);
      const folder = await realpath(shown).catch(() => null);
      const allowed = await roots();
      if (folder === null || !isBelow(folder, allowed))
        throw new Failure("folder-out-of-bounds", { name: basename(shown) });
      const names = await readdir(folder).catch(() => null);
      if (names === null) throw new Failure("folder-unreadable", { folder });
      const visible = names.filter((name) => !name.startsWith(".")).slice(0, MOST_ENTRIES);
      const entries: Entry[] = [];
      for (let from = 0; from < visible.length; from += AT_ONCE) {
        const some = await Promise.all(
          visible.slice(from, from + AT_ONCE).map((name) => entryOf(folder, name, allowed)),
        );
        entries.push(...some.filter((entry) => entry !== null));
      }
      if (entries.some(({ kind }) => kind === "ride" || kind === "clip"))
        recent = [folder, ...recent.filter((path) => path !== folder)].slice(0, MOST_RECENT);
      const parent = dirname(folder);
      return {
        id: paths.idOf(folder),
        parentId: parent !== folder && isBelow(parent, allowed) ? paths.idOf(parent) : null,
        path: folder,
        entries: entries.sort(byKindAndName),
      };
    },

    async idsOfDropped(tokens) {
      if (drops === null) throw new Failure("drops-unseen", {});
      const found = tokens.map((token) => drops.take(token));
      if (found.some((path) => path === null)) throw new Failure("drop-lost", {});
      const real = await Promise.all(found.map((path) => realpath(path!).catch(() => path!)));
      return real.map((path) => paths.idOf(path));
    },
  };
}

/** True where `path` is one of the folders or lies below one. */
function isBelow(path: string, folders: readonly string[]): boolean {
  return folders.some((folder) => {
    const way = relative(folder, path);
    return (
      way === "" ||
      (way !== ".." && !way.startsWith(`..${process.platform === "win32" ? "\\" : "/"}`) && !isAbsolute(way))
    );
  });
}

function byKindAndName(a: Entry, b: Entry): number {
  const rank = (entry: Entry) => (entry.kind === "folder" ? 0 : 1);
  return rank(a) - rank(b) || a.name.localeCompare(b.name, "en", { numeric: true, sensitivity: "base" });
}
