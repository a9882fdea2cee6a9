import type { Film, Shot } from "../../main/contract/film.ts";
import type { Cover } from "../../main/contract/framing.ts";
import type { Span } from "../../main/contract/ride.ts";
import { coverKeyAt } from "./coverBoxes.ts";

/** Frames come on a little before and after a span, s. */
const NEAR_S = 0.2;

/**
 * What is hidden of a clip wherever a film shows it: what one shot covers, another shot of the same seconds and a half of
 * a pair cover as well.
 *
 * @param own the shot that is shown; null: a half of a pair @param span of the clip that is shown, s
 */
export function coversOf(film: Pick<Film, "items">, clipId: string, own: Shot | null, span: Span): readonly Cover[] {
  const others = film.items.flatMap((item) =>
    item.type === "shot" && item.clipId === clipId && item.id !== own?.id ? [item] : [],
  );
  const theirs = others.flatMap((shot) => (shot.covers ?? []).flatMap((cover) => withinShot(cover, shot)));
  const near = theirs.filter(
    ({ keys }) => keys[0]!.atMediaS < span.endS + NEAR_S && keys.at(-1)!.atMediaS > span.startS - NEAR_S,
  );
  return [...(own?.covers ?? []), ...near];
}

/** A film that still hides what the one before hid of the seconds that it shows: a shot that goes leaves its covers to the others. */
export function coveredAsBefore<T extends Pick<Film, "items">>(film: T, before: Pick<Film, "items">): T {
  const now = new Map(film.items.map((item) => [item.id, item]));
  const lost = before.items.filter((item) => {
    const same = now.get(item.id);
    return item.type === "shot" && item.covers !== undefined && (same?.type !== "shot" || same.covers === undefined);
  });
  if (lost.length === 0) return film;
  const items = film.items.map((item) => {
    if (item.type !== "shot") return item;
    const span = { startS: item.mediaStartS, endS: item.mediaEndS };
    const covers = coversOf({ items: lost }, item.clipId, null, span);
    return covers.length === 0 ? item : { ...item, covers: [...(item.covers ?? []), ...covers] };
  });
  return items.every((item, k) => item === film.items[k]) ? film : { ...film, items };
}

/** As long as its own shot is: past its cut another picture may stand where the box was. */
function withinShot(cover: Cover, shot: Shot): Cover[] {
  const { keys } = cover;
  const alone = keys.length === 1;
  const startS = alone ? shot.mediaStartS : Math.max(shot.mediaStartS, keys[0]!.atMediaS);
  const endS = alone ? shot.mediaEndS : Math.min(shot.mediaEndS, keys.at(-1)!.atMediaS);
  if (endS <= startS) return [];
  const inside = keys.filter(({ atMediaS }) => atMediaS > startS && atMediaS < endS);
  return [{ ...cover, keys: [coverKeyAt(keys, startS), ...inside, coverKeyAt(keys, endS)] }];
}
