import type { DebriefDocument, MediaRef } from "../contract/debrief.ts";
import type { Film, FilmItem } from "../contract/film.ts";
import type { Anchor } from "../contract/lineup.ts";
import { isSameContent } from "./sameContent.ts";

/** What a person decided in an earlier run in the same folder, with clips under the numbers they have now. */
export interface CarriedOver {
  readonly anchors: readonly Anchor[];
  /** The coach's own film; null where the program had picked it. */
  readonly film: Film | null;
}

/** Clips are known again by their content: their numbers follow the order in which they were named. */
export function carryOver(earlier: DebriefDocument | null, media: readonly MediaRef[]): CarriedOver {
  if (earlier === null) return { anchors: [], film: null };
  const now = (clipId: string): string | null => {
    const before = earlier.media.find(({ id }) => id === clipId);
    if (before === undefined) return null;
    return media.find((one) => one.kind === "clip" && isSameContent(before.fingerprint, one.fingerprint))?.id ?? null;
  };
  const anchors = earlier.anchors.flatMap((anchor): Anchor[] => {
    const clipId = now(anchor.clipId);
    return clipId === null ? [] : [{ ...anchor, clipId }];
  });
  if (earlier.film === null || earlier.filmSetBy === "computed") return { anchors, film: null };
  const items = earlier.film.items.map((item): FilmItem => {
    if (item.type === "shot") return { ...item, clipId: now(item.clipId) ?? item.clipId };
    if (item.card.kind !== "pair") return item;
    const [first, second] = item.card.sides.map(({ footage, ...side }) => ({
      ...side,
      footage: footage && { ...footage, clipId: now(footage.clipId) ?? footage.clipId },
    }));
    return { ...item, card: { ...item.card, sides: [first!, second!] } };
  });
  return { anchors, film: { ...earlier.film, items } };
}
