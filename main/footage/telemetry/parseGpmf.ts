import { klvItems, klvRows, klvText, type Klv } from "./klv.ts";

/** One stream of one device in one payload: its samples, scaled to their units. */
export interface GpmfStream {
  /** Key of the samples, e.g. `GPS5`. */
  readonly key: string;
  /** STNM, for people. */
  readonly name: string | null;
  readonly units: string | null;
  /** Samples, each divided by its scale. */
  readonly rows: readonly Float64Array[];
  /** TSMP: samples delivered since the file began, those here included; null when absent. */
  readonly totalSamples: number | null;
  /** STMP: when the first sample arrived, s since capture began; null when absent. */
  readonly arrivalS: number | null;
  /** GPSU, as written. */
  readonly utcText: string | null;
  /** GPSF: 0 no fix, 2 or 3 dimensions; null when absent. */
  readonly fix: number | null;
  /** GPSP: dilution of precision x 100; null when absent. */
  readonly precision: number | null;
}

export interface GpmfDevice {
  readonly id: number | string | null;
  readonly name: string | null;
  readonly streams: readonly GpmfStream[];
}

/** Keys that describe the stream and are never its samples. */
const DESCRIBING = new Set([
  "STNM",
  "RMRK",
  "SCAL",
  "SIUN",
  "UNIT",
  "TYPE",
  "TSMP",
  "TIMO",
  "EMPT",
  "STMP",
  "TMPC",
  "GPSU",
  "GPSF",
  "GPSP",
  "GPSA",
  "MTRX",
  "ORIN",
  "ORIO",
  "TICK",
  "TOCK",
  "DVID",
  "DVNM",
  "VPTS",
]);

function single(item: Klv | undefined): number | null {
  const value = item && klvRows(item, "")?.[0]?.[0];
  return value === undefined || !Number.isFinite(value) ? null : value;
}

function scaled(rows: readonly Float64Array[], scale: Klv | undefined): readonly Float64Array[] {
  const divisors = scale ? (klvRows(scale, "") ?? []).flatMap((row) => [...row]) : [];
  if (divisors.length === 0) return rows;
  for (const row of rows) {
    for (let k = 0; k < row.length; k++) {
      const by = divisors.length === 1 ? divisors[0] : divisors[k];
      if (by !== undefined && by !== 0) row[k] = row[k]! / by;
    }
  }
  return rows;
}

function parseStream(view: DataView): GpmfStream | null {
  const items = klvItems(view);
  // What describes comes first and applies to the last key of the nest.
  const samples = [...items].reverse().find((item) => !DESCRIBING.has(item.key) && item.type !== "\0");
  if (!samples) return null;
  const named = (key: string) => items.find((item) => item.key === key);
  const words = (key: string) => {
    const item = named(key);
    return item ? klvText(item) : null;
  };
  const rows = klvRows(samples, words("TYPE") ?? "");
  if (!rows) return null;
  const micro = single(named("STMP"));
  return {
    key: samples.key,
    name: words("STNM"),
    units: words("SIUN") ?? words("UNIT"),
    rows: scaled(rows, named("SCAL")),
    totalSamples: single(named("TSMP")),
    arrivalS: micro === null ? null : micro / 1e6,
    utcText: words("GPSU"),
    fix: single(named("GPSF")),
    precision: single(named("GPSP")),
  };
}

/**
 * The devices and streams of one GPMF payload. Unknown keys and streams that cannot be read are left out; a truncated
 * payload or a lying length gives what stands before it. Never throws.
 */
export function parseGpmf(payload: Uint8Array): GpmfDevice[] {
  const view = new DataView(payload.buffer, payload.byteOffset, payload.byteLength);
  const devices: GpmfDevice[] = [];
  for (const device of klvItems(view)) {
    if (device.key !== "DEVC" || device.type !== "\0") continue;
    const items = klvItems(device.value);
    const id = items.find((item) => item.key === "DVID");
    const name = items.find((item) => item.key === "DVNM");
    devices.push({
      id: id ? (id.type === "F" ? klvText(id) : single(id)) : null,
      name: name ? klvText(name) : null,
      streams: items
        .filter((item) => item.key === "STRM" && item.type === "\0")
        .map((item) => parseStream(item.value))
        .filter((stream): stream is GpmfStream => stream !== null),
    });
  }
  return devices;
}
