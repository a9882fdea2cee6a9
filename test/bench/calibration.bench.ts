/**
 * Prints how honest the drift's onset is: rides whose truth is known, cell by cell, and what the method says of them.
 *
 * `held` is the share of claimed onsets whose interval holds the true one; errors are in minutes. FOLLOWCAR_BENCH_RIDES is the number of
 * rides a cell (400 where nothing is said), FOLLOWCAR_BENCH_CELL a part of the name of the cells to run,
 * FOLLOWCAR_BENCH_SERIES another series of rides (0 is the one that settings were chosen on). Last come cells whose noise
 * is that of real rides, from FOLLOWCAR_DATA where it is set, else of the fixtures.
 */
import { join } from "node:path";
import { calibrate, lineOf, tableHead } from "./calibration.ts";
import { cells, rangeCells } from "./calibrationRides.ts";
import { driftRanges } from "./driftRange.ts";
import { realNoiseCells, realNoiseRide, realNoises } from "./realNoise.ts";

const count = Number(process.env.FOLLOWCAR_BENCH_RIDES ?? 400);
const series = Number(process.env.FOLLOWCAR_BENCH_SERIES ?? 0);
const only = process.env.FOLLOWCAR_BENCH_CELL ?? "";
console.log(tableHead);
let worst: { name: string; held: number; claimed: number } | null = null;
let onsets = 0;
let claims = 0;
for (const cell of cells.filter((one) => one.name.includes(only))) {
  const result = calibrate(cell, count, series);
  console.log(lineOf(result));
  if (cell.drift !== "onset") continue;
  onsets += result.rides;
  claims += result.claimed;
  // A share of a handful of claims says nothing.
  if (result.claimed < 10) continue;
  const held = result.held / result.claimed;
  if (!worst || held < worst.held) worst = { name: cell.name, held, claimed: result.claimed };
}
if (worst)
  console.log(`worst cell: ${worst.name}, held in ${(100 * worst.held).toFixed(0)} % of ${worst.claimed} claims`);
if (onsets > 0) console.log(`claimed: ${((100 * claims) / onsets).toFixed(0)} % of ${onsets} rides with an onset`);
for (const noise of await realNoises(
  process.env.FOLLOWCAR_DATA
    ? ["fit", "gpx", "tcx"].map((kind) => join(process.env.FOLLOWCAR_DATA!, kind))
    : ["test/fixtures/rides"],
)) {
  for (const cell of realNoiseCells(noise).filter((one) => one.name.includes(only))) {
    console.log(
      lineOf(
        calibrate(cell, Math.min(count, 200), series, (one, index, ofSeries) =>
          realNoiseRide(noise, one, index, ofSeries),
        ),
      ),
    );
  }
}

console.log("drift: printed range holds the true one");
for (const cell of rangeCells.filter((one) => one.name.includes(only))) {
  const { printed, held, medianGive } = driftRanges(cell, Math.min(count, 200), series);
  console.log(
    `${cell.name.padEnd(36)}${String(printed).padStart(8)}${`${((100 * held) / printed).toFixed(0)} %`.padStart(8)}   give or take ${medianGive.toFixed(1)}`,
  );
}
