import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Film, FilmItem } from "../contract/film.ts";
import type { Tools } from "../contract/tools.ts";
import { leavesFolder } from "../debrief/mediaPath.ts";
import { soundLengthS } from "../footage/soundLength.edge.ts";

/**
 * The film with the length of every spoken comment as its file now is. Comments lie below the debrief's folder; one
 * elsewhere needs consent. Failures: `debrief-not-usable`, `file-unreadable`.
 */
export async function commentLengths(film: Film, folder: string, tools: Tools, consent: boolean): Promise<Film> {
  const items: FilmItem[] = [];
  for (const item of film.items) {
    if (item.commentPath === null) {
      items.push(item);
      continue;
    }
    if (leavesFolder(item.commentPath) && !consent)
      throw new Failure(
        "debrief-not-usable",
        `The debrief points at ${item.commentPath}, outside its folder.`,
        "Agree to open it if you trust who made the debrief.",
      );
    items.push({ ...item, commentS: await soundLengthS(join(folder, item.commentPath), tools) });
  }
  return { ...film, items };
}
