/** A time as a text gives it. `offsetMin` is null when it names no zone (then it was taken as UTC). */
export interface IsoTime {
  readonly ms: number;
  readonly offsetMin: number | null;
}

const ISO =
  /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ]\s*(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?)?\s*(Z|UTC|[+-]\d{2}(?::?\d{2})?)?$/i;

/**
 * Reads an ISO 8601 date and time (blank or T between, fraction of any length, zone Z, +hh, +hhmm or +hh:mm); blanks
 * around are passed over. Null when it is none, or names a day or hour that does not exist.
 */
export function isoTime(text: string): IsoTime | null {
  const m = ISO.exec(text.trim());
  if (!m) return null;
  const [, year, month, day, hour = "0", minute = "0", second = "0", fraction, zone] = m;
  const date = new Date(Date.UTC(2000, 0, 1));
  date.setUTCFullYear(Number(year), Number(month) - 1, Number(day));
  if (date.getUTCMonth() !== Number(month) - 1 || date.getUTCDate() !== Number(day)) return null;
  // 60 is a leap second, 24:00 the end of a day.
  if (Number(hour) > 24 || Number(minute) > 59 || Number(second) > 60) return null;
  const ofDayMs =
    ((Number(hour) * 60 + Number(minute)) * 60 + Number(second)) * 1000 +
    (fraction ? Number(`0.${fraction}`) * 1000 : 0);
  const offsetMin = zone === undefined ? null : zoneMin(zone);
  return { ms: date.getTime() + Math.round(ofDayMs) - (offsetMin ?? 0) * 60_000, offsetMin };
}

function zoneMin(zone: string): number {
  if (/^(Z|UTC)$/i.test(zone)) return 0;
  const sign = zone[0] === "-" ? -1 : 1;
  const digits = zone.slice(1).replace(":", "");
  return sign * (Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2) || "0"));
}
