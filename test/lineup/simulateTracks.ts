/**
 * Made rides and made cameras on them, of which the truth is known: one way ridden by a bike computer and by a camera,
 * each with a satellite receiver whose errors are its own. `simulated`: roads, riders and receivers are our own models.
 */
import type { Clip } from "../../main/contract/footage.ts";
import type { Ride } from "../../main/contract/ride.ts";
import type { ClipTelemetry } from "../../main/contract/telemetry.ts";
import { wandering, type SeededRandom } from "../../main/demo/seededRandom.ts";
import { madeClip } from "./madeClip.ts";
import { madeRide } from "./madeRide.ts";

const STEPS_A_SECOND = 5;

/** A way over ground; entry i lies i metres from its start. */
interface Way {
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  /** How fast one rides there as a rule, m/s. */
  readonly usualMps: Float64Array;
}

/** How far along its way a bike is, m, at every fifth of a second from `fromS` on. */
export interface Riding {
  readonly way: Way;
  readonly distanceM: Float64Array;
}

/** Straight between entries; the ends hold. */
function read(column: Float64Array, at: number): number {
  const held = Math.min(Math.max(at, 0), column.length - 1.001);
  const i = Math.floor(held);
  return column[i]! + (held - i) * (column[i + 1]! - column[i]!);
}

/** A road that wanders and has corners and grades; speeds slacken in corners and on rises. */
export function madeWay(lengthM: number, random: SeededRandom): Way {
  const bend = wandering(random, 0.004, 80);
  const grade = wandering(random, 0.3, 400);
  const [eastM, northM, usualMps] = [new Float64Array(lengthM), new Float64Array(lengthM), new Float64Array(lengthM)];
  let [heading, corner, cornerLeftM, nextCornerM] = [6 * random.uniform(), 0, 0, 300 * random.uniform()];
  for (let k = 1; k < lengthM; k++) {
    if (--nextCornerM < 0) {
      corner = (random.uniform() < 0.5 ? -1 : 1) * (0.5 + random.uniform());
      cornerLeftM = 15 + 10 * random.uniform();
      nextCornerM = cornerLeftM + 150 + 900 * random.uniform();
    }
    const turning = cornerLeftM-- > 0;
    heading += bend() + (turning ? corner / 20 : 0);
    eastM[k] = eastM[k - 1]! + Math.sin(heading);
    northM[k] = northM[k - 1]! + Math.cos(heading);
    const ahead = Math.min(1, Math.max(0, nextCornerM / 60));
    usualMps[k] = 8.5 * Math.exp(-grade()) * (turning ? 0.65 : 0.75 + 0.25 * ahead);
  }
  usualMps[0] = usualMps[1]!;
  return { eastM, northM, usualMps };
}

/** A round of some kilometres, ridden so many times; each lap leads over the same ground. */
export function madeCircuit(lengthM: number, laps: number, random: SeededRandom): Way {
  const one = madeWay(lengthM, random);
  // Closed by bending it round, then measured anew, so that an entry is a metre again.
  const last = lengthM - 1;
  const closed = (column: Float64Array) => column.map((v, k) => v - (column[last]! * k) / last);
  const round = lengthM / (2 * Math.PI);
  const turn = closed(one.eastM).map((v, k) => v + 0.8 * round * Math.sin((2 * Math.PI * k) / last));
  const rise = closed(one.northM).map((v, k) => v + 0.8 * round * (1 - Math.cos((2 * Math.PI * k) / last)));
  const at: number[] = [0];
  for (let k = 0, sinceM = 0; k < last; k++) {
    sinceM += Math.hypot(turn[k + 1]! - turn[k]!, rise[k + 1]! - rise[k]!);
    for (; sinceM >= 1; sinceM--) at.push(k + 1);
  }
  const over = (column: Float64Array) =>
    Float64Array.from({ length: at.length * laps }, (_, k) => column[at[k % at.length]!]!);
  return { eastM: over(turn), northM: over(rise), usualMps: over(one.usualMps) };
}

/** Somebody rides a way on some day: stronger or weaker, wind and mood that change over minutes, a stop here and there. */
export function ride(way: Way, random: SeededRandom, spread = 0.1): Riding {
  const strength = Math.exp(0.06 * random.normal());
  const mood = wandering(random, spread, 60, 1 / STEPS_A_SECOND);
  const distanceM: number[] = [];
  let [at, speed, stopLeftS, nextStopM] = [0, way.usualMps[0]!, 0, 800 + 6000 * random.uniform()];
  while (at < way.eastM.length - 60 && distanceM.length < 4 * 3600 * STEPS_A_SECOND) {
    distanceM.push(at);
    const wanted = stopLeftS > 0 ? 0 : strength * Math.exp(mood()) * read(way.usualMps, at + 5);
    const change = Math.max(-2 / STEPS_A_SECOND, Math.min(0.7 / STEPS_A_SECOND, wanted - speed));
    speed = Math.max(0, speed + change);
    at += speed / STEPS_A_SECOND;
    if (speed < 0.1) stopLeftS -= 1 / STEPS_A_SECOND;
    if (at > nextStopM) {
      stopLeftS = 5 + 40 * random.uniform();
      nextStopM = at + 1500 + 9000 * random.uniform();
    }
  }
  return { way, distanceM: Float64Array.from(distanceM) };
}

