import type { TelemetryUtc } from "../../contract/telemetry.ts";

/** A reading of the satellite clock at a media time. */
export interface UtcPoint {
  readonly mediaS: number;
  readonly utcMs: number;
}

/** Satellite time before the format existed or far ahead is a receiver without a date. */
const FIRST_YEAR = 2014;
const LAST_YEAR = 2079;

/** `yymmddhhmmss.sss` as UTC, ms since 1970; null when it is no date and time. */
export function gpsuUtcMs(text: string): number | null {
  const match = /^(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)(\d\d(?:\.\d+)?)$/.exec(text);
  if (!match) return null;
  const [year, month, day, hour, minute] = match.slice(1, 6).map(Number) as [number, number, number, number, number];
  const second = Number(match[6]);
  if (2000 + year < FIRST_YEAR || 2000 + year > LAST_YEAR) return null;
  if (month < 1 || month > 12 || day < 1 || day > 31 || hour > 23 || minute > 59 || second >= 61) return null;
  const ms = Date.UTC(2000 + year, month - 1, day, hour, minute) + Math.round(second * 1000);
  return new Date(ms).getUTCDate() === day || hour === 23 ? ms : null;
}

/** Days since 2000-01-01 and seconds of the day, as GPS9 writes them, as UTC, ms since 1970; null when out of range. */
export function gps9UtcMs(days: number, secondOfDay: number): number | null {
  const ms = Date.UTC(2000, 0, 1) + days * 86_400_000 + secondOfDay * 1000;
  const year = new Date(ms).getUTCFullYear();
  return secondOfDay >= 0 && secondOfDay < 86_401 && year >= FIRST_YEAR && year <= LAST_YEAR ? ms : null;
}

/** 1980-01-06 in Unix time, s, and what UTC has fallen behind satellite time since, s (since 2017). */
const GPS_EPOCH_S = 315_964_800;
const LEAP_S = 18;
/** A date that agrees with the file's own to this is the right reading, ms. */
const SAME_DATE_MS = 2 * 86_400_000;

/**
 * Seconds since 1980-01-06 without leap seconds, as the camera motion metadata specification has them, as UTC, ms since
 * 1970. Writers exist that put Unix seconds or milliseconds there: the reading that agrees with the file's own date
 * counts, else the specification's. Null when it is no time.
 */
export function gpsEpochUtcMs(value: number, createdUtcMs: number | null): number | null {
  if (!Number.isFinite(value) || value <= 0) return null;
  const seconds = value > 1e11 ? value / 1000 : value;
  const readings = [(seconds + GPS_EPOCH_S - LEAP_S) * 1000, seconds * 1000];
  const agreed = createdUtcMs === null ? undefined : readings.find((ms) => Math.abs(ms - createdUtcMs) <= SAME_DATE_MS);
  const ms = agreed ?? readings[value > 1e11 ? 1 : 0]!;
  const year = new Date(ms).getUTCFullYear();
  return year >= FIRST_YEAR && year <= LAST_YEAR ? ms : null;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const m = sorted.length >> 1;
  return sorted.length % 2 ? sorted[m]! : (sorted[m - 1]! + sorted[m]!) / 2;
}

/**
 * UTC of media time 0 from readings taken with a good fix: the median, readings further off than 4 MAD (at least 0.15 s)
 * left out. Null with fewer than ten. Fixed part of the error: 0.3 s where each sample has its time (GPS9, CAMM), 1 s for the
 * one a payload (GPSU) or a line of text (NMEA), which may sit more than a second late.
 */
export function fitUtc(points: readonly UtcPoint[], source: TelemetryUtc["source"]): TelemetryUtc | null {
  const starts = points.map((point) => point.utcMs - point.mediaS * 1000);
  if (starts.length < 10) return null;
  const middle = median(starts);
  const mad = median(starts.map((s) => Math.abs(s - middle)));
  const kept = starts.filter((s) => Math.abs(s - middle) <= Math.max(150, 4 * mad));
  if (kept.length < 10) return null;
  const mean = kept.reduce((a, b) => a + b, 0) / kept.length;
  const sdS = Math.sqrt(kept.reduce((sum, s) => sum + (s - mean) ** 2, 0) / (kept.length - 1)) / 1000;
  const fixedS = source === "GPSU" || source === "NMEA" ? 1 : 0.3;
  return { startUtcMs: median(kept), sigmaS: Math.hypot((1.2533 * sdS) / Math.sqrt(kept.length), fixedS), source };
}
