import type { Reading } from "../contract/reading.ts";
import { CellState, type Channel, type Ride } from "../contract/ride.ts";
import type { RideColumns, SensorColumn } from "../contract/rideColumns.ts";

/** The plain columns that panels, thread and cards are drawn from: the ride's grid and the reading's own spans. */
export function rideColumns(ride: Ride, reading: Reading): RideColumns {
  const { grid } = ride;
  const sensor = (channel: Channel | null): SensorColumn | null =>
    channel && { value: channel.value, state: channel.state };
  const road = reading.setting !== "trainer";
  return {
    seconds: grid.seconds,
    mode: ride.mode,
    setting: reading.setting,
    lateS: lateS(ride),
    power3s: grid.power && grid.power3sW && { value: grid.power3sW, state: grid.power.state },
    heartRate: sensor(grid.heartRate),
    cadence: sensor(grid.cadence),
    // A trainer's speed and gradient are its own invention.
    speed: road ? sensor(grid.speed) : null,
    gradientPercent: road ? ownGradient(ride) : null,
    altitudeM: road ? (grid.altitude?.value ?? null) : null,
    latDeg: road ? (grid.position?.latDeg ?? null) : null,
    lonDeg: road ? (grid.position?.lonDeg ?? null) : null,
    pressureState: reading.columns.pressureState,
    surge: reading.columns.surge,
    countedS: reading.columns.countedS,
    likePowerBeats: reading.columns.likePowerBeats,
    bandW: reading.bandW,
    countedStartS: reading.counted.startS,
    countedEndS: reading.counted.endS,
  };
}

/** A gradient is told by its own second's altitude; one worked out across a hole is left out. */
function ownGradient({ grid, mode }: Ride): Float64Array | null {
  const { gradientPercent, altitude } = grid;
  if (gradientPercent === null || altitude === null || mode === "variable") return gradientPercent;
  return gradientPercent.map((percent, k) => (altitude.state[k] === CellState.recorded ? percent : NaN));
}

/** A record this near to a whole second falls on it, s. */
const ON_THE_SECOND_S = 0.005;

/** How far into each second its first record falls, s; null where all fall on whole seconds. */
function lateS({ raw, grid }: Ride): Float64Array | null {
  const late = new Float64Array(grid.seconds);
  let any = false;
  for (let i = raw.count - 1; i >= 0; i--) {
    const cell = Math.floor(raw.timeS[i]);
    late[cell] = raw.timeS[i] - cell;
    any ||= late[cell] > ON_THE_SECOND_S;
  }
  return any ? late : null;
}
