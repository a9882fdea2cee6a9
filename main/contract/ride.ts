/**
 * One recorded ride, as every step after `ride/` sees it.
 *
 * Time is ride time: seconds since the first valid record, elapsed, never paused. Missing is NaN in columns and null
 * in single values; it is never 0.
 */

import type { Note } from "./notice.ts";

export type RideFormat = "fit" | "gpx" | "tcx" | "csv";

/** `every second`: at least 80 % of the steps between records are 1 s. `variable`: the recorder chose its own steps. */
export type RecordingMode = "every second" | "variable";

/** The records as the file holds them, sorted by time; all columns have `count` entries. NaN: no value. */
export interface RawRecords {
  readonly count: number;
  /** Exact time of each record, s from the first valid one. */
  readonly timeS: Float64Array;
  readonly powerW: Float64Array;
  readonly heartRateBpm: Float64Array;
  readonly cadenceRpm: Float64Array;
  readonly speedMps: Float64Array;
  readonly distanceM: Float64Array;
  readonly altitudeM: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  readonly temperatureC: Float64Array;
  /** Share of power from the left pedal, percent. */
  readonly leftPercent: Float64Array;
}

/** How a grid cell came by its value. Only `recorded` and `held` cells carry a number. */
export const CellState = { missing: 0, recorded: 1, rejected: 2, held: 3, paused: 4 } as const;
export type CellState = (typeof CellState)[keyof typeof CellState];

/** One sensor on the 1 s grid; `value[k]` stands for ride time [k, k+1). NaN unless the state is recorded or held. */
export interface Channel {
  readonly value: Float64Array;
  /** A `CellState` per second; `rejected` marks spikes and dropouts, which are shown as a dash. */
  readonly state: Uint8Array;
}

/** The ride on a 1 s grid. Every array has `seconds` entries. */
export interface RideGrid {
  readonly seconds: number;
  /** Conditioned sensors: null when the file has no such sensor, or it was 0 or invalid throughout. */
  readonly power: Channel | null;
  readonly heartRate: Channel | null;
  readonly cadence: Channel | null;
  readonly speed: Channel | null;
  readonly altitude: Channel | null;
  readonly position: {
    readonly latDeg: Float64Array;
    readonly lonDeg: Float64Array;
    readonly state: Uint8Array;
  } | null;
  /** Cumulative distance, m, from the recorder where it has one, else from positions. NaN where unknown; null without either. */
  readonly distanceM: Float64Array | null;
  /** Trailing 3 s mean of power, W, zeros counted; NaN with fewer than 2 of 3 present. In a `variable` ride: the last recorded value. */
  readonly power3sW: Float64Array | null;
  /** Centred 30 s mean of power, W, zeros counted; NaN with fewer than 24 of 30 present. */
  readonly power30sW: Float64Array | null;
  /** Grade of the road, percent (rise over run x 100), positive uphill; NaN below 2 m/s or without altitude. */
  readonly gradientPercent: Float64Array | null;
  /** Course over ground, degrees, unwrapped (runs past 360); NaN below 2 m/s. */
  readonly headingDeg: Float64Array | null;
  /** Radius of the path, m; Infinity when straight (over 200 m); NaN when unknown. */
  readonly turnRadiusM: Float64Array | null;
  /** 1 while moving (speed of at least 1 m/s; without speed: cadence above 0), else 0. */
  readonly moving: Uint8Array;
  /** 1 where the recorder was paused (timer stopped), else 0. */
  readonly paused: Uint8Array;
  /** Timer time at the start of each cell, s: elapsed less pauses. */
  readonly timerS: Float64Array;
  /** Moving time at the start of each cell, s. */
  readonly movingS: Float64Array;
}

export interface Span {
  readonly startS: number;
  readonly endS: number;
}

export interface Lap extends Span {
  /** `manual` only when the file says that a person pressed the button, and the laps are not all of one length. */
  readonly trigger: "manual" | "auto" | "unknown";
}

/** `pause`: the timer was stopped. `lost`: no record and no timer event explains it. */
export interface Gap extends Span {
  readonly kind: "pause" | "lost";
}

export interface Ride {
  /** Base name of the file, for people. */
  readonly fileName: string;
  readonly format: RideFormat;
  /** Time of the first valid record, UTC, ms since 1970; null when the file has no calendar date. */
  readonly startUtcMs: number | null;
  /** The rider's local time minus UTC at the start, minutes: as the file says, else by the zone of its first position; null where neither is known. */
  readonly utcOffsetMin: number | null;
  readonly mode: RecordingMode;
  /** The file says that it was ridden indoors. */
  readonly indoors?: boolean;
  readonly elapsedS: number;
  readonly raw: RawRecords;
  readonly grid: RideGrid;
  readonly gaps: readonly Gap[];
  readonly laps: readonly Lap[];
  /** What is odd in the file, each once. */
  readonly warnings: readonly Note[];
}
