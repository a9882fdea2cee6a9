import tzLookup from "@photostructure/tz-lookup";

/**
 * Local time minus UTC, minutes, at a place and an instant, by the time zone the place lies in (IANA zone data of the
 * running Node). Null when the position is no position.
 */
export function zoneAtPlace(latDeg: number, lonDeg: number, utcMs: number): number | null {
  if (!Number.isFinite(latDeg) || !Number.isFinite(lonDeg) || !Number.isFinite(utcMs)) return null;
  let zone: string;
  try {
    zone = tzLookup(latDeg, lonDeg);
  } catch {
    return null;
  }
  const format = new Intl.DateTimeFormat("en-US", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
  });
  const part: Record<string, number> = {};
  for (const { type, value } of format.formatToParts(new Date(utcMs))) part[type] = Number(value);
  const local = Date.UTC(part["year"], part["month"] - 1, part["day"], part["hour"], part["minute"], part["second"]);
  return Math.round((local - Math.floor(utcMs / 1000) * 1000) / 60_000);
}
