import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { meanOf } from "../../main/maths/statistics.ts";
import { read } from "../../main/reading/read.ts";
import { makeRide } from "../support/makeRide.ts";
import { calibrationRide, type Cell } from "./calibrationRides.ts";

/** Whether the printed ranges of a cell's rides hold the true drift. */
export interface RangeResult {
  readonly cell: Cell;
  /** Rides that print a drift, and those of them whose range holds the true one. */
  readonly printed: number;
  readonly held: number;
  /** Middle width: half of the printed ranges are narrower, beats either side. */
  readonly medianGive: number;
}

const plan = defaultPlan({ setting: "trainer", targetW: 200, warmUpS: 0, coolDownS: 0 });

/** Reads rides 0 to count - 1 of a cell as the program does and asks each printed range for the true drift. */
export function driftRanges(cell: Cell, count: number, series = 0): RangeResult {
  const gives: number[] = [];
  let held = 0;
  for (let index = 0; index < count; index++) {
    const made = calibrationRide(cell, index, series);
    const speedMps = made.standing.map((stands) => (stands === 1 ? 0 : 1));
    const ride = makeRide({
      powerW: made.powerW,
      heartRateBpm: made.heartBpm,
      speedMps: Float64Array.from(speedMps, (moves) => 8 * moves),
    });
    const { drift } = read(ride, plan, []);
    const { firstAtS, lastAtS, driftBeats, uncertaintyBeats } = drift;
    if (driftBeats === null || uncertaintyBeats === null || firstAtS === null || lastAtS === null) continue;
    const over = (middleS: number) => meanOf(made.driftBpm, middleS - 150, middleS + 150);
    const truth = over(lastAtS) - over(firstAtS);
    // As it is printed: whole beats.
    if (Math.abs(Math.round(driftBeats) - truth) <= Math.max(1, Math.round(uncertaintyBeats))) held++;
    gives.push(uncertaintyBeats);
  }
  gives.sort((one, other) => one - other);
  return { cell, printed: gives.length, held, medianGive: gives[Math.floor(gives.length / 2)] ?? NaN };
}
