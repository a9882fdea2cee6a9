import { readFileSync } from "node:fs";
import type { HeartBlocks } from "../../main/reading/drift/heartBlocks.ts";

const folder = new URL("../fixtures/segmented/", import.meta.url);

/** Rows of numbers of a CSV file with one head line. */
export function rowsOf(name: string): number[][] {
  return readFileSync(new URL(name, folder), "utf8")
    .trim()
    .split("\n")
    .slice(1)
    .map((line) => line.split(",").map(Number));
}

/** A JSON file of reference figures. */
export function referenceOf<Value>(name: string): Value {
  return JSON.parse(readFileSync(new URL(name, folder), "utf8")) as Value;
}

/** The 60 s blocks of series A, B or C as R made them, against 240 W. */
export function seriesBlocks(name: "A" | "B" | "C"): HeartBlocks {
  const rows = rowsOf(`sim_${name}_blocks60.csv`);
  return {
    tMin: Float64Array.from(rows, (row) => row[0]!),
    bpm: Float64Array.from(rows, (row) => row[1]!),
    overW: Float64Array.from(rows, (row) => row[2]! - 240),
    gaps: Float64Array.from(rows, () => 1),
    asked: rows.length,
    lostToStops: 0,
    lostToData: 0,
  };
}
