import { childBox, childBoxes, fourCc, type Box } from "./boxes.ts";
import type { Edit, Movie, Run, SampleEntry, SampleTable, Track } from "./movie.ts";

/** A file may claim any number of samples; more than this (46 h at 120 frames a second) is taken for damage. */
const MAX_SAMPLES = 20_000_000;

/** Each edit is looked for in every sample; more such steps than for two edits of the longest track are taken for damage. */
const MAX_EDIT_STEPS = 2 * MAX_SAMPLES;

function u64(view: DataView, at: number): number {
  return view.getUint32(at) * 2 ** 32 + view.getUint32(at + 4);
}

function i64(view: DataView, at: number): number {
  return Number(view.getBigInt64(at));
}

/** Entries that both the count field and the box's length allow. */
function entryCount(view: DataView, box: Box, at: number, entryBytes: number): number {
  if (at + 4 > box.end) return 0;
  return Math.max(0, Math.min(view.getUint32(at), Math.floor((box.end - at - 4) / entryBytes), MAX_SAMPLES));
}

interface HeaderTimes {
  readonly created: number;
  /** Byte after the creation and modification times. */
  readonly after: number;
  readonly wide: boolean;
}

function headerTimes(view: DataView, box: Box): HeaderTimes | null {
  if (box.end - box.start < 20) return null;
  const wide = view.getUint8(box.start) === 1;
  if (wide && box.end - box.start < 32) return null;
  const at = box.start + 4;
  return wide ? { created: u64(view, at), after: at + 16, wide } : { created: view.getUint32(at), after: at + 8, wide };
}

function parseRuns(view: DataView, box: Box | null, signed: boolean): Run[] {
  if (!box) return [];
  const count = entryCount(view, box, box.start + 4, 8);
  const runs: Run[] = [];
  let total = 0;
  for (let k = 0; k < count; k++) {
    const at = box.start + 8 + 8 * k;
    const n = Math.min(view.getUint32(at), MAX_SAMPLES - total);
    total += n;
    runs.push({ count: n, value: signed ? view.getInt32(at + 4) : view.getUint32(at + 4) });
  }
  return runs;
}

function parseEdits(view: DataView, trak: Box): Edit[] {
  const edts = childBox(view, trak, "edts");
  const elst = edts && childBox(view, edts, "elst");
  if (!elst || elst.end - elst.start < 8) return [];
  const wide = view.getUint8(elst.start) === 1;
  const bytes = wide ? 20 : 12;
  const count = entryCount(view, elst, elst.start + 4, bytes);
  const edits: Edit[] = [];
  for (let k = 0; k < count; k++) {
    const at = elst.start + 8 + bytes * k;
    edits.push({
      segmentDuration: wide ? u64(view, at) : view.getUint32(at),
      mediaTime: wide ? i64(view, at + 8) : view.getInt32(at + 4),
      rate: view.getInt16(at + bytes - 4) + view.getUint16(at + bytes - 2) / 65536,
    });
  }
  return edits;
}

function parseEntry(view: DataView, stbl: Box): SampleEntry | null {
  const stsd = childBox(view, stbl, "stsd");
  const first = stsd && childBoxes(view, stsd.start + 8, stsd.end)[0];
  if (!first) return null;
  const from = Math.min(first.start + 8, first.end);
  return { format: first.type, bytes: new Uint8Array(view.buffer, view.byteOffset + from, first.end - from) };
}

function parseSampleTable(view: DataView, stbl: Box): SampleTable {
  const stsz = childBox(view, stbl, "stsz");
  let sizes: number | Uint32Array = 0;
  let count = 0;
  if (stsz && stsz.end - stsz.start >= 12) {
    const one = view.getUint32(stsz.start + 4);
    if (one > 0) {
      sizes = one;
      count = Math.min(view.getUint32(stsz.start + 8), MAX_SAMPLES);
    } else {
      count = entryCount(view, stsz, stsz.start + 8, 4);
      const each = new Uint32Array(count);
      for (let k = 0; k < count; k++) each[k] = view.getUint32(stsz.start + 12 + 4 * k);
      sizes = each;
    }
  }
  const co64 = childBox(view, stbl, "co64");
  const stco = co64 ?? childBox(view, stbl, "stco");
  const entryBytes = co64 ? 8 : 4;
  const chunks = stco ? entryCount(view, stco, stco.start + 4, entryBytes) : 0;
  const chunkOffsets = new Float64Array(chunks);
  for (let k = 0; k < chunks; k++) {
    const at = stco!.start + 8 + entryBytes * k;
    chunkOffsets[k] = co64 ? u64(view, at) : view.getUint32(at);
  }
  const stsc = childBox(view, stbl, "stsc");
  const runCount = stsc ? entryCount(view, stsc, stsc.start + 4, 12) : 0;
  const chunkRuns = [];
  for (let k = 0; k < runCount; k++) {
    const at = stsc!.start + 8 + 12 * k;
    chunkRuns.push({ firstChunk: view.getUint32(at), samplesPerChunk: view.getUint32(at + 4) });
  }
  return { count, sizes, chunkOffsets, chunkRuns };
}

