import type { ColumnName } from "../rideRecords.ts";

/**
 * FIT base types by their low 5 bits: the byte a definition carries, bytes per element, and the invalid value (public
 * FIT protocol text, table of base types).
 */
export const FIT_BASE_TYPES: readonly { readonly code: number; readonly bytes: number }[] = [
  { code: 0x00, bytes: 1 },
  { code: 0x01, bytes: 1 },
  { code: 0x02, bytes: 1 },
  { code: 0x83, bytes: 2 },
  { code: 0x84, bytes: 2 },
  { code: 0x85, bytes: 4 },
  { code: 0x86, bytes: 4 },
  { code: 0x07, bytes: 1 },
  { code: 0x88, bytes: 4 },
  { code: 0x89, bytes: 8 },
  { code: 0x0a, bytes: 1 },
  { code: 0x8b, bytes: 2 },
  { code: 0x8c, bytes: 4 },
  { code: 0x0d, bytes: 1 },
  { code: 0x8e, bytes: 8 },
  { code: 0x8f, bytes: 8 },
  { code: 0x90, bytes: 8 },
];

/** Numbers of the FIT messages that are read (public FIT profile). */
export const FitMessage = {
  fileId: 0,
  session: 18,
  lap: 19,
  record: 20,
  event: 21,
  activity: 34,
  fieldDescription: 206,
} as const;

/** Field number of the time stamp in every message. */
export const TIMESTAMP_FIELD = 253;

/** A field as its profile has it: base type by low 5 bits. */
export interface FitField {
  readonly type: number;
  readonly scale?: number;
  readonly offset?: number;
  readonly column?: ColumnName;
}

const TIME: FitField = { type: 6 };

/** Fields that are read, by message and field number; all others are left out of what the parser gets (public FIT profile). */
export const FIT_FIELDS: Readonly<Record<number, Readonly<Record<number, FitField>>>> = {
  [FitMessage.fileId]: { 0: { type: 0 } },
  [FitMessage.session]: { 253: TIME, 2: TIME, 7: { type: 6 }, 5: { type: 0 }, 6: { type: 0 } },
  [FitMessage.lap]: { 253: TIME, 2: TIME, 7: { type: 6 }, 24: { type: 0 } },
  [FitMessage.record]: {
    253: TIME,
    0: { type: 5, column: "latDeg", scale: 2 ** 31 / 180 },
    1: { type: 5, column: "lonDeg", scale: 2 ** 31 / 180 },
    2: { type: 4, column: "altitudeM", scale: 5, offset: 500 },
    3: { type: 2, column: "heartRateBpm" },
    4: { type: 2, column: "cadenceRpm" },
    5: { type: 6, column: "distanceM", scale: 100 },
    6: { type: 4, column: "speedMps", scale: 1000 },
    7: { type: 4, column: "powerW" },
    8: { type: 13 },
    13: { type: 1, column: "temperatureC" },
    30: { type: 2 },
    53: { type: 2 },
    73: { type: 6, column: "speedMps", scale: 1000 },
    78: { type: 6, column: "altitudeM", scale: 5, offset: 500 },
  },
  [FitMessage.event]: { 253: TIME, 0: { type: 0 }, 1: { type: 0 } },
  [FitMessage.activity]: { 253: TIME, 5: TIME },
};

/** Whether the parser takes a wire type for a profile type: the same, or one of the three one-byte types that are interchanged. */
export function typesAgree(wire: number, profile: number): boolean {
  const byteLike = (t: number) => t === 0 || t === 2 || t === 13;
  return wire === profile || (byteLike(wire) && byteLike(profile));
}

/** The first element of a field as a number, NaN when invalid, not numeric, or narrower than its type. */
export function readFitNumber(
  view: DataView,
  offset: number,
  size: number,
  type: number,
  littleEndian: boolean,
): number {
  const base = FIT_BASE_TYPES[type];
  if (!base || size < base.bytes || offset + base.bytes > view.byteLength) return NaN;
  const unless = (value: number, invalid: number) => (value === invalid ? NaN : value);
  switch (type) {
    case 0:
    case 2:
    case 13:
      return unless(view.getUint8(offset), 0xff);
    case 1:
      return unless(view.getInt8(offset), 0x7f);
    case 3:
      return unless(view.getInt16(offset, littleEndian), 0x7fff);
    case 4:
      return unless(view.getUint16(offset, littleEndian), 0xffff);
    case 5:
      return unless(view.getInt32(offset, littleEndian), 0x7fffffff);
    case 6:
      return unless(view.getUint32(offset, littleEndian), 0xffffffff);
    case 8:
      return view.getFloat32(offset, littleEndian);
    case 9:
      return view.getFloat64(offset, littleEndian);
    case 10:
      return unless(view.getUint8(offset), 0);
    case 11:
      return unless(view.getUint16(offset, littleEndian), 0);
    case 12:
      return unless(view.getUint32(offset, littleEndian), 0);
    case 14:
      return unless(Number(view.getBigInt64(offset, littleEndian)), 2 ** 63);
    case 15:
      return unless(Number(view.getBigUint64(offset, littleEndian)), 2 ** 64);
    case 16:
      return unless(Number(view.getBigUint64(offset, littleEndian)), 0);
    default:
      return NaN;
  }
}
