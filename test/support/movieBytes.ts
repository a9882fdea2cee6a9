/** A box of ISO/IEC 14496-12: its length, its type, its payload. */
function box(type: string, ...payload: readonly Buffer[]): Buffer {
  const inside = Buffer.concat(payload);
  const head = Buffer.alloc(8);
  head.writeUInt32BE(8 + inside.length);
  head.write(type, 4, "latin1");
  return Buffer.concat([head, inside]);
}

function words(...values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(values.length * 4);
  values.forEach((value, k) => bytes.writeInt32BE(value, 4 * k));
  return bytes;
}

/** A movie's index with so many edits over so many samples. */
export function movieIndex(edits: number, samples: number): Buffer {
  const list = Array.from({ length: edits }, () => words(1_000_000, 0, 0x10000));
  return Buffer.concat([
    box("mvhd", words(0, 0, 0, 1000, 0), Buffer.alloc(80)),
    box(
      "trak",
      box("tkhd", words(0, 0, 0, 1, 0, 0), Buffer.alloc(60)),
      box("edts", box("elst", words(0, edits), ...list)),
      box(
        "mdia",
        box("mdhd", words(0, 0, 0, 1000, 0, 0)),
        box("hdlr", words(0, 0), Buffer.from("vide"), Buffer.alloc(12)),
        box("minf", box("stbl", box("stsz", words(0, 1, samples)), box("stts", words(0, 1, samples, 1)))),
      ),
    ),
  ]);
}
