import type { RideBeside, ShotBeside } from "../../main/contract/pair.ts";
import { between, valuesAt } from "../pair/pairAt.ts";
import type { PanelValues, ThenShown } from "./panelValuesAt.ts";
import { cellAt } from "./rideTimeAt.ts";

type ThenValues = ThenShown["values"];

/** The values of an instant with what a ride beside it shows there. */
export function withBeside(values: PanelValues, beside: ShotBeside | undefined, rideS: number): PanelValues {
  return beside === undefined ? values : { ...values, then: { panels: beside.panels, values: thenAt(beside, rideS) } };
}

const OFF_THE_ROAD: ThenValues = {
  rideS: null,
  countedS: null,
  powerW: null,
  heartRateBpm: null,
  cadenceRpm: null,
  speedMps: null,
  likePowerBeats: null,
};

/** The other ride's values at the spot of the road where this ride is at `rideS`; dashes where they share no road. */
function thenAt({ spots, series }: RideBeside, rideS: number): ThenValues {
  if (rideS < spots.firstS[0]! || rideS > spots.firstS.at(-1)!) return OFF_THE_ROAD;
  const {
    phase: _phase,
    gradientPercent: _road,
    ...values
  } = valuesAt(series, between(spots.firstS, spots.secondS, rideS));
  return values;
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
