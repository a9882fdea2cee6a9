import type { Card } from "../contract/film.ts";

/** All words of a card, in order, one a line: what a person could have edited. Its curves are not among them. */
export function cardWords(card: Card): string {
  const rows =
    card.kind === "plan"
      ? card.rows.map((row) => `${row.label}: ${row.value}`)
      : card.kind === "comparison"
        ? [...card.columns, ...card.rows.map((row) => `${row.label}: ${row.left}, ${row.right}`)]
        : card.lines;
  return [card.title, ...rows, ...(card.kind === "closing" ? [card.caution] : [])].join("\n");
}

/**
 * A short mark of words, by which it is known whether they still are the program's own: FNV-1a, 32 bits, twice with
 * different starts (Fowler, Noll and Vo; draft-eastlake-fnv). Not for secrets.
 */
export function contentMark(words: string): string {
  const hash = (start: number): string => {
    let value = start;
    for (let at = 0; at < words.length; at++) value = Math.imul(value ^ words.charCodeAt(at), 0x01000193) >>> 0;
    return value.toString(16).padStart(8, "0");
  };
  return hash(0x811c9dc5) + hash(0x050c5d1f);
}
