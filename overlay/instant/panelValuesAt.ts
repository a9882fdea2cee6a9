import type { PanelName } from "../../main/contract/filmLook.ts";
import type { RideColumns, SensorColumn } from "../../main/contract/rideColumns.ts";
import { cellAt } from "./rideTimeAt.ts";

/** What the panels show at one instant. Null is a dash. Units are the ride's; words and units are put to them when drawn. */
export interface PanelValues {
  /** Whole seconds of ride time; null outside the ride. */
  readonly rideS: number | null;
  /** Whole seconds of the counted part so far; null outside it. */
  readonly countedS: number | null;
  /** Where the instant lies about the counted part; null when there is none or the instant is outside the ride. */
  readonly phase: "warm-up" | "main part" | "cool-down" | null;
  /** Trailing 3 s mean, W; in a `variable` ride the last recorded value. */
  readonly powerW: number | null;
  readonly heartRateBpm: number | null;
  readonly cadenceRpm: number | null;
  readonly speedMps: number | null;
  /** To the nearest 0.5. */
  readonly gradientPercent: number | null;
  /** Whole beats above the first reading at like power. */
  readonly likePowerBeats: number | null;
  /** What another ride shows beside this one, on the panels that say so. Missing: none. */
  readonly then?: ThenShown;
}

/** Another ride's values, at the same spot or at the same time since a common one. */
export interface ThenShown {
  readonly name: string;
  readonly panels: readonly PanelName[];
  /** The gradient is that of the road where the other is, as this ride measured it. */
  readonly values: Omit<PanelValues, "phase" | "then">;
  /** The road that both rode, this ride's whole seconds. */
  readonly road: { readonly fromS: number; readonly toS: number };
  /** Whole seconds of this ride's time at the spot where the other is; null off the road that both rode. */
  readonly spotS: number | null;
}

const RECORDED = 1;
const REJECTED = 2;
const HELD = 3;
const PAUSED = 4;

/** How long past its own second a recorded value may stand, s. */
const HOLD_S = { "every second": 3, variable: 10 } as const;

/**
 * The ride's values at an instant: recorded ones, or null.
 *
 * Heart rate, cadence and speed are the last recorded sample, at most 3 s old (10 s in a `variable` ride); power is
 * not held except in a `variable` ride. Where records fall between whole seconds (`lateS`), a value comes when its record
 * does. A rejected sample (spike, dropout) or a pause is null at once.
 */
export function panelValuesAt(columns: RideColumns, rideS: number): PanelValues {
  const cell = cellAt(rideS);
  const inside = cell >= 0 && cell < columns.seconds;
  // What has been recorded by then: the second under way counts from its own record on.
  const known = inside && cellAt(rideS - (columns.lateS?.[cell] ?? 0)) < cell ? cell - 1 : cell;
  const holdS = HOLD_S[columns.mode];
  const powerHoldS = columns.mode === "variable" ? holdS : 0;
  const sensor = (column: SensorColumn | null, hold: number): number | null =>
    inside ? lastRecorded(column, known, hold) : null;
  const at = (column: Float64Array | null): number | null => finite(inside ? column?.[cell] : undefined);
  const countedS = at(columns.countedS);
  const gradient = finite(inside ? columns.gradientPercent?.[known] : undefined);
  const beats = at(columns.likePowerBeats);
  return {
    rideS: inside ? cell : null,
    countedS: countedS === null ? null : Math.floor(countedS),
    phase: inside ? phaseAt(columns, cell) : null,
    powerW: sensor(columns.power3s, powerHoldS),
    heartRateBpm: sensor(columns.heartRate, holdS),
    cadenceRpm: sensor(columns.cadence, holdS),
    speedMps: sensor(columns.speed, holdS),
    gradientPercent: gradient === null ? null : Math.round(gradient * 2) / 2,
    likePowerBeats: beats === null ? null : Math.round(beats),
  };
}

function phaseAt(columns: RideColumns, cell: number): PanelValues["phase"] {
  if (!(columns.countedEndS > columns.countedStartS)) return null;
  if (cell < columns.countedStartS) return "warm-up";
  return cell < columns.countedEndS ? "main part" : "cool-down";
}

function lastRecorded(column: SensorColumn | null, cell: number, holdS: number): number | null {
  if (column === null) return null;
  for (let k = cell; k >= 0 && cell - k <= holdS; k -= 1) {
    const state = column.state[k];
    if (state === REJECTED || state === PAUSED) return null;
    if (state === RECORDED) return finite(column.value[k]);
    if (state === HELD && holdS === 0) return null;
  }
  return null;
}

function finite(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}
