import type { Card } from "../../main/contract/film.ts";

/** A card as it crossed to the window, its columns as lists with null, made ready for the painter. */
export function cardForPainting(card: Card): Card {
  if (card.kind !== "chart") return card;
  const { power30sW, heartRateBpm } = card.series;
  return { ...card, series: { ...card.series, power30sW: column(power30sW), heartRateBpm: column(heartRateBpm) } };
}

function column(values: ArrayLike<number | null> | null): Float64Array | null {
  return values === null ? null : Float64Array.from(values, (value) => value ?? Number.NaN);
}
