/** What a camera's own telemetry track says about place, time and turning. Times are media time of the clip, s. */

export interface TelemetryPositions {
  readonly mediaS: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  /** Speed over ground by the receiver, m/s. */
  readonly speedMps: Float64Array;
}

/** The camera's clock as its satellite receiver set it. */
export interface TelemetryUtc {
  /** UTC of media time 0, ms since 1970. */
  readonly startUtcMs: number;
  /** Standard error, scatter and fixed part together, s. */
  readonly sigmaS: number;
  readonly source: "GPSU" | "GPS9" | "CAMM" | "NMEA";
}

/** What a telemetry track fails to give. */
export type TelemetryLack =
  | { readonly kind: "parts unread"; readonly unread: number; readonly parts: number }
  | { readonly kind: "no places" }
  | { readonly kind: "no fix" };

export interface ClipTelemetry {
  readonly clipId: string;
  /** Only samples with a fix that can be trusted, 10 s or more after lock; null when there are none. */
  readonly positions: TelemetryPositions | null;
  readonly utc: TelemetryUtc | null;
  /** Turning about the axes of the camera as the stream orders them, rad/s; null without a gyroscope. */
  readonly gyro: {
    readonly mediaS: Float64Array;
    readonly axes: readonly [Float64Array, Float64Array, Float64Array];
  } | null;
  /** Acceleration in the same way, m/s2. */
  readonly acceleration: {
    readonly mediaS: Float64Array;
    readonly axes: readonly [Float64Array, Float64Array, Float64Array];
  } | null;
  /** Bytes read for it, beside the container's tables. */
  readonly bytesRead: number;
  readonly lacks: readonly TelemetryLack[];
}
