import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { Failure } from "../../main/contract/failure.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { judgeRide, readLines } from "../../main/journey/judge.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import {
  FitBytes,
  plainFit,
  plainFitWriter,
  RECORD_FIELDS,
  recordValues,
  START,
  STRING,
  U16,
  U32,
  U8,
} from "../support/fitBytes.ts";
import { bytesOf, gpxText, isoAt, range, tcxText, trackpoint, trkpt } from "../support/trackText.ts";
import { failureSaid } from "../support/said.ts";

/** Seeded generator of 32-bit numbers (mulberry32, public domain, from memory); returns 0 <= x < 1. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const RECORDED = join("test", "fixtures", "rides");
/** Recorded files up to this size are damaged too, bytes: what is larger takes the time of a hundred small ones. */
const RECORDED_MOST = 8192;

/** Small files that recorders wrote. */
function recordedSeeds(): Uint8Array[] {
  return readdirSync(RECORDED)
    .filter((name) => /\.(fit|gpx|tcx|gz)$/.test(name))
    .map((name) => join(RECORDED, name))
    .filter((path) => statSync(path).size <= RECORDED_MOST)
    .map((path) => new Uint8Array(readFileSync(path)));
}

/** Small files of every format and FIT feature, made and recorded; the mutations start from them. */
export function mutationSeeds(): Uint8Array[] {
  const rich = new FitBytes()
    .define(0, 0, [[0, 1, 0]])
    .data(0, [4])
    .define(2, 21, [
      [253, 4, U32],
      [0, 1, 0],
      [1, 1, 0],
    ])
    .data(2, [START, 0, 0]);
  rich.define(
    1,
    20,
    [
      [253, 4, U32],
      [7, 2, U16],
      [3, 1, U8],
    ],
    { developer: [[5, 2, 0]] },
  );
  for (let i = 0; i < 30; i++) rich.data(1, [START + i, 200 + i, 140, 300]);
  for (let i = 30; i < 50; i++) rich.data(1, [0, 200, 140, 300], (START + i) & 31);
  rich.data(2, [START + 49, 0, 4]).data(2, [START + 90, 0, 0]);
  for (let i = 90; i < 100; i++) rich.data(1, [START + i, 200, 140, 300]);
  rich
    .define(3, 206, [
      [0, 1, U8],
      [1, 1, U8],
      [2, 1, U8],
      [3, 8, STRING],
      [14, 2, U16],
      [15, 1, U8],
    ])
    .data(3, [0, 5, U16, "temp", 20, 13]);
  rich
    .define(4, 19, [
      [253, 4, U32],
      [2, 4, U32],
      [7, 4, U32],
      [24, 1, 0],
    ])
    .data(4, [START + 99, START, 99_000, 0]);
  rich
    .define(5, 34, [
      [253, 4, U32],
      [5, 4, U32],
    ])
    .data(5, [START + 99, START + 99 + 7200]);
  const odd = new FitBytes().define(1, 20, [
    [253, 4, U32],
    [7, 4, U32],
    [3, 2, U16],
    [8, 3, 0x0d],
  ]);
  for (let i = 0; i < 40; i++) odd.data(1, [START + i, 200, 140, i * 8000]);
  const gpx = gpxText(
    range(25).map((i) => trkpt(i, `<ele>${400 + i}</ele><extensions><a:hr>140</a:hr><power>200</power></extensions>`)),
  );
  const tcx = tcxText([
    `<Lap StartTime="${isoAt(0)}"><TotalTimeSeconds>60</TotalTimeSeconds><Track>${range(15)
      .map((i) =>
        trackpoint(
          i,
          `<HeartRateBpm><Value>140</Value></HeartRateBpm><Extensions><TPX><Watts>200</Watts></TPX></Extensions>`,
        ),
      )
      .join("")}</Track></Lap>`,
  ]);
  const csv =
    "time,power (w),hr,speed (km/h),lat,lon\n" +
    range(30)
      .map((i) => `${isoAt(i)},200,140,30,${47 + i / 10_000},11`)
      .join("\n");
  const chain = [...plainFit(15), ...plainFitWriter(15, START + 40, true).finish()];
  const drive = new FitBytes().define(1, 20, RECORD_FIELDS, { big: true });
  for (let i = 0; i < 30; i++) drive.data(1, recordValues(i * 4));
  return [
    plainFit(40),
    rich.finish(),
    odd.finish(),
    Uint8Array.from(chain),
    drive.finish(),
    bytesOf(gpx),
    bytesOf(tcx),
    bytesOf(csv),
    gzipSync(plainFit(40)),
    gzipSync(gpx),
    ...recordedSeeds(),
  ];
}

/** Begins to count; what it gives tells the processor time of this process since, ms. A machine that others keep busy does not make a loop of a small file. */
export function processorMs(): () => number {
  const begun = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(begun);
    return (user + system) / 1000;
  };
}

