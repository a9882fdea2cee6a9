import { findOnset } from "../../main/reading/drift/onset.ts";
import { calibrationRide, type CalibrationRide, type Cell } from "./calibrationRides.ts";

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
export function calibrate(
  cell: Cell,
  count: number,
  series = 0,
  ride: (cell: Cell, index: number, series: number) => CalibrationRide = calibrationRide,
): CellResult {
  let [notEnough, none, start, unclear, claimed, held] = [0, 0, 0, 0, 0, 0];
  const errorsMin: number[] = [];
  for (let index = 0; index < count; index++) {
    const made = ride(cell, index, series);
    const answer = findOnset({
      ...made,
      // As the reading does: a stand's heart rate is nobody's.
      heartBpm: made.heartBpm.map((bpm, s) => (made.standing[s] === 1 ? NaN : bpm)),
      stretch: { startS: 0, endS: made.heartBpm.length },
      referenceW: 200,
      variable: false,
    });
    if (answer.verdict === "not enough data") notEnough++;
    else if (answer.verdict === "no drift shown") none++;
    else if (answer.verdict === "rose from the start") start++;
    else if (answer.verdict === "start unclear") unclear++;
    else if (answer.verdict === "began") {
      claimed++;
      if (made.onsetMin === null) continue;
      errorsMin.push(Math.abs(answer.onsetS / 60 - made.onsetMin));
      if (answer.lowS / 60 <= made.onsetMin && made.onsetMin <= answer.highS / 60) held++;
    }
  }
  errorsMin.sort((one, other) => one - other);
  return { cell, rides: count, notEnough, none, start, unclear, claimed, held, errorsMin };
}

/** 95 % interval of a share (E. B. Wilson, J. Am. Stat. Assoc. 1927;22:209; from memory). */
function wilson(hits: number, of: number): readonly [low: number, high: number] {
  if (of === 0) return [0, 1];
  const z = 1.96;
  const share = hits / of;
  const middle = (share + (z * z) / (2 * of)) / (1 + (z * z) / of);
  const half = (z / (1 + (z * z) / of)) * Math.sqrt((share * (1 - share)) / of + (z * z) / (4 * of * of));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

/** One line of the table; its range is that of the share held, or of the share of false claims where there is no onset. */
export function lineOf(result: CellResult): string {
  const { cell, rides, notEnough, none, start, unclear, claimed, held, errorsMin } = result;
  const quantile = (share: number) =>
    errorsMin[Math.min(errorsMin.length - 1, Math.floor(errorsMin.length * share))]?.toFixed(1) ?? "-";
  const isOnset = cell.drift === "onset";
  const right = isOnset && claimed > 0 ? (held / claimed).toFixed(2) : "-";
  const [low, high] = isOnset ? wilson(held, claimed) : wilson(claimed, rides);
  const range =
    isOnset && claimed === 0
      ? "-"
      : `${(100 * low).toFixed(isOnset ? 0 : 2)}-${(100 * high).toFixed(isOnset ? 0 : 2)} %`;
  const columns = [rides, notEnough, none, start, unclear, claimed].map((value) => String(value).padStart(8)).join("");
  return (
    `${cell.name.padEnd(36)}${cell.friendly ? "friendly" : "        "}${columns}${right.padStart(8)}` +
    `${quantile(0.5).padStart(8)}${quantile(0.9).padStart(8)}${range.padStart(14)}`
  );
}

export const tableHead =
  "cell".padEnd(44) +
  ["rides", "too few", "none", "start", "unclear", "claimed", "held", "median", "90th"]
    .map((name) => name.padStart(8))
    .join("") +
  "95 % range".padStart(14);
