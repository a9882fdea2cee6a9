/**
 * A file's local time minus UTC in whole quarters of an hour, min; null where it is not within 1 min of one or beyond
 * 14 h, since a recorder without a zone writes anything. Zones lie between -12 and +14 h (IANA time zone database).
 */
export function localOffsetMin(minutes: number): number | null {
  const rounded = Math.round(minutes / 15) * 15;
  return Math.abs(minutes - rounded) <= 1 && Math.abs(rounded) <= 14 * 60 ? rounded : null;
}
