import { readFileSync, writeFileSync } from "node:fs";

/** Splits a raw GPMF dump into payloads: each begins where the first device comes again. */
export function rawPayloads(raw: Uint8Array): Uint8Array[] {
  const view = new DataView(raw.buffer, raw.byteOffset, raw.byteLength);
  const starts: number[] = [];
  let first = -1;
  for (let at = 0; at + 20 <= raw.length;) {
    const id = view.getUint32(at + 16);
    if (first < 0) first = id;
    if (id === first) starts.push(at);
    at += 8 + 4 * Math.ceil((view.getUint8(at + 5) * view.getUint16(at + 6)) / 4);
  }
  return starts.map((start, k) => raw.subarray(start, starts[k + 1] ?? raw.length));
}

function box(type: string, ...parts: (Uint8Array | number[])[]): Buffer {
  const body = Buffer.concat(parts.map((part) => Buffer.from(part as Uint8Array)));
  const head = Buffer.alloc(8);
  head.writeUInt32BE(body.length + 8, 0);
  head.write(type, 4, "latin1");
  return Buffer.concat([head, body]);
}

const u32 = (...values: number[]) => {
  const bytes = Buffer.alloc(4 * values.length);
  values.forEach((value, k) => bytes.writeUInt32BE(value >>> 0, 4 * k));
  return bytes;
};

/**
 * Adds a telemetry track of a `format` to an MP4 whose index stands last (as ffmpeg writes it): payload i lasts `payloadMs`. The boxes are
 * those of ISO/IEC 14496-12 that a reader needs; the picture's tables stay as they are.
 */
export function wrapTelemetry(
  mp4: string,
  payloads: readonly Uint8Array[],
  output: string,
  payloadMs = 1001,
  format = "gpmd",
): void {
  const file = readFileSync(mp4);
  const moovAt = file.indexOf("moov") - 4;
  const moov = file.subarray(moovAt + 8, moovAt + file.readUInt32BE(moovAt));
  const mdat = box("mdat", ...payloads);
  const offsets: number[] = [];
  let at = moovAt + 8;
  for (const payload of payloads) {
    offsets.push(at);
    at += payload.length;
  }
  const durationMs = payloads.length * payloadMs;
  const unity = u32(0x10000, 0, 0, 0, 0x10000, 0, 0, 0, 0x40000000);
  const trak = box(
    "trak",
    box("tkhd", u32(7, 0, 0, 99, 0, durationMs), new Uint8Array(16), unity, u32(0, 0)),
    box(
      "mdia",
      box("mdhd", u32(0, 0, 0, 1000, durationMs, 0)),
      box("hdlr", u32(0, 0), Buffer.from("meta"), u32(0, 0, 0), [0]),
      box(
        "minf",
        box(
          "stbl",
          box("stsd", u32(0, 1), box(format, u32(0, 1))),
          box("stts", u32(0, 1, payloads.length, payloadMs)),
          box("stsc", u32(0, 1, 1, 1, 1)),
          box("stsz", u32(0, 0, payloads.length, ...payloads.map((p) => p.length))),
          box("stco", u32(0, payloads.length, ...offsets)),
        ),
      ),
    ),
  );
  writeFileSync(output, Buffer.concat([file.subarray(0, moovAt), mdat, box("moov", moov, trak)]));
}
