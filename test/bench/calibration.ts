import { findOnset } from "../../main/reading/drift/onset.ts";
import { calibrationRide, type Cell } from "./calibrationRides.ts";

/** What the onset's method said of the rides of one cell. */
export interface CellResult {
  readonly cell: Cell;
  readonly rides: number;
  readonly notEnough: number;
  readonly none: number;
  readonly start: number;
  readonly unclear: number;
  readonly claimed: number;
  /** Claims whose interval holds the true onset; of rides that have one. */
  readonly held: number;
  /** Errors of the claims, minutes, ascending. */
  readonly errorsMin: readonly number[];
}

/** Runs the product's own method over rides 0 to count - 1 of a cell. */
export function calibrate(cell: Cell, count: number): CellResult {
  let [notEnough, none, start, unclear, claimed, held] = [0, 0, 0, 0, 0, 0];
  const errorsMin: number[] = [];
  for (let index = 0; index < count; index++) {
    const ride = calibrationRide(cell, index);
    const answer = findOnset({
      ...ride,
      stretch: { startS: 0, endS: ride.heartBpm.length },
      referenceW: 200,
      variable: false,
    });
    if (answer.verdict === "not enough data") notEnough++;
    else if (answer.verdict === "no drift shown") none++;
    else if (answer.verdict === "rose from the start") start++;
    else if (answer.verdict === "start unclear") unclear++;
    else if (answer.verdict === "began") {
      claimed++;
      if (ride.onsetMin === null) continue;
      errorsMin.push(Math.abs(answer.onsetS / 60 - ride.onsetMin));
      if (answer.lowS / 60 <= ride.onsetMin && ride.onsetMin <= answer.highS / 60) held++;
    }
  }
  errorsMin.sort((one, other) => one - other);
  return { cell, rides: count, notEnough, none, start, unclear, claimed, held, errorsMin };
}

/** One line of the table. */
export function lineOf(result: CellResult): string {
  const { cell, rides, notEnough, none, start, unclear, claimed, held, errorsMin } = result;
  const quantile = (share: number) => errorsMin[Math.min(errorsMin.length - 1, Math.floor(errorsMin.length * share))]?.toFixed(1) ?? "-";
  const right = cell.drift === "onset" && claimed > 0 ? (held / claimed).toFixed(2) : "-";
  const columns = [rides, notEnough, none, start, unclear, claimed].map((value) => String(value).padStart(8)).join("");
  return `${cell.name.padEnd(24)}${cell.friendly ? "friendly" : "        "}${columns}${right.padStart(8)}${quantile(0.5).padStart(8)}${quantile(0.9).padStart(8)}`;
}

export const tableHead = `${"cell".padEnd(32)}${["rides", "too few", "none", "start", "unclear", "claimed", "held", "median", "90th"].map((name) => name.padStart(8)).join("")}`;
