import { childBox } from "../mp4/boxes.ts";
import type { SampleEntry } from "../mp4/movie.ts";

/** How pictures of a track become a stream that a decoder takes without a container (ISO/IEC 14496-15; start codes of ITU-T H.264 and H.265, annex B). */
export interface StreamForm {
  readonly format: "h264" | "hevc";
  /** Parameter sets, start-coded: what stands before the first picture. */
  readonly head: Uint8Array;
  /** Bytes of the length before each unit in a sample. */
  readonly lengthBytes: number;
}

/** Children of a visual sample entry begin after so many bytes (12.1.3, less the 8 common ones). */
const VISUAL_BYTES = 70;

function startCoded(units: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(units.reduce((sum, unit) => sum + 4 + unit.length, 0));
  let at = 0;
  for (const unit of units) {
    out[at + 3] = 1;
    out.set(unit, at + 4);
    at += 4 + unit.length;
  }
  return out;
}

/** Takes `count` units with 16-bit lengths from `at`; the position after them, or null when one goes past the end. */
function takeUnits(view: DataView, at: number, count: number, into: Uint8Array[]): number | null {
  let next = at;
  for (let k = 0; k < count; k++) {
    if (next + 2 > view.byteLength) return null;
    const length = view.getUint16(next);
    if (next + 2 + length > view.byteLength) return null;
    into.push(new Uint8Array(view.buffer, view.byteOffset + next + 2, length));
    next += 2 + length;
  }
  return next;
}

/** The form of an H.264 or HEVC track; null for another coding or a damaged description. */
export function streamForm({ format, bytes }: SampleEntry): StreamForm | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const inside = { start: VISUAL_BYTES, end: bytes.length };
  const box = /^avc[13]$/.test(format)
    ? childBox(view, inside, "avcC")
    : /^h(vc|ev)1$/.test(format)
      ? childBox(view, inside, "hvcC")
      : null;
  if (!box) return null;
  const config = new DataView(bytes.buffer, bytes.byteOffset + box.start, box.end - box.start);
  const units: Uint8Array[] = [];
  if (box.type === "avcC") {
    if (config.byteLength < 7) return null;
    const after = takeUnits(config, 6, config.getUint8(5) & 31, units);
    if (
      after === null ||
      after >= config.byteLength ||
      takeUnits(config, after + 1, config.getUint8(after), units) === null
    )
      return null;
    return { format: "h264", head: startCoded(units), lengthBytes: (config.getUint8(4) & 3) + 1 };
  }
  if (config.byteLength < 23) return null;
  let at = 23;
  for (let k = 0; k < config.getUint8(22); k++) {
    if (at + 3 > config.byteLength) return null;
    const after = takeUnits(config, at + 3, config.getUint16(at + 1), units);
    if (after === null) return null;
    at = after;
  }
  return { format: "hevc", head: startCoded(units), lengthBytes: (config.getUint8(21) & 3) + 1 };
}

/** A sample as part of the stream; null when its lengths lie. */
export function streamPicture(sample: Uint8Array, { lengthBytes }: StreamForm): Uint8Array | null {
  const units: Uint8Array[] = [];
  let at = 0;
  while (at + lengthBytes <= sample.length) {
    let length = 0;
    for (let k = 0; k < lengthBytes; k++) length = length * 256 + sample[at + k];
    at += lengthBytes;
    if (at + length > sample.length) return null;
    units.push(sample.subarray(at, at + length));
    at += length;
  }
  return units.length > 0 ? startCoded(units) : null;
}
