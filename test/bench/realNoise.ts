/** Rides with the power, stops and heart noise of a real one and a drift that begins at a known time. */
import { readdir } from "node:fs/promises";
import { basename, join } from "node:path";
import { countedPart } from "../../main/reading/counted.ts";
import { driftStretches } from "../../main/reading/drift/driftReading.ts";
import { laggedPowerW } from "../../main/reading/drift/laggedPower.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { maskOf } from "../../main/reading/spans.ts";
import { stopsOf } from "../../main/reading/stops.ts";
import { leastSquares } from "../../main/maths/leastSquares.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { type CalibrationRide, type Cell, Seeded, hashOf } from "./calibrationRides.ts";

/** What a real ride's judged stretch leaves of the heart once power's effect and a straight line are taken out. */
export interface RealNoise {
  readonly name: string;
  readonly powerW: Float64Array;
  readonly standing: Uint8Array;
  /** Beats; NaN where the heart rate is missing. */
  readonly restBpm: Float64Array;
  readonly beatsPerWatt: number;
}

const LAG_S = 40;
/** Minutes of judged riding that are worth the trouble. */
const LEAST_MIN = 35;

/** The noise of one ride file; null where it has no power, no heart rate, chose its own steps, or is too short. */
export async function realNoise(path: string): Promise<RealNoise | null> {
  const ride = await readRide(path).catch(() => null);
  if (ride === null || ride.mode === "variable" || !ride.grid.power || !ride.grid.heartRate) return null;
  const stretches = driftStretches(countedPart(ride, defaultPlan(), null));
  const stretch = stretches.toSorted((a, b) => b.endS - b.startS - (a.endS - a.startS))[0];
  if (stretch === undefined || stretch.endS - stretch.startS < LEAST_MIN * 60) return null;
  const standing = maskOf(stopsOf(ride, 1), ride.grid.seconds);
  const laggedW = laggedPowerW(ride.grid.power.value, LAG_S, standing);
  const heart = ride.grid.heartRate.value;
  const seconds = Array.from(
    { length: Math.floor(stretch.endS - stretch.startS) },
    (_, s) => Math.floor(stretch.startS) + s,
  );
  const whole = seconds.filter((s) => Number.isFinite(heart[s]! + laggedW[s]!));
  const column = (of: (s: number) => number) => Float64Array.from(whole, of);
  const fit = leastSquares(
    [column(() => 1), column((s) => s), column((s) => laggedW[s]!)],
    column((s) => heart[s]!),
  );
  if (fit === null) return null;
  const [level = NaN, trend = NaN, beatsPerWatt = NaN] = fit.coefficients;
  return {
    name: basename(path),
    powerW: Float64Array.from(seconds, (s) => ride.grid.power!.value[s]!),
    standing: Uint8Array.from(seconds, (s) => standing[s]!),
    restBpm: Float64Array.from(seconds, (s) => heart[s]! - level - trend * s - beatsPerWatt * laggedW[s]!),
    beatsPerWatt,
  };
}

/** The noises of all ride files in some folders that have one, by name. */
export async function realNoises(folders: readonly string[]): Promise<RealNoise[]> {
  const found: RealNoise[] = [];
  for (const folder of folders) {
    for (const name of (await readdir(folder)).sort()) {
      const noise = await realNoise(join(folder, name));
      if (noise !== null) found.push(noise);
    }
  }
  return found;
}

/** Two hours without drift, with an ordinary one, and with a strong one as on a hot day. */
export function realNoiseCells(noise: RealNoise): Cell[] {
  const shared = { minutes: 120, noise: [], creep: 0, wholeBeats: true, stops: true, friendly: false } as const;
  return [
    { ...shared, name: `none, ${noise.name}`, drift: "none", slope: [0, 0] },
    { ...shared, name: `onset, ${noise.name}`, drift: "onset", slope: [0.1, 0.2] },
    { ...shared, name: `strong, ${noise.name}`, drift: "onset", slope: [0.3, 0.5] },
  ];
}

/**
 * Ride number `index` of a cell: the real power, stops and noise, begun somewhere and run forth and back until the time is
 * full; the heart follows the power anew, and the drift is laid on top.
 */
export function realNoiseRide(noise: RealNoise, cell: Cell, index: number, series: number): CalibrationRide {
  const random = new Seeded((series * 100_000 + index) * 7919 + hashOf(cell.name));
  const own = noise.powerW.length;
  const seconds = cell.minutes * 60;
  const from = Math.floor(random.uniform() * 2 * own);
  const at = Array.from({ length: seconds }, (_, s) => {
    const turn = (from + s) % (2 * own);
    return turn < own ? turn : 2 * own - 1 - turn;
  });
  const powerW = Float64Array.from(at, (s) => noise.powerW[s]!);
  const standing = Uint8Array.from(at, (s) => noise.standing[s]!);
  const laggedW = laggedPowerW(powerW, LAG_S, standing);
  const slope = random.between(cell.slope[0], cell.slope[1]);
  const onsetMin = cell.drift === "onset" ? random.between(0.3, 0.7) * cell.minutes : null;
  const driftBpm = Float64Array.from(at, (_, t) => (onsetMin === null ? 0 : slope * Math.max(0, t / 60 - onsetMin)));
  const heartBpm = Float64Array.from(at, (s, t) =>
    Math.round(80 + noise.beatsPerWatt * laggedW[t]! + noise.restBpm[s]! + driftBpm[t]!),
  );
  const stops: { startS: number; endS: number }[] = [];
  for (let s = 0; s < seconds; s++) {
    if (standing[s] !== 1) continue;
    let end = s;
    while (end < seconds && standing[end] === 1) end++;
    if (end - s > 30) stops.push({ startS: s, endS: end });
    s = end;
  }
  return { powerW, heartBpm, standing, stops, driftBpm, onsetMin };
}
