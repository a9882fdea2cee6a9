import { fitCrc } from "../ride/fit/fitCrc.ts";

/**
 * A small writer of FIT activity files: the open format that bike computers record in, as far as a plain road ride
 * needs it (little endian, one definition a message, no developer fields).
 *
 * Layout and CRC follow the format owner's public description; field numbers and scales are the format's profile.
 */

interface FitRecord {
  /** UTC, ms since 1970; whole seconds are written. */
  readonly utcMs: number;
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly altitudeM: number;
  readonly heartRateBpm: number;
  readonly cadenceRpm: number;
  readonly distanceM: number;
  readonly speedMps: number;
  readonly powerW: number;
}

export interface FitRide {
  /** In order of time, at least one. NaN in a field: no value. */
  readonly records: readonly FitRecord[];
  /** Where the rider pressed the lap button, UTC ms; the last lap ends with the ride. */
  readonly lapPressesUtcMs: readonly number[];
  /** The rider's local time minus UTC, minutes. */
  readonly utcOffsetMin: number;
}

/** Seconds from 1970 to the format's own epoch, 1989-12-31T00:00:00Z. */
const FIT_EPOCH_S = 631065600;

type BaseType = "enum" | "uint8" | "uint16" | "sint32" | "uint32" | "uint32z";
const BASE: Readonly<Record<BaseType, { readonly code: number; readonly bytes: number; readonly invalid: number }>> = {
  enum: { code: 0x00, bytes: 1, invalid: 0xff },
  uint8: { code: 0x02, bytes: 1, invalid: 0xff },
  uint16: { code: 0x84, bytes: 2, invalid: 0xffff },
  sint32: { code: 0x85, bytes: 4, invalid: 0x7fffffff },
  uint32: { code: 0x86, bytes: 4, invalid: 0xffffffff },
  uint32z: { code: 0x8c, bytes: 4, invalid: 0 },
};

interface Field {
  readonly number: number;
  readonly type: BaseType;
  /** Stored = (value + offset) x scale, rounded. */
  readonly scale?: number;
  readonly offset?: number;
}
interface Message {
  readonly global: number;
  readonly fields: readonly Field[];
}

const TIMESTAMP: Field = { number: 253, type: "uint32" };
const SEMICIRCLES = 2 ** 31 / 180;

const FILE_ID: Message = {
  global: 0,
  fields: [
    { number: 0, type: "enum" },
    { number: 1, type: "uint16" },
    { number: 2, type: "uint16" },
    { number: 3, type: "uint32z" },
    { number: 4, type: "uint32" },
  ],
};
const EVENT: Message = {
  global: 21,
  fields: [TIMESTAMP, { number: 0, type: "enum" }, { number: 1, type: "enum" }],
};
const RECORD: Message = {
  global: 20,
  fields: [
    TIMESTAMP,
    { number: 0, type: "sint32", scale: SEMICIRCLES },
    { number: 1, type: "sint32", scale: SEMICIRCLES },
    { number: 5, type: "uint32", scale: 100 },
    { number: 73, type: "uint32", scale: 1000 },
    { number: 78, type: "uint32", scale: 5, offset: 500 },
    { number: 7, type: "uint16" },
    { number: 3, type: "uint8" },
    { number: 4, type: "uint8" },
  ],
};
/** How lap and session begin: which they are, what ended them, when they began, how long and how far they were. */
const SUMS: readonly Field[] = [
  TIMESTAMP,
  { number: 254, type: "uint16" },
  { number: 0, type: "enum" },
  { number: 1, type: "enum" },
  { number: 2, type: "uint32" },
  { number: 7, type: "uint32", scale: 1000 },
  { number: 8, type: "uint32", scale: 1000 },
  { number: 9, type: "uint32", scale: 100 },
];
const LAP: Message = {
  global: 19,
  fields: [
    ...SUMS,
    { number: 15, type: "uint8" },
    { number: 16, type: "uint8" },
    { number: 19, type: "uint16" },
    { number: 20, type: "uint16" },
    { number: 24, type: "enum" },
    { number: 25, type: "enum" },
  ],
};
const SESSION: Message = {
  global: 18,
  fields: [
    ...SUMS,
    { number: 16, type: "uint8" },
    { number: 17, type: "uint8" },
    { number: 20, type: "uint16" },
    { number: 21, type: "uint16" },
    { number: 5, type: "enum" },
    { number: 6, type: "enum" },
    { number: 25, type: "uint16" },
    { number: 26, type: "uint16" },
  ],
};
const ACTIVITY: Message = {
  global: 34,
  fields: [
    TIMESTAMP,
    { number: 0, type: "uint32", scale: 1000 },
    { number: 1, type: "uint16" },
    { number: 2, type: "enum" },
    { number: 3, type: "enum" },
    { number: 4, type: "enum" },
    { number: 5, type: "uint32" },
  ],
};

const CYCLING = 2;
const ROAD = 7;
const TIMER = 0;
const START = 0;
const STOP = 1;
const STOP_ALL = 4;
const LAP_EVENT = 9;
const SESSION_EVENT = 8;
const ACTIVITY_EVENT = 26;
const MANUAL = 0;
const SESSION_END = 7;
/** The format's number for makers without one of their own. */
const NO_MAKER = 255;

