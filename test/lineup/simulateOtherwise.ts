/**
 * A second model of what cameras see and hear and of what recorders write, of another family than the one bounds were
 * chosen by: jumps where that one wanders, one-sided gusts, heavy tails, and electronics that act on what they see. `simulated`.
 */
import type { Ride } from "../../main/contract/ride.ts";
import { SIGNAL_STEP_S } from "../../main/contract/signals.ts";
import type { RideSeries } from "../../main/lineup/signals/rideSeries.ts";
import { asRead, bridged, columnAt, normal, seeded, type SimulatedClip } from "./simulateSignals.ts";

/** Noise with the tails of a double exponential (Laplace), standard deviation `sd`. */
function laplace(sd: number, next: () => number): number {
  const u = next() - 0.5;
  return (-sd / Math.SQRT2) * Math.sign(u) * Math.log(1 - 2 * Math.abs(u) + 1e-12);
}

/** A level that holds, and jumps to another after some time, `everyS` on average (a telegraph process). */
function steps(n: number, sd: number, everyS: number, next: () => number): Float64Array {
  let level = sd * normal(next);
  return new Float64Array(n).map(() => {
    if (next() < SIGNAL_STEP_S / everyS) level = sd * normal(next);
    return level;
  });
}

/** Pulses that come at once and fade (shot noise): heights one-sided, exponential. */
function fading(n: number, everyS: number, fadeS: number, height: number, next: () => number): Float64Array {
  const keep = Math.exp(-SIGNAL_STEP_S / fadeS);
  let v = 0;
  return new Float64Array(n).map(() => {
    if (next() < SIGNAL_STEP_S / everyS) v -= height * Math.log(next() + 1e-9);
    return (v *= keep);
  });
}

/** What a first-order filter with time constant `tauS` makes of a series: it comes late and smooth. */
function lagged(series: Float64Array, tauS: number): Float64Array {
  const take = 1 - Math.exp(-SIGNAL_STEP_S / tauS);
  let v = series.find(Number.isFinite) ?? 0;
  return series.map((x) => (v += take * ((Number.isFinite(x) ? x : v) - v)));
}

/** The same ride by a recorder with a receiver of its own: places off by metres in wandering steps, speed a mean of seconds past. */
export function recordedAgain(ride: Ride, seed: number): Ride {
  const next = seeded(seed + 17);
  const { count, latDeg, lonDeg, speedMps, timeS } = ride.raw;
  const sdM = [1.5, 2.5, 4][Math.floor(3 * next())]!;
  const [goal, off] = [
    [sdM * normal(next), sdM * normal(next)],
    [0, 0],
  ];
  const [lat, lon, speed] = [latDeg.slice(), lonDeg.slice(), speedMps.slice()];
  for (let k = 0; k < count; k++) {
    const stepS = k === 0 ? 1 : Math.max(0, timeS[k]! - timeS[k - 1]!);
    for (let a = 0; a < 2; a++) {
      if (next() < stepS / 40) goal[a] = sdM * normal(next);
      off[a]! += (1 - Math.exp(-stepS / 6)) * (goal[a]! - off[a]!);
    }
    lat[k]! += (off[0]! + 0.1 * normal(next)) / 111_195;
    lon[k]! += (off[1]! + 0.1 * normal(next)) / (111_195 * Math.cos((latDeg[k]! * Math.PI) / 180));
    // A mean over three records, as recorders write it.
    const near = [speedMps[k], speedMps[k - 1] ?? NaN, speedMps[k + 1] ?? NaN].filter(Number.isFinite);
    if (Number.isFinite(speedMps[k]))
      speed[k] = Math.max(
        0,
        near.reduce((s, v) => s! + v!, 0)! / near.length + laplace(speedMps[k]! > 0.5 ? 0.15 : 0, next),
      );
  }
  return { ...ride, raw: { ...ride.raw, latDeg: lat, lonDeg: lon, speedMps: speed } };
}

/** How late this recorder writes what happens, s. */
export function recorderLagS(seed: number): number {
  return 0.5 + 1.5 * seeded(seed + 29)();
}

/**
 * What a camera on this ride might have seen and heard, by the second model: exposure that hunts, light and road that jump,
 * a stabiliser that smooths turns and comes late, gain that follows the sound, a windscreen's hiss, gusts that fade.
 */
