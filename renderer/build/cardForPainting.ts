import type { Card } from "../../main/contract/film.ts";

/** A card as it crossed to the window, its columns as lists with null, made ready for the painter. */
export function cardForPainting(card: Card): Card {
  if (card.kind !== "chart") return card;
  const { power30sW, heartRateBpm, altitude } = card.series;
  return {
    ...card,
    series: {
      ...card.series,
      power30sW: power30sW && column(power30sW),
      heartRateBpm: heartRateBpm && column(heartRateBpm),
      ...(altitude === undefined ? {} : { altitude: column(altitude) }),
    },
  };
}

function column(values: ArrayLike<number | null>): Float64Array {
  return Float64Array.from(values, (value) => value ?? Number.NaN);
}