function parseSync(view: DataView, stbl: Box): Uint32Array | null {
  const stss = childBox(view, stbl, "stss");
  if (!stss) return null;
  const count = entryCount(view, stss, stss.start + 4, 4);
  const samples = new Uint32Array(count);
  for (let k = 0; k < count; k++) samples[k] = Math.max(0, view.getUint32(stss.start + 8 + 4 * k) - 1);
  return samples;
}

function parseTrack(view: DataView, trak: Box): Track | null {
  const tkhd = childBox(view, trak, "tkhd");
  const mdia = childBox(view, trak, "mdia");
  const mdhd = mdia && childBox(view, mdia, "mdhd");
  const hdlr = mdia && childBox(view, mdia, "hdlr");
  const minf = mdia && childBox(view, mdia, "minf");
  const stbl = minf && childBox(view, minf, "stbl");
  if (!tkhd || !mdhd || !hdlr || !stbl || hdlr.end - hdlr.start < 12) return null;
  const trackTimes = headerTimes(view, tkhd);
  const mediaTimes = headerTimes(view, mdhd);
  if (!trackTimes || !mediaTimes) return null;
  // tkhd after the times: id 4, reserved 4, duration 4 or 8, reserved 8, layer 2, group 2, volume 2, reserved 2, matrix 36
  const matrixAt = trackTimes.after + 8 + (trackTimes.wide ? 8 : 4) + 16;
  const fixed = (k: number) =>
    matrixAt + 4 * k + 4 <= tkhd.end ? view.getInt32(matrixAt + 4 * k) / 65536 : k % 4 === 0 ? 1 : 0;
  const tref = childBox(view, trak, "tref");
  const tmcd = tref && childBox(view, tref, "tmcd");
  const timecodeTracks: number[] = [];
  if (tmcd) for (let at = tmcd.start; at + 4 <= tmcd.end; at += 4) timecodeTracks.push(view.getUint32(at));
  return {
    id: view.getUint32(trackTimes.after),
    handler: fourCc(view, hdlr.start + 8),
    tkhdCreated: trackTimes.created,
    mdhdCreated: mediaTimes.created,
    timescale: view.getUint32(mediaTimes.after),
    matrix: [fixed(0), fixed(1), fixed(3), fixed(4)],
    edits: parseEdits(view, trak),
    entry: parseEntry(view, stbl),
    durations: parseRuns(view, childBox(view, stbl, "stts"), false),
    // version 0 says unsigned, yet writers put negative numbers there too; no real offset reaches 2^31
    compositionOffsets: parseRuns(view, childBox(view, stbl, "ctts"), true),
    syncSamples: parseSync(view, stbl),
    samples: parseSampleTable(view, stbl),
    timecodeTracks,
  };
}

/**
 * The payload of a `moov` box as tables. Damaged tracks are left out; counts are held to the bytes that are there.
 * Null when there is no usable movie header, or a track asks for endless work.
 */
export function parseMovie(moov: Uint8Array): Movie | null {
  const view = new DataView(moov.buffer, moov.byteOffset, moov.byteLength);
  const whole = { start: 0, end: moov.length };
  const mvhd = childBox(view, whole, "mvhd");
  const times = mvhd && headerTimes(view, mvhd);
  if (!times) return null;
  const tracks: Track[] = [];
  for (const box of childBoxes(view, 0, moov.length)) {
    const track = box.type === "trak" ? parseTrack(view, box) : null;
    if (track && track.edits.length * track.samples.count > MAX_EDIT_STEPS) return null;
    if (track && track.timescale > 0) tracks.push(track);
  }
  const udta = childBox(view, whole, "udta");
  const gpmf = udta && childBox(view, udta, "GPMF");
  return {
    created: times.created,
    timescale: view.getUint32(times.after) || 1000,
    tracks,
    fragmented: childBox(view, whole, "mvex") !== null,
    userTelemetry: gpmf ? moov.subarray(gpmf.start, gpmf.end) : null,
  };
}
