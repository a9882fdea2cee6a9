/**
 * Prints how honest the drift's onset is: rides whose truth is known, cell by cell, and what the method says of them.
 *
 * `held` is the share of claimed onsets whose interval holds the true one; errors are in minutes. FOLLOWCAR_BENCH_RIDES is the number of
 * rides a cell (400 where nothing is said), FOLLOWCAR_BENCH_CELL a part of the name of the cells to run.
 */
import { calibrate, lineOf, tableHead } from "./calibration.ts";
import { cells } from "./calibrationRides.ts";

const count = Number(process.env.FOLLOWCAR_BENCH_RIDES ?? 400);
const only = process.env.FOLLOWCAR_BENCH_CELL ?? "";
console.log(tableHead);
let worst: { name: string; held: number; claimed: number } | null = null;
let onsets = 0;
let claims = 0;
for (const cell of cells.filter((one) => one.name.includes(only))) {
  const result = calibrate(cell, count);
  console.log(lineOf(result));
  if (cell.drift !== "onset") continue;
  onsets += result.rides;
  claims += result.claimed;
  // A share of a handful of claims says nothing.
  if (result.claimed < 10) continue;
  const held = result.held / result.claimed;
  if (!worst || held < worst.held) worst = { name: cell.name, held, claimed: result.claimed };
}
if (worst) console.log(`worst cell: ${worst.name}, held in ${(100 * worst.held).toFixed(0)} % of ${worst.claimed} claims`);
if (onsets > 0) console.log(`claimed: ${((100 * claims) / onsets).toFixed(0)} % of ${onsets} rides with an onset`);
