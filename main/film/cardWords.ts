import type { Card } from "../contract/film.ts";

/** All words of a card, in order, one a line: what a person could have edited. Its curves are not among them. */
export function cardWords(card: Card): string {
  const rows =
    card.kind === "plan"
      ? card.rows.map((row) => `${row.label}: ${row.value}`)
      : card.kind === "comparison"
        ? [...card.columns, ...card.rows.map((row) => `${row.label}: ${row.left}, ${row.right}`)]
        : card.kind === "pair"
          ? card.sides.map(({ name }) => name)
          : card.lines;
  return [card.title, ...rows, ...(card.kind === "closing" ? [card.caution] : [])].join("\n");
}
