import type { FilmItem, Shot } from "../../main/contract/film.ts";
import { keptInPlace, withPage } from "./filmEdits.ts";

type Items = readonly FilmItem[];

/** What a cut, another speed or a hold changes; captions and drawings follow it. */
const CUT = ["mediaStartS", "mediaEndS", "speed", "freezes", "pageStartS", "pageEndS"] as const;
const FOLLOWS = ["captions", "drawings"] as const;

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/**
 * A film's parts as wished for, on the film as it is now: what was changed since the person saw it stays, part by part;
 * what was written on a shot stays at its instants of the clip where the shot was cut meanwhile, and the other way
 * round. Null where both changed the same.
 */
export function mergedItems(seen: Items, now: Items, wished: Items): Items | null {
  const order = oneChange(idsOf(seen), idsOf(now), idsOf(wished));
  if (order === null) return null;
  const merged: FilmItem[] = [];
  for (const id of order) {
    const [before, current, next] = [seen, now, wished].map((items) => items.find((one) => one.id === id));
    const item = before === undefined ? (next ?? current) : mergedItem(before, current ?? before, next ?? before);
    if (item === undefined || item === null) return null;
    merged.push(item);
  }
  // What was changed in a part that is gone since has no place any more.
  const lost = wished.some(({ id }) => !order.includes(id) && !same(find(wished, id), find(seen, id)));
  return lost ? null : merged;
}

const idsOf = (items: Items): readonly string[] => items.map(({ id }) => id);
const find = (items: Items, id: string): FilmItem | undefined => items.find((one) => one.id === id);

/** The value that one of two changed; null where both did, and not alike. */
function oneChange<Value>(before: Value, current: Value, next: Value): Value | null {
  if (same(next, before)) return current;
  return same(current, before) || same(current, next) ? next : null;
}

function mergedItem(before: FilmItem, current: FilmItem, next: FilmItem): FilmItem | null {
  const whole = oneChange(before, current, next);
  if (whole !== null) return whole;
  if (before.type !== "shot" || current.type !== "shot" || next.type !== "shot") return null;
  const [cutNow, cutNext] = [isCut(before, current), isCut(before, next)];
  if (cutNow && cutNext) return null;
  const cut = cutNow ? current : cutNext ? next : null;
  // Fields that follow no cut, each from who changed it.
  const rest = mergedFields(before, current, next, cut === null ? [] : [...CUT, ...FOLLOWS]);
  if (rest === null || cut === null) return rest;
  const other = cutNow ? next : current;
  // The one who cut must have written nothing else on it.
  const followed = keptInPlace(before, { ...before, ...partsOf(cut, CUT) });
  if (!same(partsOf(cut, FOLLOWS), partsOf(followed, FOLLOWS))) return null;
  return withPage(keptInPlace(other, { ...rest, ...partsOf(other, FOLLOWS), ...partsOf(cut, CUT) }));
}

function isCut(before: Shot, after: Shot): boolean {
  return !same(partsOf(before, CUT), partsOf(after, CUT));
}

function partsOf<Name extends keyof Shot>(shot: Shot, names: readonly Name[]): Pick<Shot, Name> {
  return Object.fromEntries(names.map((name) => [name, shot[name]])) as Pick<Shot, Name>;
}

/** A shot with each field from who changed it, some left as they were; null where both changed one. */
function mergedFields(before: Shot, current: Shot, next: Shot, left: readonly (keyof Shot)[]): Shot | null {
  const names = new Set([before, current, next].flatMap((one) => Object.keys(one) as (keyof Shot)[]));
  const fields: [string, unknown][] = [];
  for (const name of names) {
    const [was, is, wished] = [before[name], current[name], next[name]];
    const clash = !same(wished, was) && !same(is, was) && !same(is, wished);
    if (clash && !left.includes(name)) return null;
    const value = left.includes(name) ? was : same(wished, was) ? is : wished;
    if (value !== undefined) fields.push([name, value]);
  }
  return Object.fromEntries(fields) as unknown as Shot;
}
