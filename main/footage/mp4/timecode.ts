import type { ClipTimecode } from "../../contract/footage.ts";
import type { SampleEntry } from "./movie.ts";

/**
 * A timecode sample (QuickTime File Format, timecode media) read against the track's own division:
 * time of day = frame number x frame duration / timescale. The number of frames per second in the same entry is a
 * label only (29 or 30 for 29.97) and is not used; dividing by it is 3.6 s an hour wrong.
 * Null when the entry is short, its division is 0 or the result is not a time of day.
 */
export function timecodeOf(entry: SampleEntry, sample: Uint8Array): ClipTimecode | null {
  if (entry.format !== "tmcd" || entry.bytes.length < 17 || sample.length < 4) return null;
  const view = new DataView(entry.bytes.buffer, entry.bytes.byteOffset, entry.bytes.byteLength);
  const flags = view.getUint32(4);
  const timescale = view.getUint32(8);
  const frameDuration = view.getUint32(12);
  if (timescale === 0 || frameDuration === 0) return null;
  const frameNumber = new DataView(sample.buffer, sample.byteOffset, sample.byteLength).getUint32(0);
  const timeOfDayS = (frameNumber * frameDuration) / timescale;
  if (timeOfDayS >= 86_400) return null;
  return { frameNumber, timeOfDayS, dropFrame: (flags & 1) === 1 };
}
