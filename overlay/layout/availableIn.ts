import type { RideColumns, SensorColumn } from "../../main/contract/rideColumns.ts";
import type { AvailableChannels } from "./layout.ts";

/** What a ride's columns can fill. */
export function availableIn(columns: RideColumns): AvailableChannels {
  const trainer = columns.setting === "trainer";
  return {
    power: has(columns.power3s),
    heartRate: has(columns.heartRate),
    cadence: has(columns.cadence),
    speed: !trainer && has(columns.speed),
    gradient: !trainer && anyFinite(columns.gradientPercent),
    position: !trainer && anyFinite(columns.latDeg) && anyFinite(columns.lonDeg),
    mainPart: anyFinite(columns.countedS),
    likePower: anyFinite(columns.likePowerBeats),
    band: columns.bandW !== null && has(columns.power3s),
    pressure: columns.pressureState.some((state) => state !== 0),
    variable: columns.mode === "variable",
    tenHours: columns.seconds > TEN_HOURS_S,
  };
}

/** From here on a time takes one figure more, s. */
const TEN_HOURS_S = 36_000;

function has(column: SensorColumn | null): boolean {
  return column !== null && anyFinite(column.value);
}

function anyFinite(column: Float64Array | null): boolean {
  return column !== null && column.some((value) => Number.isFinite(value));
}
