import type { Place } from "../../contract/footage.ts";
import { gpsuUtcMs } from "./gpsTime.ts";

/** A place that some words tell, with what they say beside it. */
interface ToldPlace extends Place {
  /** NaN where they don't say. */
  readonly speedMps: number;
  /** UTC, ms since 1970; null where they don't say both date and time. */
  readonly utcMs: number | null;
  /** False where the receiver itself says that it has no fix. */
  readonly good: boolean;
}

const KNOT_MPS = 1852 / 3600;

function onEarth(latDeg: number, lonDeg: number): Place | null {
  // Where there is no fix, writers put 0, 0.
  return Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 180 && (latDeg !== 0 || lonDeg !== 0)
    ? { latDeg, lonDeg }
    : null;
}

/** Degrees of a sign and digits with `degreeDigits` of degrees, then two each of minutes and seconds where there are more. */
function sexagesimal(text: string, degreeDigits: number): number {
  const sign = text.startsWith("-") ? -1 : 1;
  const [whole, part = ""] = text.slice(1).split(".") as [string, string?];
  const [degrees, rest] = [whole.slice(0, degreeDigits), whole.slice(degreeDigits)];
  const units = [degrees, ...(rest.match(/\d\d/g) ?? [])].map(Number);
  const last = units.length - 1;
  if (part !== "") units[last]! += Number(`0.${part}`);
  return sign * units.reduce((sum, unit, k) => sum + unit / 60 ** k, 0);
}

/**
 * The place of a point as ISO 6709 writes it (edition of 2008, annex H): `+47.5000+007.6000/`, in degrees, degrees and
 * minutes or degrees, minutes and seconds, with or without a height and a reference system. Null where it is none.
 */
export function iso6709Place(text: string): Place | null {
  const found =
    /([+-]\d{2}(?:\d{2}){0,2}(?:\.\d+)?)([+-]\d{3}(?:\d{2}){0,2}(?:\.\d+)?)(?:[+-]\d+(?:\.\d+)?)?(?:CRS[\w-]*)?\/?/.exec(
      text,
    );
  return found && onEarth(sexagesimal(found[1]!, 2), sexagesimal(found[2]!, 3));
}

/** Fields of an NMEA 0183 sentence whose sum is right (exclusive or of what stands between `$` and `*`); null for another. */
function sentenceFields(line: string): string[] | null {
  const found = /\$([\x20-\x29\x2b-\x7e]*)\*([0-9A-Fa-f]{2})/.exec(line);
  if (!found) return null;
  const sum = [...found[1]!].reduce((x, c) => x ^ c.charCodeAt(0), 0);
  return sum === Number.parseInt(found[2]!, 16) ? found[1]!.split(",") : null;
}

/** `ddmm.mmmm` and a letter, as NMEA 0183 writes latitudes and longitudes. */
function nmeaDegrees(text = "", letter = ""): number {
  const value = Number(text);
  if (text === "" || !Number.isFinite(value)) return NaN;
  const degrees = Math.floor(value / 100);
  return (letter === "S" || letter === "W" ? -1 : 1) * (degrees + (value - 100 * degrees) / 60);
}

/** `hhmmss.sss` and `ddmmyy`. */
function nmeaTime(time = "", date = ""): number | null {
  return gpsuUtcMs(`${date.slice(4, 6)}${date.slice(2, 4)}${date.slice(0, 2)}${time}`);
}

/** Place, speed and time of an RMC sentence, place of a GGA one (NMEA 0183, from memory of its published descriptions). */
function nmeaPlace(fields: readonly string[]): ToldPlace | null {
  const kind = fields[0]!.slice(-3);
  const at = kind === "RMC" ? 3 : kind === "GGA" ? 2 : -1;
  if (at < 0) return null;
  const place = onEarth(nmeaDegrees(fields[at], fields[at + 1]), nmeaDegrees(fields[at + 2], fields[at + 3]));
  if (!place) return null;
  if (kind === "GGA") return { ...place, speedMps: NaN, utcMs: null, good: Number(fields[6]) > 0 };
  const knots = fields[7] === "" ? NaN : Number(fields[7]);
  return { ...place, speedMps: knots * KNOT_MPS, utcMs: nmeaTime(fields[1], fields[9]), good: fields[2] === "A" };
}

const NUMBER = String.raw`([+-]?\d{1,3}\.\d+)`;
const LABELLED = new RegExp(
  String.raw`\blat(?:itude)?\s*[:=]?\s*${NUMBER}[\s\S]*?\blon(?:g(?:itude)?)?\s*[:=]?\s*${NUMBER}`,
  "i",
);

/**
 * The place that a line of text beside a film tells: by sentences of NMEA 0183, by ISO 6709, or by latitude and longitude named
 * as such, in degrees. Null where it tells none.
 */
export function toldPlace(text: string): ToldPlace | null {
  let told: ToldPlace | null = null;
  for (const line of text.split(/[\r\n]+/)) {
    const fields = sentenceFields(line);
    const found = fields && nmeaPlace(fields);
    // An RMC sentence says more than a GGA one of the same second.
    if (found && (told === null || Number.isFinite(found.speedMps))) told = found;
  }
  if (told) return told;
  const labelled = LABELLED.exec(text);
  const place = labelled ? onEarth(Number(labelled[1]), Number(labelled[2])) : iso6709Place(text);
  return place && { ...place, speedMps: NaN, utcMs: null, good: true };
}
