/**
 * Writes items of the GPMF format (public specification, gopro/gpmf-parser README): big-endian; key of four characters,
 * type of one, size of a structure in one byte, repeat in two; the value padded with zeros to a multiple of four bytes.
 */
function item(key: string, type: string, structBytes: number, repeat: number, value: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(8 + 4 * Math.ceil(value.length / 4));
  const view = new DataView(bytes.buffer);
  for (let k = 0; k < 4; k++) bytes[k] = key.charCodeAt(k);
  bytes[4] = type.charCodeAt(0);
  bytes[5] = structBytes;
  view.setUint16(6, repeat);
  bytes.set(value, 8);
  return bytes;
}

const WIDTH = { l: 4, L: 4, S: 2 } as const;

/** Whole numbers, `perRow` to a structure: `l` int32, `L` uint32, `S` uint16. */
export function gpmfNumbers(key: string, type: keyof typeof WIDTH, values: readonly number[], perRow = 1): Uint8Array {
  const width = WIDTH[type];
  const value = new Uint8Array(width * values.length);
  const view = new DataView(value.buffer);
  values.forEach((v, k) =>
    type === "S" ? view.setUint16(2 * k, v) : type === "l" ? view.setInt32(4 * k, v) : view.setUint32(4 * k, v),
  );
  return item(key, type, width * perRow, values.length / perRow, value);
}

/** Texts of one length each (type `c`, or `U` for a date), shorter ones filled up with zeros; Latin-1. */
export function gpmfTexts(key: string, texts: readonly string[], type: "c" | "U" = "c"): Uint8Array {
  const length = Math.max(...texts.map((text) => text.length));
  const value = new Uint8Array(length * texts.length);
  texts.forEach((text, row) => {
    for (let k = 0; k < text.length; k++) value[row * length + k] = text.charCodeAt(k);
  });
  // One text is so many single characters; several are structures.
  if (texts.length === 1 && type === "c") return item(key, type, 1, length, value);
  return item(key, type, length, texts.length, value);
}

/** A nest of items (type 0). */
export function gpmfNest(key: string, items: readonly Uint8Array[]): Uint8Array {
  const value = new Uint8Array(items.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of items) {
    value.set(part, at);
    at += part.length;
  }
  return item(key, "\0", 1, value.length, value);
}
