import type { Film } from "../contract/film.ts";
import { textMark } from "../maths/textMark.ts";

/**
 * A mark of a film's items and everything in them but the curves of charts, whatever the order of keys: by it a film
 * that somebody changed in the file is told from the one that the program wrote there.
 */
export function filmMark(film: Film): string {
  const plain = (_key: string, value: unknown): unknown => {
    if (ArrayBuffer.isView(value)) return null;
    if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
    return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
  };
  return textMark(JSON.stringify(film, plain));
}