/** A damaged copy: bits flipped, bytes set, blocks cut, doubled, moved or filled, the end cut off, another file spliced in. */
export function mutate(bytes: Uint8Array, other: Uint8Array, random: () => number): Uint8Array {
  let out = [...bytes];
  const at = () => Math.floor(random() * out.length);
  const rounds = 1 + Math.floor(random() * 4);
  for (let i = 0; i < rounds && out.length > 0; i++) {
    const a = at();
    const length = Math.floor(random() ** 2 * 60) + 1;
    switch (Math.floor(random() * 9)) {
      case 0:
        out[a]! ^= 1 << Math.floor(random() * 8);
        break;
      case 1:
        out[a] = Math.floor(random() * 256);
        break;
      case 2:
        out[a] = [0, 0xff, 0x7f, 0x80, 0x3c, 0x26, 0x40, 0x0a][Math.floor(random() * 8)]!;
        break;
      case 3:
        out.splice(a, length);
        break;
      case 4:
        out.splice(at(), 0, ...out.slice(a, a + length));
        break;
      case 5:
        out.fill(Math.floor(random() * 256), a, a + length);
        break;
      case 6:
        out.length = a;
        break;
      case 7:
        out = [...out.slice(0, a), ...other.slice(Math.floor(random() * other.length))];
        break;
      default:
        // The first bytes hold the sizes and definitions that everything hangs on.
        out[Math.floor(random() * Math.min(80, out.length))] = Math.floor(random() * 256);
    }
  }
  return Uint8Array.from(out);
}

/** What is wrong with a result, or null: a crash, a value that is not finite where one is promised, a broken grid. */
export function faultOf(bytes: Uint8Array): string | null {
  let ride: Ride;
  try {
    ride = parseRide(bytes, "mutant.fit");
  } catch (error) {
    if (!(error instanceof Failure)) return `crash: ${(error as Error).stack ?? String(error)}`;
    return failureSaid(error).sentence.includes("mutant.fit") && failureSaid(error).remedy.length > 0
      ? null
      : `a refusal that says nothing: ${error.message}`;
  }
  return gridFault(ride) ?? saidFault(ride);
}

function gridFault(ride: Ride): string | null {
  const { grid, raw } = ride;
  if (!Number.isFinite(ride.elapsedS) || ride.elapsedS < 0) return `elapsedS ${ride.elapsedS}`;
  if (grid.seconds !== Math.floor(ride.elapsedS) + 1) return `seconds ${grid.seconds} for ${ride.elapsedS} s`;
  for (let i = 0; i < raw.count; i++) {
    if (!Number.isFinite(raw.timeS[i])) return `timeS[${i}] ${raw.timeS[i]}`;
    if (i > 0 && raw.timeS[i]! < raw.timeS[i - 1]!) return `timeS falls at ${i}`;
  }
  for (const [name, column] of Object.entries(raw))
    if (column instanceof Float64Array && column.some((v) => Math.abs(v) === Infinity))
      return `raw.${name} is infinite`;
  for (const name of ["power", "heartRate", "cadence", "speed", "altitude"] as const) {
    const channel = grid[name];
    if (!channel) continue;
    for (let k = 0; k < grid.seconds; k++) {
      const carries = channel.state[k] === 1 || channel.state[k] === 3;
      if (carries !== Number.isFinite(channel.value[k]))
        return `${name}[${k}] is ${channel.value[k]} in state ${channel.state[k]}`;
    }
  }
  for (const name of ["timerS", "movingS"] as const)
    if (grid[name].some((v) => !Number.isFinite(v) || v < 0)) return `${name} not finite`;
  for (const gap of [...ride.gaps, ...ride.laps])
    if (!(gap.endS > gap.startS) || !(gap.startS >= 0)) return `span ${gap.startS} to ${gap.endS}`;
  if (new Set(ride.warnings).size !== ride.warnings.length) return "a warning given twice";
  return null;
}

/** A number that is none, or a value that is not there, in what is said of a ride: its summary, its reading, the lines read aloud. */
function saidFault(ride: Ride): string | null {
  const judged = judgeRide(ride, defaultPlan({ targetW: 190, toleranceW: 15 }), []);
  const line = readLines(judged, "en").find((one) => /NaN|Infinity|undefined|null/.test(one));
  return (
    oddIn(judged.summary, "summary") ??
    oddIn(judged.reading, "reading") ??
    oddIn(judged.facts, "facts") ??
    (line === undefined ? null : `said: ${line}`)
  );
}

/** The first number that is none, or value that is not there; columns hold NaN where nothing was recorded, and are not looked into. */
export function oddIn(value: unknown, path: string): string | null {
  if (value === undefined) return `${path} is undefined`;
  if (typeof value === "number") return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (value === null || typeof value !== "object" || ArrayBuffer.isView(value)) return null;
  for (const [key, inner] of Object.entries(value)) {
    const fault = oddIn(inner, `${path}.${key}`);
    if (fault !== null) return fault;
  }
  return null;
}

/** Runs `count` mutants from a seed; returns the faults found, each with what reproduces it. */
export function mutationRun(count: number, seed: number, hangMs = 5000): string[] {
  const seeds = mutationSeeds();
  const random = seeded(seed);
  const faults: string[] = [];
  for (let i = 0; i < count; i++) {
    const mutant = mutate(seeds[i % seeds.length]!, seeds[Math.floor(random() * seeds.length)]!, random);
    const worked = processorMs();
    const fault = faultOf(mutant);
    const tookMs = worked();
    if (fault) faults.push(`mutant ${i} of seed ${seed}: ${fault}`);
    // Not a speed claim: a small file that takes seconds has found a loop.
    if (tookMs > hangMs) faults.push(`mutant ${i} of seed ${seed}: ${Math.round(tookMs)} ms`);
    if (faults.length >= 10) break;
  }
  return faults;
}
