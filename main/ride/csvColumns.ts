import type { ColumnName } from "./rideRecords.ts";

/** What a column of a CSV file holds and how its numbers become our units: value * scale + shift. */
export interface CsvColumn {
  readonly column: ColumnName | "time";
  /** Null where neither the header nor convention names the unit. */
  readonly scale: number | null;
  readonly shift: number;
}

type Unit =
  | "s"
  | "ms"
  | "min"
  | "h"
  | "m/s"
  | "km/h"
  | "mph"
  | "m"
  | "km"
  | "ft"
  | "mi"
  | "C"
  | "F"
  | "W"
  | "kW"
  | "bpm"
  | "rpm"
  | "deg"
  | "%"
  | "";

/** Units as headers write them, lower case. */
const UNITS: Readonly<Record<string, Unit>> = {
  s: "s",
  sec: "s",
  secs: "s",
  second: "s",
  seconds: "s",
  ms: "ms",
  msec: "ms",
  millis: "ms",
  milliseconds: "ms",
  min: "min",
  mins: "min",
  minute: "min",
  minutes: "min",
  h: "h",
  hr: "h",
  hrs: "h",
  hours: "h",
  "m/s": "m/s",
  mps: "m/s",
  mpersec: "m/s",
  "meters/second": "m/s",
  "km/h": "km/h",
  kmh: "km/h",
  kph: "km/h",
  kmph: "km/h",
  mph: "mph",
  "mi/h": "mph",
  m: "m",
  meter: "m",
  meters: "m",
  metre: "m",
  metres: "m",
  km: "km",
  kilometers: "km",
  kilometres: "km",
  ft: "ft",
  feet: "ft",
  mi: "mi",
  mile: "mi",
  miles: "mi",
  c: "C",
  celsius: "C",
  degc: "C",
  "°c": "C",
  f: "F",
  fahrenheit: "F",
  degf: "F",
  "°f": "F",
  w: "W",
  watt: "W",
  watts: "W",
  kw: "kW",
  bpm: "bpm",
  rpm: "rpm",
  deg: "deg",
  degree: "deg",
  degrees: "deg",
  "%": "%",
  percent: "%",
};

const SCALE: Readonly<Record<Unit, readonly [number, number]>> = {
  s: [1, 0],
  ms: [0.001, 0],
  min: [60, 0],
  h: [3600, 0],
  "m/s": [1, 0],
  "km/h": [1 / 3.6, 0],
  mph: [0.44704, 0],
  m: [1, 0],
  km: [1000, 0],
  ft: [0.3048, 0],
  mi: [1609.344, 0],
  C: [1, 0],
  F: [5 / 9, -160 / 9],
  W: [1, 0],
  kW: [1000, 0],
  bpm: [1, 0],
  rpm: [1, 0],
  deg: [1, 0],
  "%": [1, 0],
  "": [1, 0],
};

interface Kind {
  readonly column: ColumnName | "time";
  /** Trade words in the two languages that are shipped, letters and digits only. */
  readonly words: readonly string[];
  /** The first is meant when the header names none, unless it may be left open. */
  readonly units: readonly Unit[];
  readonly openUnit?: true;
}

const KINDS: readonly Kind[] = [
  {
    column: "time",
    words: [
      "time",
      "timestamp",
      "datetime",
      "date",
      "utc",
      "elapsed",
      "elapsedtime",
      "seconds",
      "secs",
      "sec",
      "timeofday",
      "minutes",
      "mins",
      "clock",
      "zeit",
      "uhrzeit",
      "datum",
      "zeitstempel",
    ],
    units: ["s", "ms", "min", "h"],
  },
  { column: "powerW", words: ["power", "watts", "watt", "pwr", "poweroutput", "leistung"], units: ["W", "kW"] },
  {
    column: "heartRateBpm",
    words: ["heartrate", "hr", "heart", "pulse", "bpm", "hrm", "herzfrequenz", "puls"],
    units: ["bpm"],
  },
  { column: "cadenceRpm", words: ["cadence", "cad", "rpm", "trittfrequenz", "kadenz"], units: ["rpm"] },
  {
    column: "speedMps",
    words: ["speed", "velocity", "spd", "kph", "kmh", "mph", "geschwindigkeit"],
    units: ["m/s", "km/h", "mph"],
    openUnit: true,
  },
  {
    column: "distanceM",
    words: ["distance", "dist", "km", "miles", "strecke", "distanz"],
    units: ["m", "km", "mi", "ft"],
    openUnit: true,
  },
  {
    column: "altitudeM",
    words: ["altitude", "elevation", "alt", "ele", "elev", "height", "höhe", "hohe", "hoehe"],
    units: ["m", "ft"],
  },
  { column: "latDeg", words: ["latitude", "lat", "positionlat", "breite", "breitengrad"], units: ["deg"] },
  {
    column: "lonDeg",
    words: ["longitude", "lon", "lng", "long", "positionlong", "positionlon", "länge", "laenge", "längengrad"],
    units: ["deg"],
  },
  { column: "temperatureC", words: ["temperature", "temp", "temperatur"], units: ["C", "F"] },
  { column: "leftPercent", words: ["leftbalance", "leftpercent", "left"], units: ["%"] },
];

/**
 * What a header cell names: a trade word, perhaps with a unit in brackets or behind it (`Speed (km/h)`, `power_w`,
 * `altitude [ft]`, `heartRateBpm`). Null when it names nothing that a ride has.
 */
export function csvColumn(header: string): CsvColumn | null {
  const spaced = header
    .trim()
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase();
  const bracket = /[([{]\s*([^)\]}]*?)\s*[)\]}]/.exec(spaced)?.[1];
  const words = spaced
    .replace(/[([{].*$/, "")
    .split(/[\s_.,:-]+/)
    .filter(Boolean);
  const tail = words.length > 1 ? words[words.length - 1] : undefined;
  return (
    matched(words, bracket) ??
    // A unit behind the word: `power w`, `speed kph`.
    (bracket === undefined && tail !== undefined && tail in UNITS ? matched(words.slice(0, -1), tail) : null)
  );
}

function matched(words: readonly string[], unitText: string | undefined): CsvColumn | null {
  const name = words.join("").replace(/[^\p{L}\p{N}]/gu, "");
  const kind = KINDS.find((k) => k.words.includes(name));
  if (!kind) return null;
  const unit = UNITS[(unitText ?? "").replace(/\s/g, "")] ?? UNITS[name];
  if (unit !== undefined && kind.units.includes(unit)) {
    const [scale, shift] = SCALE[unit];
    return { column: kind.column, scale, shift };
  }
  return { column: kind.column, scale: kind.openUnit ? null : 1, shift: 0 };
}