/** Another rider of the same bunch: at each place `gapS` after the first (before, where negative), give or take what riders give. */
export function follow(first: Riding, gapS: number, random: SeededRandom): Riding {
  const give = wandering(random, 0.12 * Math.sqrt(Math.abs(gapS)) + 0.1, 40, 1 / STEPS_A_SECOND);
  let sway = 0;
  let last = 0;
  return {
    way: first.way,
    distanceM: first.distanceM.map((_, k) => {
      sway += (give() - sway) / (4 * STEPS_A_SECOND);
      // Nobody rides backwards.
      last = Math.max(last, read(first.distanceM, k - (gapS + sway) * STEPS_A_SECOND));
      return last;
    }),
  };
}

/** What a receiver adds of its own: places that wander by metres over a minute, smoothly, and speeds good to a tenth. */
export interface Receiver {
  readonly sdM: number;
  /** Error of its speeds, m/s, and over how long they are means, s. */
  readonly speedSdMps: number;
  readonly speedMeanS: number;
}

const METRES_A_DEGREE = 111_195;
const LAT0 = 47.6;
const LON0 = 7.6;

interface Fixes {
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  readonly speedMps: Float64Array;
}

/** Where a receiver saw a bike at so many instants `stepS` apart from `fromS` of the riding on. */
function seen(
  riding: Riding,
  fromS: number,
  count: number,
  stepS: number,
  receiver: Receiver,
  random: SeededRandom,
): Fixes {
  const take = 1 - Math.exp(-stepS / 4);
  const axes = [0, 1].map(() => wandering(random, receiver.sdM, 60, stepS));
  const shown = axes.map((next) => next());
  const speedOff = wandering(random, receiver.speedSdMps, 1, stepS);
  const out = { latDeg: new Float64Array(count), lonDeg: new Float64Array(count), speedMps: new Float64Array(count) };
  for (let k = 0; k < count; k++) {
    const at = (fromS + k * stepS) * STEPS_A_SECOND;
    const d = read(riding.distanceM, at);
    axes.forEach((next, a) => (shown[a]! += take * (next() - shown[a]!)));
    const east = read(riding.way.eastM, d) + shown[0]! + 0.1 * random.normal();
    const north = read(riding.way.northM, d) + shown[1]! + 0.1 * random.normal();
    out.latDeg[k] = LAT0 + north / METRES_A_DEGREE;
    out.lonDeg[k] = LON0 + east / (METRES_A_DEGREE * Math.cos((LAT0 * Math.PI) / 180));
    // A speed is the mean of some time past: receivers and wheels both say it late.
    const v = (d - read(riding.distanceM, at - receiver.speedMeanS * STEPS_A_SECOND)) / receiver.speedMeanS;
    out.speedMps[k] = Math.max(0, v + speedOff());
  }
  return out;
}

interface RecordOptions {
  readonly receiver: Receiver;
  readonly startUtcMs: number | null;
  /** Span of the ride that the recorder did not record, s. */
  readonly gap?: readonly [number, number];
}

/** The ride file that a bike computer makes of a riding, at a record a second. */
export function recorded(riding: Riding, options: RecordOptions, random: SeededRandom): Ride {
  const seconds = Math.floor(riding.distanceM.length / STEPS_A_SECOND);
  const base = madeRide(seconds, { startUtcMs: options.startUtcMs });
  const fixes = seen(riding, 0, seconds, 1, options.receiver, random);
  const gap = options.gap;
  const kept = Array.from({ length: seconds }, (_, k) => k).filter((k) => !gap || k < gap[0] || k >= gap[1]);
  const pick = (column: Float64Array) => Float64Array.from(kept, (k) => column[k]!);
  const raw = Object.fromEntries(
    Object.entries(base.raw).map(([key, column]) => [
      key,
      column instanceof Float64Array ? pick(key in fixes ? fixes[key as keyof Fixes] : column) : kept.length,
    ]),
  ) as unknown as Ride["raw"];
  return {
    ...base,
    raw,
    gaps: gap ? [{ startS: gap[0], endS: gap[1], kind: "lost" as const }] : [],
  };
}

interface FilmOptions {
  readonly id?: string;
  readonly startS: number;
  readonly durationS: number;
  readonly receiver: Receiver;
  /** UTC of the riding's time 0 by the camera's receiver; null where it never told the time. */
  readonly zeroUtcMs: number | null;
  readonly clip?: Partial<Clip>;
}

/** A clip with telemetry, filmed from a riding. */
export function filmed(
  riding: Riding,
  options: FilmOptions,
  random: SeededRandom,
): { readonly clip: Clip; readonly telemetry: ClipTelemetry } {
  const { id = "1", startS, durationS } = options;
  const stepS = 0.2;
  const count = Math.floor(durationS / stepS);
  const fixes = seen(riding, startS, count, stepS, options.receiver, random);
  return {
    clip: madeClip(id, durationS, { hasTelemetry: true, ...options.clip }),
    telemetry: {
      clipId: id,
      positions: { mediaS: Float64Array.from({ length: count }, (_, k) => k * stepS), ...fixes },
      utc:
        options.zeroUtcMs === null
          ? null
          : { startUtcMs: options.zeroUtcMs + startS * 1000, sigmaS: 1, source: "GPSU" },
      gyro: null,
      acceleration: null,
      bytesRead: 0,
      lacks: [],
    },
  };
}

/** How late a camera's track states its time, s: most are good to half a second, some sit more than a second late. */
export function timeLateS(random: SeededRandom): number {
  return random.uniform() < 0.3 ? 1.2 + 0.15 * random.normal() : 0.3 * random.normal();
}
