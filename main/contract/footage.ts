import type { Note } from "./notice.ts";
/** Footage: what a clip's container says, before any line-up. Times are presentation times after edit lists. */

export interface Rational {
  readonly num: number;
  readonly den: number;
}

/** Presentation times of the video frames, ascending, as integers over `timescale`; from the container's own tables. */
export interface FrameTimes {
  readonly timescale: number;
  readonly ticks: Float64Array;
  /** Index of each keyframe. */
  readonly keyframes: Uint32Array;
  /** Where the last frame ends, in ticks. */
  readonly endTicks: number;
}

export interface ClipColour {
  readonly range: "tv" | "pc";
  readonly primaries: string | null;
  readonly transfer: string | null;
  readonly matrix: string | null;
  /** Bits a sample: 8 or 10. */
  readonly bitDepth: number;
  /** True for smpte2084 or arib-std-b67: tone-mapped to BT.709 before panels go on. */
  readonly hdr: boolean;
}

export interface ClipAudio {
  readonly codec: string;
  readonly sampleRateHz: number;
  readonly channels: number;
}

/** A timecode track, read against the track's own division (frame number x frame duration / timescale). */
export interface ClipTimecode {
  readonly frameNumber: number;
  readonly timeOfDayS: number;
  readonly dropFrame: boolean;
}

/** A place on earth. */
export interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}

export interface Clip {
  /** Position in the list of clips as given; stable name in every later step. */
  readonly id: string;
  readonly path: string;
  readonly fileName: string;
  readonly bytes: number;
  /** Hash of size, ends and places between: finds a clip again after a move. */
  readonly fingerprint: string;
  /** Duration of the video track, s. */
  readonly durationS: number;
  /** Size as shown, after rotation and with square pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly codedWidthPx: number;
  readonly codedHeightPx: number;
  readonly rotationDeg: 0 | 90 | 180 | 270;
  readonly mirrored: boolean;
  readonly pixelAspect: Rational;
  /** Exact rate where constant; the mean rate where variable. */
  readonly frameRate: Rational;
  readonly variableRate: boolean;
  /** How many times slower than life it plays, where the file states the rate it was taken at; absent else. */
  readonly slowedBy?: number;
  readonly frames: FrameTimes;
  readonly videoCodec: string;
  readonly colour: ClipColour;
  readonly audio: ClipAudio | null;
  /** Creation time as the container claims it, UTC, ms since 1970; null when 0 or absent. */
  readonly createdUtcMs: number | null;
  readonly timecode: ClipTimecode | null;
  /** Maker and model as the container states them, or null: used to tell cameras apart. */
  readonly camera: string | null;
  /** The camera's serial number as its settings state it, and its firmware, which others of its model share; absent where they don't. */
  readonly serial?: string;
  readonly firmware?: string;
  /** True where a program has written the file anew: a trim may have moved its first frame and left its times. Absent else. */
  readonly rewritten?: true;
  /** The one place that the file names, as phones write it: which ride, not where in it. Absent where it names none. */
  readonly filmedAt?: Place;
  /** True when the container has a telemetry track (`gpmd`, `camm`) or a text track that tells places. */
  readonly hasTelemetry: boolean;
  readonly warnings: readonly Note[];
}