/** The bytes of a FIT activity file of one cycling session. */
export function writeFit(ride: FitRide): Uint8Array {
  const first = ride.records[0];
  const last = ride.records.at(-1);
  if (!first || !last) throw new RangeError("A FIT file needs at least one record.");
  const out = new FitBytes();
  out.message(FILE_ID, [4, NO_MAKER, 1, 0, fitTime(first.utcMs)]);
  out.message(EVENT, [fitTime(first.utcMs), TIMER, START]);
  const lapEnds = [
    ...ride.lapPressesUtcMs.map((utcMs) => ({ utcMs, by: MANUAL })),
    { utcMs: last.utcMs, by: SESSION_END },
  ];
  let lap = 0;
  let lapFrom = 0;
  ride.records.forEach((r, i) => {
    out.message(RECORD, [
      fitTime(r.utcMs),
      r.latDeg,
      r.lonDeg,
      r.distanceM,
      r.speedMps,
      r.altitudeM,
      r.powerW,
      r.heartRateBpm,
      r.cadenceRpm,
    ]);
    const end = lapEnds[lap];
    if (i !== ride.records.length - 1 && end && r.utcMs >= end.utcMs) {
      out.message(LAP, [fitTime(r.utcMs), lap, LAP_EVENT, STOP, ...sums(ride.records, lapFrom, i), end.by, CYCLING]);
      lapFrom = i;
      lap++;
    }
  });
  const endT = fitTime(last.utcMs);
  const lastIndex = ride.records.length - 1;
  out.message(EVENT, [endT, TIMER, STOP_ALL]);
  out.message(LAP, [endT, lap, LAP_EVENT, STOP, ...sums(ride.records, lapFrom, lastIndex), SESSION_END, CYCLING]);
  out.message(SESSION, [endT, 0, SESSION_EVENT, STOP, ...sums(ride.records, 0, lastIndex), CYCLING, ROAD, 0, lap + 1]);
  const elapsedS = (last.utcMs - first.utcMs) / 1000;
  out.message(ACTIVITY, [endT, elapsedS, 1, 0, ACTIVITY_EVENT, STOP, endT + ride.utcOffsetMin * 60]);
  return out.file();
}

/** Start, elapsed, timer, distance, mean and highest heart rate, mean and highest power between two records. */
function sums(records: readonly FitRecord[], from: number, to: number): number[] {
  const a = records[from]!;
  const b = records[to]!;
  const part = records.slice(from, to + 1);
  const elapsedS = (b.utcMs - a.utcMs) / 1000;
  const mean = (values: readonly number[]): number =>
    values.length ? values.reduce((x, y) => x + y, 0) / values.length : NaN;
  const heart = part.map((r) => r.heartRateBpm).filter(Number.isFinite);
  const power = part.map((r) => r.powerW).filter(Number.isFinite);
  return [
    fitTime(a.utcMs),
    elapsedS,
    elapsedS,
    b.distanceM - a.distanceM,
    mean(heart),
    heart.length ? Math.max(...heart) : NaN,
    mean(power),
    power.length ? Math.max(...power) : NaN,
  ];
}

function fitTime(utcMs: number): number {
  return Math.floor(utcMs / 1000) - FIT_EPOCH_S;
}

/** Collects messages; a message's definition is written before its first use. */
class FitBytes {
  private bytes = new Uint8Array(1 << 16);
  private view = new DataView(this.bytes.buffer);
  private length = 14;
  private readonly local = new Map<number, number>();

  message(message: Message, values: readonly number[]): void {
    if (values.length !== message.fields.length)
      throw new RangeError(`FIT message ${message.global}: wrong number of values.`);
    let local = this.local.get(message.global);
    if (local === undefined) {
      local = this.local.size;
      this.local.set(message.global, local);
      this.put("uint8", 0x40 | local);
      this.put("uint8", 0);
      this.put("uint8", 0);
      this.put("uint16", message.global);
      this.put("uint8", message.fields.length);
      for (const f of message.fields) {
        this.put("uint8", f.number);
        this.put("uint8", BASE[f.type].bytes);
        this.put("uint8", BASE[f.type].code);
      }
    }
    this.put("uint8", local);
    message.fields.forEach((f, i) => {
      const stored = Math.round((values[i]! + (f.offset ?? 0)) * (f.scale ?? 1));
      this.put(f.type, Number.isFinite(stored) ? stored : BASE[f.type].invalid);
    });
  }

  file(): Uint8Array {
    const dataBytes = this.length - 14;
    const v = this.view;
    v.setUint8(0, 14);
    v.setUint8(1, 0x20);
    v.setUint16(2, 2132, true);
    v.setUint32(4, dataBytes, true);
    [0x2e, 0x46, 0x49, 0x54].forEach((c, i) => v.setUint8(8 + i, c));
    v.setUint16(12, fitCrc(this.bytes, 0, 12), true);
    const crc = fitCrc(this.bytes, 0, this.length);
    this.put("uint16", crc);
    return this.bytes.slice(0, this.length);
  }

  private put(type: BaseType, value: number): void {
    const bytes = BASE[type].bytes;
    if (this.length + bytes > this.bytes.length) {
      const more = new Uint8Array(this.bytes.length * 2);
      more.set(this.bytes);
      this.bytes = more;
      this.view = new DataView(more.buffer);
    }
    if (bytes === 1) this.view.setUint8(this.length, value);
    else if (bytes === 2) this.view.setUint16(this.length, value, true);
    else if (type === "sint32") this.view.setInt32(this.length, value, true);
    else this.view.setUint32(this.length, value, true);
    this.length += bytes;
  }
}
