import { z } from "zod";
import type { Film } from "../contract/film.ts";

/** Kinds of moments by the names that earlier versions wrote. */
const FORMER: Readonly<Record<string, string>> = { hardUpCoastOver: "riseThenOff" };
const NOW: ReadonlyMap<string, string> = new Map(Object.entries(FORMER).map(([former, now]) => [now, former]));

/** A moment's kind in a file, by its name of today. */
export const momentKind = z
  .string()
  .max(20_000)
  .transform((kind) => FORMER[kind] ?? kind);

/** A film as an earlier version would have written it: by that its mark tells whether somebody changed it. */
export function withFormerKinds(film: Film): Film {
  const items = film.items.map((item) =>
    item.momentKey === undefined
      ? item
      : { ...item, momentKey: { ...item.momentKey, kind: NOW.get(item.momentKey.kind) ?? item.momentKey.kind } },
  );
  return { ...film, items };
}
