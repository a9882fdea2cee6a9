import { open, readFile } from "node:fs/promises";
import { childBox, childBoxes, topBoxes } from "../footage/mp4/boxes.ts";
import { fileSource } from "../footage/mp4/fileSource.edge.ts";

const unity = [0x10000, 0, 0, 0, 0x10000, 0, 0, 0, 0x40000000];

function box(type: string, ...parts: readonly Uint8Array[]): Buffer {
  const head = Buffer.alloc(8);
  head.writeUInt32BE(8 + parts.reduce((sum, part) => sum + part.length, 0));
  head.write(type, 4, "latin1");
  return Buffer.concat([head, ...parts]);
}

function words(...values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(4 * values.length);
  values.forEach((value, k) => bytes.writeUInt32BE(value, 4 * k));
  return bytes;
}

/** The index box of an opened file, which is closed then. */
async function indexOf(source: Awaited<ReturnType<typeof fileSource>>) {
  try {
    return (await topBoxes(source)).find(({ type }) => type === "moov");
  } finally {
    await source.close();
  }
}

/**
 * Adds a telemetry track (`gpmd`, one payload each `payloadS`) to an MP4 whose index stands last: the payloads take the
 * index's place, and the index, one track longer, follows them (boxes of ISO/IEC 14496-12). The picture and sound before
 * them stay where they are.
 */
export async function addTelemetryTrack(
  file: string,
  payloads: readonly Uint8Array[],
  payloadS: number,
  durationS: number,
): Promise<void> {
  const source = await fileSource(file);
  const moov = await indexOf(source);
  if (moov?.end !== source.size) throw new RangeError(`${file} does not end with its index.`);
  const index = (await readFile(file)).subarray(moov.start, moov.end);
  const view = new DataView(index.buffer, index.byteOffset, index.byteLength);
  const mvhd = childBox(view, { start: 0, end: index.length }, "mvhd")!;
  if (view.getUint8(mvhd.start) !== 0) throw new RangeError(`${file} has an index of an unforeseen version.`);
  const movieScale = view.getUint32(mvhd.start + 12);
  // The last field of the movie's header is the number that the next track gets.
  const id = view.getUint32(mvhd.end - 4);
  view.setUint32(mvhd.end - 4, id + 1);
  const lastTrack = childBoxes(view, 0, index.length)
    .filter(({ type }) => type === "trak")
    .at(-1)!;

  const scale = 10_000;
  const each = Math.round(payloadS * scale);
  const last = Math.max(1, Math.round(durationS * scale) - each * (payloads.length - 1));
  const total = each * (payloads.length - 1) + last;
  let at = moov.offset + 8;
  const offsets = payloads.map((payload) => (at += payload.length) - payload.length);
  const name = Buffer.from("telemetry\0", "latin1");
  const track = box(
    "trak",
    box("tkhd", words(3, 0, 0, id, 0, Math.round((total / scale) * movieScale), 0, 0, 0, 0, ...unity, 0, 0)),
    box(
      "mdia",
      box("mdhd", words(0, 0, 0, scale, total, 0x55c40000)),
      box("hdlr", words(0, 0), Buffer.from("meta"), words(0, 0, 0), name),
      box(
        "minf",
        box("nmhd", words(0)),
        box("dinf", box("dref", words(0, 1), box("url ", words(1)))),
        box(
          "stbl",
          box("stsd", words(0, 1), box("gpmd", words(0, 1))),
          box("stts", words(0, 2, payloads.length - 1, each, 1, last)),
          box("stsc", words(0, 1, 1, 1, 1)),
          box("stsz", words(0, 0, payloads.length, ...payloads.map((payload) => payload.length))),
          box("stco", words(0, payloads.length, ...offsets)),
        ),
      ),
    ),
  );
  const whole = box("moov", index.subarray(0, lastTrack.end), track, index.subarray(lastTrack.end));
  const handle = await open(file, "r+");
  try {
    await handle.truncate(moov.offset);
    await handle.write(Buffer.concat([box("mdat", ...payloads), whole]), 0, undefined, moov.offset);
  } finally {
    await handle.close();
  }
}
