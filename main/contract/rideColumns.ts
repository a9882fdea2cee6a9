/**
 * The plain columns that panels, thread and cards are drawn from: the ride's 1 s grid and the reading's spans, nothing
 * else. `value[k]` stands for ride time [k, k+1). NaN is missing. States are those of the ride's grid:
 * 0 missing, 1 recorded, 2 rejected (a marked spike or dropout), 3 held, 4 paused.
 */
export interface SensorColumn {
  readonly value: Float64Array;
  readonly state: Uint8Array;
}

/** Pressure per second: 0 unknown, 1 off, 2 off and excused, 3 off and cannot tell, 4 below, 5 in, 6 above the band. */
type PressureColumn = Uint8Array;

export interface RideColumns {
  readonly seconds: number;
  /** `variable`: the recorder chose its own steps; power is the last recorded value and is labelled `power`. */
  readonly mode: "every second" | "variable";
  readonly setting: "road" | "trainer" | "group";
  /** How far into each second its first record falls, s; null where all fall on whole seconds. */
  readonly lateS: Float64Array | null;
  readonly power3s: SensorColumn | null;
  readonly heartRate: SensorColumn | null;
  readonly cadence: SensorColumn | null;
  readonly speed: SensorColumn | null;
  /** Not held: NaN in a second without an altitude of its own, but in a `variable` ride. */
  readonly gradientPercent: Float64Array | null;
  readonly altitudeM: Float64Array | null;
  readonly latDeg: Float64Array | null;
  readonly lonDeg: Float64Array | null;
  readonly pressureState: PressureColumn;
  readonly surge: Uint8Array;
  /** Counted seconds so far; NaN outside the counted part. */
  readonly countedS: Float64Array;
  /** Heart beats above the first reading at like power; NaN where it may not be shown. */
  readonly likePowerBeats: Float64Array;
  readonly bandW: { readonly low: number; readonly high: number; readonly target: number } | null;
  readonly countedStartS: number;
  readonly countedEndS: number;
}
