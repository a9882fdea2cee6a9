import type { PairSpots, RideBeside, ShotBeside } from "../../main/contract/pair.ts";
import type { RideColumns } from "../../main/contract/rideColumns.ts";
import { between, valuesAt } from "../pair/pairAt.ts";
import { panelValuesAt, type PanelValues, type ThenShown } from "./panelValuesAt.ts";
import { cellAt } from "./rideTimeAt.ts";
import type { ThreadBeside } from "./threadPageAt.ts";

/**
 * The values of an instant with what a ride beside it shows: by place where it was at this spot of the road, by time where
 * it had got to after as long from the common spot. Dashes where it was on no road that both rode.
 */
export function withBeside(
  columns: RideColumns,
  values: PanelValues,
  beside: ShotBeside | undefined,
  rideS: number,
): PanelValues {
  if (beside === undefined) return values;
  const { series, panels, name, spots } = beside;
  const road = { fromS: Math.ceil(spots.firstS[0]!), toS: Math.floor(spots.firstS.at(-1)!) };
  const there = whereBeside(beside, rideS);
  if (there === null) return { ...values, then: { name, panels, road, values: OFF_THE_ROAD, spotS: null } };
  const { phase: _phase, ...then } = valuesAt(series, there.otherS);
  // The road is one: it is as steep under the other as this ride found it there. By place that is the very figure beside it.
  const { gradientPercent, rideS: spotS } = there.spotS === rideS ? values : panelValuesAt(columns, there.spotS);
  return { ...values, then: { name, panels, road, values: { ...then, gradientPercent }, spotS } };
}

const OFF_THE_ROAD: ThenShown["values"] = {
  rideS: null,
  countedS: null,
  powerW: null,
  heartRateBpm: null,
  cadenceRpm: null,
  speedMps: null,
  gradientPercent: null,
  likePowerBeats: null,
};

/** The other ride's own time, and this ride's at the spot where the other is then; null where they share no road. */
function whereBeside(
  { spots, byTimeFromS }: ShotBeside,
  rideS: number,
): { readonly otherS: number; readonly spotS: number } | null {
  const { firstS, secondS } = spots;
  if (byTimeFromS === undefined)
    return inside(firstS, rideS) ? { otherS: between(firstS, secondS, rideS), spotS: rideS } : null;
  if (!inside(firstS, byTimeFromS)) return null;
  const otherS = timeSince(byTimeFromS, spots, rideS);
  return inside(secondS, otherS) ? { otherS, spotS: between(secondS, firstS, otherS) } : null;
}

/** The other ride's own time as long after the common spot as this ride is. */
function timeSince(fromS: number, { firstS, secondS }: PairSpots, rideS: number): number {
  return between(firstS, secondS, fromS) + rideS - fromS;
}

function inside(rising: readonly number[], atS: number): boolean {
  return atS >= rising[0]! && atS <= rising.at(-1)!;
}

/** Of each ride beside, which is never changed. */
const made = new WeakMap<RideBeside, Uint8Array>();

/** The other ride's `PressureState` at the spot of each second of this ride, unknown where they share no road: made once. Null: no ride. */
export function pressureBeside(beside: RideBeside | undefined): Uint8Array | null {
  if (beside === undefined) return null;
  const before = made.get(beside);
  if (before !== undefined) return before;
  const { spots, series } = beside;
  const endS = spots.firstS.at(-1)!;
  const pressure = new Uint8Array(Math.ceil(endS) + 1);
  for (let cell = Math.max(0, Math.ceil(spots.firstS[0]!)); cell < endS; cell += 1) {
    const there = cellAt(between(spots.firstS, spots.secondS, cell + 0.5));
    pressure[cell] = series.pressure[there - series.startS] ?? 0;
  }
  made.set(beside, pressure);
  return pressure;
}

/** What of the other's thread stands below this one's at an instant: its states by this ride's seconds, and how far it has come. */
export function threadBeside(beside: ShotBeside | undefined, rideS: number): ThreadBeside | null {
  const states = pressureBeside(beside);
  if (beside === undefined || states === null) return null;
  const { spots, byTimeFromS } = beside;
  if (byTimeFromS === undefined) return { states, untilS: rideS };
  const otherS = timeSince(byTimeFromS, spots, rideS);
  return { states, untilS: otherS < spots.secondS[0]! ? -Infinity : between(spots.secondS, spots.firstS, otherS) };
}
