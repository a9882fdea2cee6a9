import type { RideColumns, SensorColumn } from "../../../main/contract/rideColumns.ts";

const SECONDS = 7800;
const RECORDED = 1;

/** Same numbers on every run: 16807 s mod (2^31 - 1), Park and Miller 1988. */
export function seededShares(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

function sensor(value: (k: number) => number): SensorColumn {
  return {
    value: Float64Array.from({ length: SECONDS }, (_, k) => value(k)),
    state: new Uint8Array(SECONDS).fill(RECORDED),
  };
}

/** Height of an invented rolling road, m. */
function altitudeM(k: number): number {
  return 240 + 60 * Math.sin(k / 610) + 14 * Math.sin(k / 47 + 1) + 5 * Math.sin(k / 19);
}

/**
 * An invented ride of 2 h 10: steady near 187 W in a band of 175 to 199 W, with every state of the thread around
 * 1:12:00 (below, above, off, excused, cannot tell).
 */
export function sampleRide(changes: Partial<RideColumns> = {}): RideColumns {
  const pressureState = new Uint8Array(SECONDS).fill(5);
  const set = (from: number, to: number, state: number): void => void pressureState.fill(state, from, to);
  set(4262, 4270, 1);
  set(4270, 4278, 4);
  set(4292, 4300, 6);
  set(4308, 4316, 2);
  set(4322, 4328, 3);
  const counted = { startS: 600, endS: 7200 };
  const gradient = Float64Array.from({ length: SECONDS }, (_, k) => ((altitudeM(k + 5) - altitudeM(k - 5)) / 85) * 100);
  return {
    seconds: SECONDS,
    mode: "every second",
    setting: "road",
    lateS: null,
    power3s: sensor((k) =>
      pressureState[k] === 1 || pressureState[k] === 2 ? 0 : 187 + 16 * Math.sin(k / 7) + 6 * Math.sin(k / 2.3),
    ),
    heartRate: sensor((k) => Math.round(128 + k / 1100 + 2 * Math.sin(k / 31))),
    cadence: sensor((k) =>
      pressureState[k] === 1 || pressureState[k] === 2 ? 0 : Math.round(86 + 3 * Math.sin(k / 11)),
    ),
    speed: sensor((k) => 8.7 - gradient[k]! * 0.55),
    gradientPercent: gradient,
    altitudeM: Float64Array.from({ length: SECONDS }, (_, k) => altitudeM(k)),
    latDeg: Float64Array.from(
      { length: SECONDS },
      (_, k) => 47.1 + 0.06 * Math.sin((2 * Math.PI * k) / SECONDS) + 0.011 * Math.sin(k / 400),
    ),
    lonDeg: Float64Array.from(
      { length: SECONDS },
      (_, k) => 9.4 + 0.1 * Math.cos((2 * Math.PI * k) / SECONDS) + 0.014 * Math.cos(k / 530),
    ),
    pressureState,
    surge: new Uint8Array(SECONDS),
    countedS: Float64Array.from({ length: SECONDS }, (_, k) =>
      k >= counted.startS && k < counted.endS ? k - counted.startS : Number.NaN,
    ),
    likePowerBeats: Float64Array.from({ length: SECONDS }, (_, k) =>
      k > 2400 ? Math.round((k - 2400) / 330) : Number.NaN,
    ),
    bandW: { low: 175, high: 199, target: 187 },
    countedStartS: counted.startS,
    countedEndS: counted.endS,
    ...changes,
  };
}

/** The same ride after hours of which nothing was recorded and that count as its main part. @param beforeS whole seconds */
export function lateInRide(ride: RideColumns, beforeS: number): RideColumns {
  const after = (column: Float64Array, before: number): Float64Array => {
    const longer = new Float64Array(beforeS + column.length).fill(before);
    longer.set(column, beforeS);
    return longer;
  };
  const states = (column: Uint8Array): Uint8Array => {
    const longer = new Uint8Array(beforeS + column.length);
    longer.set(column, beforeS);
    return longer;
  };
  const late = (column: SensorColumn | null): SensorColumn | null =>
    column === null ? null : { value: after(column.value, Number.NaN), state: states(column.state) };
  const missing = (column: Float64Array | null): Float64Array | null =>
    column === null ? null : after(column, Number.NaN);
  // Each named, so that the types ask for a new one: a column that stayed short would be a dash in the picture.
  return {
    seconds: beforeS + ride.seconds,
    mode: ride.mode,
    setting: ride.setting,
    lateS: missing(ride.lateS),
    power3s: late(ride.power3s),
    heartRate: late(ride.heartRate),
    cadence: late(ride.cadence),
    speed: late(ride.speed),
    gradientPercent: missing(ride.gradientPercent),
    altitudeM: missing(ride.altitudeM),
    latDeg: missing(ride.latDeg),
    lonDeg: missing(ride.lonDeg),
    pressureState: states(ride.pressureState),
    surge: states(ride.surge),
    countedS: after(
      ride.countedS.map((countedS) => countedS + beforeS),
      Number.NaN,
    ),
    likePowerBeats: after(ride.likePowerBeats, Number.NaN),
    bandW: ride.bandW,
    countedStartS: 0,
    countedEndS: beforeS + (ride.countedEndS ?? ride.seconds),
  };
}
