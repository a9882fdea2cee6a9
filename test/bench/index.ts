// `npm run bench [-- NAME …]`: figures printed, no figure fails; a bench that breaks is named at the end (code 1). Each bench says what it compares with what.
// Names: ride, breaks, lapses (each with what a person needs to check it), drawing, render (its last part alone: film),
// pair (two clips side by side), upright (a film in other forms against as filmed), estimates (of the time that a render
// takes), words (all that is said of each ride), same (all outputs of each ride compared field by field), roads (two rides
// on one road), window, fast (how evenly 4x and 8x play), calibration, filmed (line-up through real decoding), signals (how
// long line-up takes on an hour, by telemetry and by signals), second (a whole debrief by the clock), newcomer (the whole
// job by pointer, then by keyboard), session (memory over 8 h at the
// desk), long (memory over 3 h of footage) and big (an hour of 2160p in the window; 18 GB of disk) only when named,
// lineup (its second part, by signals, needs FOLLOWCAR_DATA, a folder of real rides). DEVELOPERS.md has what may be set.
import { availableParallelism, loadavg } from "node:os";
import { join } from "node:path";
import { breaksAnHour } from "./breaksAnHour.ts";
import { drawingBench } from "./drawing.ts";
import { lapseTable } from "./lapses.ts";
import { benchPair, benchRender, benchUpright } from "./render.ts";
import { benchReadProcess, benchRide } from "./ride.ts";
import { sameEverywhere } from "./sameEverywhere.ts";
import { allWords } from "./words.ts";

/** Folders of real rides, else the fixtures. */
const rideFolders = process.env.FOLLOWCAR_DATA
  ? ["fit", "gpx", "tcx"].map((kind) => join(process.env.FOLLOWCAR_DATA!, kind))
  : ["test/fixtures/rides"];
/** Swapped pairs of what is rendered; more tell more, each takes minutes. */
const PAIRS = Number(process.env.FOLLOWCAR_BENCH_PAIRS ?? 3);
const benches: Readonly<Record<string, () => unknown>> = {
  ride: async () => {
    benchRide();
    await benchReadProcess(process.env.FOLLOWCAR_DATA ? rideFolders : undefined);
  },
  breaks: () => breaksAnHour(rideFolders),
  lapses: () => lapseTable(rideFolders),
  words: () => allWords(rideFolders),
  same: () => sameEverywhere(rideFolders),
  roads: async () => (await import("./roads.ts")).benchRoads(rideFolders),
  drawing: () => drawingBench(),
  render: () => benchRender(PAIRS),
  pair: () => benchPair(PAIRS),
  upright: () => benchUpright(PAIRS),
  estimates: async () => (await import("./estimates.ts")).benchEstimates(),
  window: async () => (await import("./window.ts")).benchWindow(),
  fast: async () => (await import("./fastPlay.ts")).benchFastPlay(),
  ...(process.argv.includes("big")
    ? {
        big: async () =>
          (await import("./windowBig.ts")).benchBigFootage(Number(process.env.FOLLOWCAR_BENCH_MINUTES ?? 60)),
      }
    : {}),
  ...(process.argv.includes("session")
    ? {
        session: async () =>
          (await import("./session.ts")).benchSession(Number(process.env.FOLLOWCAR_BENCH_MINUTES ?? 480)),
      }
    : {}),
  ...(process.argv.includes("long")
    ? {
        long: async () =>
          (await import("./longRender.ts")).benchLongRender(Number(process.env.FOLLOWCAR_BENCH_MINUTES ?? 180)),
      }
    : {}),
  ...(process.argv.includes("second")
    ? { second: async () => (await import("./secondDebrief.ts")).benchSecondDebrief() }
    : {}),
  ...(process.argv.includes("newcomer")
    ? { newcomer: async () => (await import("./newcomer.ts")).benchNewcomer() }
    : {}),
  filmed: async () => (await import("./lineupFilmed.ts")).benchLineupFilmed([2, 3]),
  signals: async () => {
    // Times of a busy machine say little: how busy it was stands before and after them.
    const load = () => console.log(`load ${loadavg()[0]!.toFixed(1)} on ${availableParallelism()} cores`);
    load();
    const minutes = Number(process.env.FOLLOWCAR_BENCH_MINUTES ?? 60);
    await (await import("./lineupTelemetry.ts")).benchLineupTelemetry(minutes);
    await (await import("./lineupSpeed.ts")).benchLineupSpeed(minutes);
    (await import("./lineupSensed.ts")).benchLineupSensed(minutes);
    load();
  },
  calibration: () => import("./calibration.bench.ts"),
  lineup: async () => {
    const asked = (name: string, otherwise: number) => Number(process.env[`FOLLOWCAR_BENCH_${name}`] ?? otherwise);
    (await import("./lineup.ts")).benchLineupCases(asked("PLACES", 40), asked("SEED", 1_000_000));
    if (process.env.FOLLOWCAR_DATA) await import("./lineupSignals.bench.ts");
  },
};

/** Parts of others, run when named. */
const parts: typeof benches = { film: () => benchRender(PAIRS, []) };

const all = { ...benches, ...parts };
const wanted = process.argv.slice(2).filter((name) => name in all);
/** Minutes since, as text. */
const sinceMin = (startMs: number) => ((performance.now() - startMs) / 60_000).toFixed(1);
const broken: string[] = [];
for (const name of wanted.length > 0 ? wanted : Object.keys(benches)) {
  process.stdout.write(`\n== ${name}\n`);
  const startMs = performance.now();
  try {
    await all[name]?.();
  } catch (error) {
    // The others are still run; what could not be is named at the end.
    process.stdout.write(`${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
    broken.push(name);
  }
  process.stdout.write(`   ${name} took ${sinceMin(startMs)} min\n`);
}
process.stdout.write(
  `\nall took ${sinceMin(0)} min; load at the end ${loadavg()[0]!.toFixed(1)} on ${availableParallelism()} cores\n`,
);
if (broken.length > 0) {
  process.stdout.write(`could not be run: ${broken.join(", ")}\n`);
  process.exitCode = 1;
}
