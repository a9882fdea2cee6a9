import { createHash, randomBytes } from "node:crypto";
import type { PathId } from "../../contract/debriefApi.ts";
import { Failure } from "../../contract/failure.ts";

/**
 * The paths that the program has shown to the window, by id. The window never sees or sends a path: it names ids, and
 * only ids that this book gave are known. The same path has the same id for as long as the program runs.
 */
export interface PathBook {
  idOf(path: string): PathId;
  /** Failure `file-unreadable` for an id that was never given. */
  pathOf(id: PathId): string;
}

/** An empty book with a secret of its own: ids can't be guessed from paths. */
export function makePathBook(): PathBook {
  const secret = randomBytes(16);
  const paths = new Map<PathId, string>();
  return {
    idOf(path) {
      const id = createHash("sha256").update(secret).update(path).digest("hex").slice(0, 32);
      paths.set(id, path);
      return id;
    },
    pathOf(id) {
      const path = paths.get(id);
      if (path === undefined) throw new Failure("desk-file-not-listed", {});
      return path;
    },
  };
}
