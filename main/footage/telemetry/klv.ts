/**
 * Key, length, value items of the GPMF format (public specification, gopro/gpmf-parser README): big-endian, key of four
 * characters, type of one, size of a structure in one byte, repeat in two; the value padded to a multiple of four bytes.
 */
export interface Klv {
  readonly key: string;
  /** Type character; `\0` is a nest. */
  readonly type: string;
  readonly structBytes: number;
  readonly repeat: number;
  /** The value, without padding. */
  readonly value: DataView;
}

function text(view: DataView, at: number, length: number): string {
  let out = "";
  for (let k = 0; k < length; k++) out += String.fromCharCode(view.getUint8(at + k));
  return out;
}

/** The items of a buffer; stops at the first whose length goes past the end, so a lying length costs only the rest. */
export function klvItems(view: DataView): Klv[] {
  const items: Klv[] = [];
  let at = 0;
  while (at + 8 <= view.byteLength) {
    const key = text(view, at, 4);
    if (!/^[\x20-\x7e]{4}$/.test(key)) break;
    const structBytes = view.getUint8(at + 5);
    const repeat = view.getUint16(at + 6);
    const bytes = structBytes * repeat;
    if (at + 8 + bytes > view.byteLength) break;
    items.push({
      key,
      type: text(view, at + 4, 1),
      structBytes,
      repeat,
      value: new DataView(view.buffer, view.byteOffset + at + 8, bytes),
    });
    at += 8 + 4 * Math.ceil(bytes / 4);
  }
  return items;
}

const TYPE_BYTES: Readonly<Record<string, number>> = {
  b: 1,
  B: 1,
  s: 2,
  S: 2,
  l: 4,
  L: 4,
  f: 4,
  q: 4,
  j: 8,
  J: 8,
  d: 8,
  Q: 8,
  c: 1,
  F: 4,
  G: 16,
  U: 16,
};

function number(view: DataView, at: number, type: string): number {
  switch (type) {
    case "b":
      return view.getInt8(at);
    case "B":
      return view.getUint8(at);
    case "s":
      return view.getInt16(at);
    case "S":
      return view.getUint16(at);
    case "l":
      return view.getInt32(at);
    case "L":
      return view.getUint32(at);
    case "f":
      return view.getFloat32(at);
    case "d":
      return view.getFloat64(at);
    case "q":
      return view.getInt32(at) / 65536;
    case "Q":
      return Number(view.getBigInt64(at)) / 2 ** 32;
    case "j":
      return Number(view.getBigInt64(at));
    case "J":
      return Number(view.getBigUint64(at));
    default:
      return NaN;
  }
}

/** `f[8]L` as eight f and one L. */
function expandType(description: string): string[] {
  const types: string[] = [];
  for (const match of description.matchAll(/([A-Za-z])(?:\[(\d+)\])?/g)) {
    for (let k = 0; k < Math.min(255, Number(match[2] ?? 1)); k++) types.push(match[1]!);
  }
  return types;
}

/** Characters of an item, without trailing zeros (Latin-1). */
export function klvText(item: Klv): string {
  return text(item.value, 0, item.value.byteLength).replace(/\0.*$/s, "").trim();
}

/**
 * The numbers of an item, one row per repeat, unscaled; `description` is the TYPE text for structures (type `?`).
 * Fields that are no numbers are NaN. Null when the type is unknown or does not fit the structure's size.
 */
export function klvRows(item: Klv, description: string): Float64Array[] | null {
  let types: string[];
  if (item.type === "?") {
    types = expandType(description);
  } else {
    const size = TYPE_BYTES[item.type];
    if (!size || item.structBytes % size !== 0) return null;
    types = Array.from({ length: item.structBytes / size }, () => item.type);
  }
  const total = types.reduce((sum, type) => sum + (TYPE_BYTES[type] ?? Infinity), 0);
  if (types.length === 0 || total > item.structBytes) return null;
  return Array.from({ length: item.repeat }, (_, row) => {
    const values = new Float64Array(types.length);
    let at = row * item.structBytes;
    types.forEach((type, k) => {
      values[k] = number(item.value, at, type);
      at += TYPE_BYTES[type]!;
    });
    return values;
  });
}
