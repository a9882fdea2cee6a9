import type { Reading } from "../contract/reading.ts";
import type { Channel, Ride } from "../contract/ride.ts";
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
    power3s: grid.power && grid.power3sW && { value: grid.power3sW, state: grid.power.state },
    heartRate: sensor(grid.heartRate),
    cadence: sensor(grid.cadence),
    // A trainer's speed and gradient are its own invention.
    speed: road ? sensor(grid.speed) : null,
    gradientPercent: road ? grid.gradientPercent : null,
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
