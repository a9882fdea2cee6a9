import { Failure } from "../contract/failure.ts";
import type { Film, FilmItem } from "../contract/film.ts";
import { leavesFolder } from "./mediaPath.ts";

/**
 * The film with the length of every spoken comment as its file now is. Comments lie below the debrief's folder; one
 * elsewhere needs consent. Failure `debrief-not-usable`, and what measuring one gives.
 *
 * @param lengthS length of the sound in a file named from the debrief's folder, s
 */
export async function commentLengths(
  film: Film,
  consent: boolean,
  lengthS: (path: string) => Promise<number>,
): Promise<Film> {
  const items: FilmItem[] = [];
  for (const item of film.items) {
    if (item.commentPath === null) {
      items.push(item);
      continue;
    }
    if (leavesFolder(item.commentPath) && !consent)
      throw new Failure("path-outside-debrief", { path: item.commentPath });
    items.push({ ...item, commentS: await lengthS(item.commentPath) });
  }
  return { ...film, items };
}
