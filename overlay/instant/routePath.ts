import type { RideColumns } from "../../main/contract/rideColumns.ts";

/** The ride's course on a flat map, north up, in shares of a square; one point a second, NaN where the position is unknown. */
export interface RoutePath {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/**
 * The course for the route panel, or null where the ride has no positions.
 *
 * Plate carree at the course's middle latitude: true to within 1 % over 100 km, which a panel of a thumb's size asks.
 */
export function routePath(columns: RideColumns): RoutePath | null {
  const { latDeg, lonDeg } = columns;
  if (latDeg === null || lonDeg === null) return null;
  const [south, north] = rangeOf(latDeg);
  const [west, east] = rangeOf(lonDeg);
  if (!(north >= south) || !(east >= west)) return null;
  const shrink = Math.cos((((south + north) / 2) * Math.PI) / 180);
  const size = Math.max((east - west) * shrink, north - south, 1e-4);
  const middleLon = (west + east) / 2;
  const middleLat = (south + north) / 2;
  return {
    x: lonDeg.map((lon) => 0.5 + ((lon - middleLon) * shrink) / size),
    y: latDeg.map((lat) => 0.5 - (lat - middleLat) / size),
  };
}

function rangeOf(column: Float64Array): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const value of column) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}
