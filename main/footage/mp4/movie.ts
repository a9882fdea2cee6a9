/** The parts of an MP4 or MOV file's `moov` box that the program uses; names and units as in ISO/IEC 14496-12. */

/** One entry of an edit list (8.6.6). */
export interface Edit {
  /** In the movie's time base; 0 means to the end. */
  readonly segmentDuration: number;
  /** In the track's time base; -1 is an empty edit (a delay). */
  readonly mediaTime: number;
  readonly rate: number;
}

/** Runs of equal values: `count` samples with `value` each. */
export interface Run {
  readonly count: number;
  readonly value: number;
}

/** Where the samples of a track lie in the file. */
export interface SampleTable {
  readonly count: number;
  /** Length of each sample, bytes: one value for all, or one for each. */
  readonly sizes: number | Uint32Array;
  /** File offset of each chunk. */
  readonly chunkOffsets: Float64Array;
  /** `firstChunk` counts from 1. */
  readonly chunkRuns: readonly { readonly firstChunk: number; readonly samplesPerChunk: number }[];
}

export interface SampleEntry {
  /** Four-character code of the coding, e.g. `avc1`, `tmcd`, `gpmd`. */
  readonly format: string;
  /** The entry's bytes after the 8 common ones (reserved and data reference index). */
  readonly bytes: Uint8Array;
}

export interface Track {
  readonly id: number;
  /** `vide`, `soun`, `tmcd`, `meta`, ... */
  readonly handler: string;
  /** Raw creation times of `tkhd` and `mdhd`, s since 1904; 0 is unknown. */
  readonly tkhdCreated: number;
  readonly mdhdCreated: number;
  /** Ticks a second of the track's own times. */
  readonly timescale: number;
  /** Matrix a, b, c, d of `tkhd` (16.16 made real). */
  readonly matrix: readonly [number, number, number, number];
  readonly edits: readonly Edit[];
  readonly entry: SampleEntry | null;
  /** stts: length of each sample, ticks. */
  readonly durations: readonly Run[];
  /** ctts: presentation minus decoding time, ticks; empty when they are equal. */
  readonly compositionOffsets: readonly Run[];
  /** stss, counted from 0; null when every sample is a sync sample. */
  readonly syncSamples: Uint32Array | null;
  readonly samples: SampleTable;
  /** Track ids that this one refers to as its timecode. */
  readonly timecodeTracks: readonly number[];
}

export interface Movie {
  /** Raw creation time of `mvhd`, s since 1904; 0 is unknown. */
  readonly created: number;
  readonly timescale: number;
  readonly tracks: readonly Track[];
  /** True when samples lie in fragments (`mvex`), whose tables are not in `moov`. */
  readonly fragmented: boolean;
  /** GPMF settings and highlight marks in the user data, or null. */
  readonly userTelemetry: Uint8Array | null;
}
