import { CellState, type Ride } from "../../main/contract/ride.ts";
import { zoneAtPlace } from "../../main/ride/zoneAtPlace.ts";

export interface MadeRideOptions {
  readonly speedMps?: (t: number) => number;
  /** Course, degrees, at ride time t. */
  readonly courseDeg?: (t: number) => number;
  readonly startUtcMs?: number | null;
  readonly utcOffsetMin?: number | null;
  readonly pause?: { readonly startS: number; readonly endS: number };
  readonly laps?: readonly number[];
  readonly start?: { readonly latDeg: number; readonly lonDeg: number };
}

/** A ride of `seconds` at one record a second whose speed, course, pause and laps are known, for tests of placing. */
export function madeRide(seconds: number, options: MadeRideOptions = {}): Ride {
  const speed = options.speedMps ?? (() => 8);
  const course = options.courseDeg ?? (() => 0);
  const start = options.start ?? { latDeg: 47.6, lonDeg: 7.6 };
  const col = () => new Float64Array(seconds).fill(NaN);
  const [speedMps, distanceM, latDeg, lonDeg, headingDeg] = [col(), col(), col(), col(), col()];
  const [timerS, movingS] = [col(), col()];
  const paused = new Uint8Array(seconds);
  const moving = new Uint8Array(seconds);
  const state = new Uint8Array(seconds).fill(CellState.recorded);
  let [lat, lon, metres, timer, movingTime] = [start.latDeg, start.lonDeg, 0, 0, 0];
  for (let k = 0; k < seconds; k++) {
    const inPause = options.pause !== undefined && k >= options.pause.startS && k < options.pause.endS;
    const v = inPause ? 0 : speed(k);
    const heading = (course(k) * Math.PI) / 180;
    speedMps[k] = v;
    distanceM[k] = metres;
    latDeg[k] = lat;
    lonDeg[k] = lon;
    headingDeg[k] = v < 2 ? NaN : course(k);
    timerS[k] = timer;
    movingS[k] = movingTime;
    paused[k] = inPause ? 1 : 0;
    moving[k] = v >= 1 ? 1 : 0;
    if (inPause) state[k] = CellState.paused;
    metres += v;
    lat += (v * Math.cos(heading)) / 111_195;
    lon += (v * Math.sin(heading)) / (111_195 * Math.cos((lat * Math.PI) / 180));
    timer += inPause ? 0 : 1;
    movingTime += moving[k]!;
  }
  const laps = options.laps ?? [];
  const startUtcMs = options.startUtcMs === undefined ? Date.UTC(2024, 5, 1, 8, 0, 0) : options.startUtcMs;
  return {
    fileName: "made.fit",
    format: "fit",
    startUtcMs,
    utcOffsetMin:
      options.utcOffsetMin ?? (startUtcMs === null ? null : zoneAtPlace(start.latDeg, start.lonDeg, startUtcMs)),
    mode: "every second",
    elapsedS: seconds - 1,
    raw: {
      count: seconds,
      timeS: Float64Array.from({ length: seconds }, (_, k) => k),
      powerW: col(),
      heartRateBpm: col(),
      cadenceRpm: col(),
      speedMps,
      distanceM,
      altitudeM: col(),
      latDeg,
      lonDeg,
      temperatureC: col(),
      leftPercent: col(),
    },
    grid: {
      seconds,
      power: null,
      heartRate: null,
      cadence: null,
      speed: { value: speedMps, state },
      altitude: null,
      position: { latDeg, lonDeg, state },
      distanceM,
      power3sW: null,
      power30sW: null,
      gradientPercent: null,
      headingDeg,
      turnRadiusM: null,
      moving,
      paused,
      timerS,
      movingS,
    },
    gaps: options.pause ? [{ ...options.pause, kind: "pause" }] : [],
    laps: laps.map((startS, k) => ({ startS, endS: laps[k + 1] ?? seconds - 1, trigger: "manual" })),
    warnings: [],
  };
}