export function simulateOtherwise(ride: RideSeries, durationS: number, seed: number): SimulatedClip {
  const next = seeded(seed + 41);
  const n = Math.round(durationS / SIGNAL_STEP_S);
  const startS = next() * Math.max(0, ride.seenMps.length * SIGNAL_STEP_S - durationS);
  const mount = next() < 0.5 ? "helmet" : "bars";
  const rate = 1 + 60e-6 * (2 * next() - 1);
  const riddenMps = bridged(ride.seenMps);
  const timeOf = (k: number) => startS + rate * (k + 0.5) * SIGNAL_STEP_S;
  const v = Float64Array.from({ length: n }, (_, k) => columnAt(riddenMps, timeOf(k)));
  const leadS = mount === "helmet" ? 1.2 * next() : 0;
  const turn = Float64Array.from({ length: n }, (_, k) => {
    const deg = columnAt(ride.turning, timeOf(k) + leadS);
    return Number.isFinite(deg) ? deg : 0;
  });

  // Picture: light and road jump; exposure hunts after each jump, and flickers under leaves.
  const light = steps(n, 0.5, 25, next);
  const hunting = fading(n, 30, 1.5, 0.8, next);
  const flicker = steps(n, 0.3, 8, next).map((level) => Math.max(0, level) * Math.abs(laplace(1, next)));
  const passing = fading(n, mount === "helmet" ? 18 : 50, 1.2, 1.5, next);
  const motion = v.map((mps, k) => {
    const flow = 1 - Math.exp(-mps / 2.5);
    return (
      Math.log(
        Math.exp(-5.8 + passing[k]! + hunting[k]! * 0.7) + flow * Math.exp(-3.6 + light[k]! + flicker[k]! * 0.5),
      ) + laplace(0.18, next)
    );
  });

  // Sound: a windscreen flattens the wind and hisses; gusts fade; the gain follows what it hears.
  const screen = next() < 0.5 ? 1 : 0.6;
  const headwind = steps(n, 1.2, 90, next);
  const gusts = fading(n, 7, 1.5, 4, next);
  const cars = fading(n, 45, 2.5, 9, next);
  const level = v.map((mps, k) => {
    const air = 36 * screen * Math.log10(Math.max(0.7, mps + headwind[k]!)) + gusts[k]!;
    const hiss = (screen < 1 ? 20 : 14) + laplace(1.8, next);
    return -68 + 10 * Math.log10(10 ** (air / 10) + 10 ** (hiss / 10)) + cars[k]!;
  });
  const gain = lagged(level, 6);
  const sound = level.map((dB, k) => Math.min(-22, dB - 0.35 * (gain[k]! + 45)));

  // Turning: what the stabiliser leaves; glances that hold.
  const glances = mount === "helmet" ? steps(n, 14, 5, next) : new Float64Array(n);
  const turned = glances.map((deg, k) => (k === 0 ? 0 : (deg - glances[k - 1]!) / 2));
  const stabilised = lagged(
    turn.map((deg, k) => deg + turned[k]! + laplace(mount === "helmet" ? 5 : 3, next)),
    0.2 + 0.5 * next(),
  );
  const turning = stabilised.map((deg) => deg / 100);

  // Sensors: a gyroscope is not stabilised; bars are steered most when slow.
  const [side, driftDeg] = [next() < 0.5 ? -1 : 1, 3 * (next() - 0.5)];
  const swing = turn.map((deg, k) => {
    const steered = mount === "bars" ? laplace(v[k]! > 0.3 && v[k]! < 4 ? 5 : 1, next) : 0;
    return side * (deg + 1.5 * turned[k]! + laplace(2, next) + steered) + driftDeg;
  });
  const road = steps(n, 0.4, 30, next);
  const knocks = fading(n, 20, 0.5, 0.8, next);
  const shake = v.map(
    (mps, k) =>
      Math.log(Math.hypot(0.05, 0.2 * mps ** 1.4 * Math.exp(road[k]! + knocks[k]!), 0.2 * passing[k]!)) +
      laplace(0.15, next),
  );
  const read = asRead(motion, turning);
  return {
    series: { sound, ...read, swing: null, shake: null },
    sensed: { sound, motion: read.motion, turning: null, swing, shake },
    startS,
    mount,
  };
}
