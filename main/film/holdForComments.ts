import type { Film, FilmItem } from "../contract/film.ts";
import { shotLengthS } from "../../overlay/instant/shotTime.ts";

/** After the last word the picture stands for a breath, s; common practice, no source. */
const BREATH_S = 0.4;

/**
 * The film with every item long enough for its spoken comment: a shot holds its last picture until the sentence has
 * ended, a card stands until then. Speech begins once the item before has faded out and ends before the next fades in.
 * Items whose `commentS` is not known are left as they are.
 */
export function holdForComments(film: Film): Film {
  const frameS = film.frameRate.den / film.frameRate.num;
  const items = film.items.map((item, at): FilmItem => {
    const next = film.items[at + 1];
    const spokenS =
      item.commentPath === null || item.commentS === undefined
        ? 0
        : item.crossfadeS + item.commentS + BREATH_S + (next?.crossfadeS ?? 0);
    if (item.type === "card")
      return spokenS <= item.durationS ? item : { ...item, durationS: Math.ceil(spokenS / frameS - 1e-6) * frameS };
    // What an earlier pass held is reckoned anew.
    const freezes = item.freezes.filter((freeze) => freeze.forComment !== true);
    const missingS = Math.ceil((spokenS - shotLengthS({ ...item, freezes })) / frameS - 1e-6) * frameS;
    if (missingS <= 0) return freezes.length === item.freezes.length ? item : { ...item, freezes };
    const atMediaS = Math.max(item.mediaStartS, item.mediaEndS - item.speed * frameS);
    return { ...item, freezes: [...freezes, { atMediaS, durationS: missingS, forComment: true }] };
  });
  return { ...film, items };
}
