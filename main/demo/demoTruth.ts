import type { Course } from "./course.ts";

/** What happened on the demo ride, as known by construction. */
export type DemoEventKind =
  | "corner"
  | "give way"
  | "level crossing"
  | "lapse"
  | "surge"
  | "climb"
  | "rest over the top"
  | "short coast"
  | "drift onset"
  | "lap press";

export interface DemoEvent {
  readonly kind: DemoEventKind;
  /** Ride time, s. Start and end are equal for what happens at an instant. */
  readonly startS: number;
  readonly endS: number;
  /** Name of the place, or what the rider did. */
  readonly note: string;
}

/** The motion at every tenth of a second; entry `i` stands for ride time `i * stepS`. */
export interface DemoMotion {
  readonly stepS: number;
  readonly distanceM: Float64Array;
  readonly speedMps: Float64Array;
  /** Turns of the cranks since the start. */
  readonly crankTurns: Float64Array;
  /** Turns of the rear wheel's freewheel body against the wheel since the start: it ticks while this grows. */
  readonly freewheelTurns: Float64Array;
  /** Force of the brakes, m/s2 of slowing. */
  readonly brakingMps2: Float64Array;
}

/** The recorder's columns: entry `k` is the record at ride time `k` s. Power and cadence are means of the second before. */
export interface DemoRecords {
  readonly count: number;
  readonly powerW: Float64Array;
  readonly heartRateBpm: Float64Array;
  readonly cadenceRpm: Float64Array;
  readonly speedMps: Float64Array;
  readonly distanceM: Float64Array;
  readonly altitudeM: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
}

export interface DemoTruth {
  readonly seed: number;
  readonly rider: string;
  readonly course: Course;
  /** UTC of the first record, ms since 1970, and the rider's local time minus UTC, minutes. */
  readonly startUtcMs: number;
  readonly utcOffsetMin: number;
  readonly targetW: number;
  readonly toleranceW: number;
  readonly warmUpS: number;
  readonly coolDownS: number;
  readonly eventS: number;
  readonly durationS: number;
  /** When heart rate begins to drift at equal power, ride time, s, and how fast, beats per minute per minute. */
  readonly onsetS: number;
  readonly driftPerMin: number;
  readonly motion: DemoMotion;
  readonly records: DemoRecords;
  /** By start time. */
  readonly events: readonly DemoEvent[];
  /** Presses of the lap button, ride time, s. */
  readonly lapPressesS: readonly number[];
}

/** Interpolates a column of the motion at a ride time; the ends hold. */
export function motionAt(motion: DemoMotion, column: Float64Array, rideS: number): number {
  const at = Math.min(Math.max(rideS / motion.stepS, 0), column.length - 1);
  const i = Math.min(Math.floor(at), column.length - 2);
  return column[i]! + (at - i) * (column[i + 1]! - column[i]!);
}
