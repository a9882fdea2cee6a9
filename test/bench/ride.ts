import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { build } from "esbuild";
import { parseRide } from "../../main/ride/parseRide.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { FitBytes, RECORD_FIELDS, START } from "../support/fitBytes.ts";
import { bytesOf, gpxText, isoAt, range } from "../support/trackText.ts";
import { parseAlone } from "./parseAlone.ts";

const ROUNDS = 3;

function fastestMs(run: () => unknown): number {
  let best = Infinity;
  for (let i = 0; i < ROUNDS; i++) {
    const startedMs = performance.now();
    run();
    best = Math.min(best, performance.now() - startedMs);
  }
  return best;
}

/** A ride of so many hours at 1 s with every sensor, rolling and noisy, as a FIT file. */
export function longFit(hours: number): Uint8Array {
  const fit = new FitBytes().define(1, 20, RECORD_FIELDS);
  for (let k = 0; k < hours * 3600; k++) {
    const phase = k / 300;
    fit.data(1, [
      START + k,
      Math.round(((47 + 0.2 * Math.sin(k / 9000)) * 2 ** 31) / 180),
      Math.round(((11 + 0.2 * Math.cos(k / 9000)) * 2 ** 31) / 180),
      Math.round((900 + 60 * Math.sin(phase)) * 5),
      140 + Math.round(8 * Math.sin(phase / 3)),
      85 + (k % 7),
      k * 800,
      8000 + Math.round(1500 * Math.cos(phase)),
      k % 61 < 4 ? 0 : 200 + ((k * 7919) % 60),
    ]);
  }
  return fit.finish();
}

function longGpx(hours: number): Uint8Array {
  return bytesOf(
    gpxText(
      range(hours * 3600).map(
        (k) =>
          `<trkpt lat="${(47 + k * 5e-5).toFixed(7)}" lon="11"><ele>${(900 + 60 * Math.sin(k / 300)).toFixed(1)}` +
          `</ele><time>${isoAt(k)}</time><extensions><power>${200 + (k % 50)}` +
          "</power><ns3:TrackPointExtension><ns3:hr>140</ns3:hr><ns3:cad>88</ns3:cad></ns3:TrackPointExtension></extensions></trkpt>",
      ),
    ),
  );
}

const longCsv = (hours: number) =>
  bytesOf(
    "time,power,hr,cadence,speed (km/h),altitude (m)\n" +
      range(hours * 3600)
        .map((k) => `${isoAt(k)},${200 + (k % 50)},140,88,29.4,${(900 + 60 * Math.sin(k / 300)).toFixed(1)}`)
        .join("\n"),
  );

function heldMb(): number {
  (globalThis as { gc?: () => void }).gc?.();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 1e6;
}

/**
 * Prints reading against parsing alone, per file and for generated long rides, and what a ride holds in memory after reading. Files:
 * those named, a folder's ride files, else the fixtures. Returns the worst ratio.
 */
export function benchRide(paths: readonly string[] = ["test/fixtures/rides"]): number {
  const files = paths
    .flatMap((path) => (statSync(path).isDirectory() ? readdirSync(path).map((name) => join(path, name)) : [path]))
    .filter((path) => /\.(fit|gpx|tcx|csv)$/i.test(path));
  const inputs = [
    ...files.map((path) => ({ name: basename(path), bytes: () => new Uint8Array(readFileSync(path)) })),
    { name: "10 h at 1 s, FIT", bytes: () => longFit(10) },
    { name: "24 h at 1 s, FIT", bytes: () => longFit(24) },
    { name: "10 h at 1 s, GPX", bytes: () => longGpx(10) },
    { name: "10 h at 1 s, CSV", bytes: () => longCsv(10) },
  ];
  let worst = 0;
  console.log("ride: read (parse, grid, condition, sum up) against the library's parsing alone, best of 3, ms");
  for (const { name, bytes: make } of inputs) {
    const bytes = make();
    let format = "";
    try {
      format = parseRide(bytes, name).format;
    } catch {
      continue;
    }
    const alone = fastestMs(() => parseAlone(bytes, format));
    const read = fastestMs(() => rideSummary(parseRide(bytes, name), "road"));
    // Below a millisecond both are noise.
    const counts = alone > 5;
    if (counts) worst = Math.max(worst, read / alone);
    console.log(
      `  ${name.padEnd(34)} ${alone.toFixed(1).padStart(8)} ${read.toFixed(1).padStart(8)}  x` +
        `${(read / alone).toFixed(2)}${counts ? "" : " (too short to count)"}`,
    );
  }
  const memory = [10, 24].map((hours) => {
    const bytes = longFit(hours);
    const before = heldMb();
    const ride = parseRide(bytes, "long.fit");
    const mb = heldMb() - before;
    console.log(
      `  ${hours} h ride holds ${mb.toFixed(1)} MB, ${((mb * 1e6) / ride.grid.seconds).toFixed(0)} bytes a second of ride`,
    );
    return mb / hours;
  });
  console.log(
    `  worst ratio x${worst.toFixed(2)} (to hold: under 3); memory a ride hour, 24 h to 10 h: x${(memory[1]! / memory[0]!).toFixed(2)} (to hold: at most 1.1)`,
  );
  return worst;
}

function elapsedMs(args: readonly string[]): number {
  const startedMs = performance.now();
  spawnSync(process.execPath, args, { stdio: "ignore" });
  return performance.now() - startedMs;
}

/**
 * Prints `followcar read FILE` as a whole process (start, parse, condition, judge, words) against a process that only
 * parses the file with the library for it: best of so many pairs, taken in turn. Files as for `benchRide`. Returns the worst ratio.
 */
export async function benchReadProcess(paths: readonly string[] = ["test/fixtures/rides"], pairs = 5): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), "followcar-bench-"));
  try {
    const child = join("dist", "test", "parseAloneChild.mjs");
    await build({
      entryPoints: ["test/bench/parseAloneChild.ts"],
      outfile: child,
      bundle: true,
      platform: "node",
      format: "esm",
      packages: "external",
      logLevel: "error",
    });
    const long = [10, 24].map((hours) => {
      const path = join(folder, `${hours}-hours.fit`);
      writeFileSync(path, longFit(hours));
      return path;
    });
    const files = paths
      .flatMap((path) => (statSync(path).isDirectory() ? readdirSync(path).map((name) => join(path, name)) : [path]))
      .filter((path) => /\.(fit|gpx|tcx|csv)$/i.test(path));
    let worst = 0;
    console.log(`read as a process: \`followcar read FILE\` against a process that only parses, best of ${pairs}, ms`);
    for (const path of [...files, ...long]) {
      let format = "";
      try {
        format = parseRide(new Uint8Array(readFileSync(path)), path).format;
      } catch {
        continue;
      }
      let [alone, read] = [Infinity, Infinity];
      for (let pair = 0; pair < pairs; pair++) {
        alone = Math.min(alone, elapsedMs([child, path, format]));
        read = Math.min(read, elapsedMs([join("dist", "followcar.mjs"), "read", path]));
      }
      worst = Math.max(worst, read / alone);
      console.log(
        `  ${basename(path).padEnd(34)} ${alone.toFixed(0).padStart(8)} ${read.toFixed(0).padStart(8)}  x${(read / alone).toFixed(2)}`,
      );
    }
    console.log(`  worst ratio x${worst.toFixed(2)} (to hold: under 3)`);
    return worst;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
