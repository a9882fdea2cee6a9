import type { RawRecords } from "../contract/ride.ts";
import { zoneAtPlace } from "./zoneAtPlace.ts";

/**
 * The rider's local time minus UTC at the first record, minutes: as the file says, else by the zone of the first position.
 *
 * A file says it once, for its end: where the zone of the place agrees with it there and the clocks changed on the way, the
 * place's own offset at the start holds. Null when neither is known.
 */
export function startOffsetMin(
  fileOffsetMin: number | null,
  startUtcMs: number | null,
  raw: RawRecords,
): number | null {
  if (startUtcMs === null) return fileOffsetMin;
  const first = raw.latDeg.findIndex((lat, i) => Number.isFinite(lat) && Number.isFinite(raw.lonDeg[i]));
  if (first < 0) return fileOffsetMin;
  const at = (utcMs: number) => zoneAtPlace(raw.latDeg[first], raw.lonDeg[first], utcMs);
  const atStart = at(startUtcMs);
  if (fileOffsetMin === null) return atStart;
  return at(startUtcMs + 1000 * raw.timeS[raw.count - 1]) === fileOffsetMin ? atStart : fileOffsetMin;
}
