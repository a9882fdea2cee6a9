import type { ComparedRow, ComparedSide, ComparedStretch } from "../contract/comparison.ts";
import { CellState, type Channel, type Span } from "../contract/ride.ts";
import type { PlaceMap, RecordedEffort } from "../contract/roads.ts";
import { indexAt, valueAt } from "./risingColumn.ts";

/** A ride with its breaks in pressure that nothing excuses; null where it can't tell of any. */
export interface ComparedRide {
  readonly ride: RecordedEffort;
  readonly breaks: readonly Span[] | null;
}

/** Lengths of the parts of a table, m, and the most parts. */
const PART_M = [100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000];
const MOST_PARTS = 10;
/** A mean stands where so large a share of its seconds is known. */
const KNOWN_SHARE = 0.5;

/**
 * Two rides over one stretch, part by part of even length along the road and on the whole.
 *
 * @param span of the first ride, within the map
 */
export function comparedStretch(
  first: ComparedRide,
  second: ComparedRide,
  map: PlaceMap,
  { startS, endS }: Span,
): ComparedStretch {
  const [fromM, toM] = [valueAt(map.aS, map.atM, startS), valueAt(map.aS, map.atM, endS)];
  const lengthM = toM - fromM;
  const partM = PART_M.find((one) => lengthM / one <= MOST_PARTS) ?? lengthM / MOST_PARTS;
  const row = (from: number, to: number): ComparedRow => {
    const a = { startS: timeAt(map, map.aS, from), endS: timeAt(map, map.aS, to) };
    const b = { startS: timeAt(map, map.bS, from), endS: timeAt(map, map.bS, to) };
    const gainedS = b.endS - b.startS - (a.endS - a.startS);
    return { fromM: from - fromM, toM: to - fromM, first: sideOf(first, a), second: sideOf(second, b), gainedS };
  };
  const edges = Array.from({ length: Math.ceil(lengthM / partM - 1e-6) }, (_, k) => fromM + k * partM);
  // A last part of a few metres tells nothing by itself.
  if (edges.length > 1 && toM - edges.at(-1)! < partM / 4) edges.pop();
  return { whole: row(fromM, toM), parts: edges.map((edge, k) => row(edge, edges[k + 1] ?? toM)) };
}

function timeAt({ atM }: PlaceMap, times: Float64Array, placeM: number): number {
  const k = indexAt(atM, placeM);
  const share = (placeM - atM[k]!) / (atM[k + 1]! - atM[k]!);
  return times[k]! + Math.max(0, Math.min(1, share)) * (times[k + 1]! - times[k]!);
}

/** One ride over a span of it. */
export function sideOf({ ride, breaks }: ComparedRide, span: Span): ComparedSide {
  const { power, heartRate } = ride.grid;
  return {
    ...span,
    powerW: meanOver(power, span),
    heartRateBpm: meanOver(heartRate, span),
    breaks:
      power === null || breaks === null
        ? null
        : breaks.filter(({ startS }) => startS >= span.startS && startS < span.endS).length,
  };
}

/** Mean of the recorded seconds, zeros counted; null where fewer than half are known. */
function meanOver(channel: Channel | null, { startS, endS }: Span): number | null {
  if (channel === null) return null;
  let [sum, known, all] = [0, 0, 0];
  for (let k = Math.floor(startS); k < endS && k < channel.value.length; k++) {
    if (channel.state[k] === CellState.paused) continue;
    all++;
    const value = channel.value[k]!;
    if (!Number.isFinite(value)) continue;
    sum += value;
    known++;
  }
  return known > 0 && known >= KNOWN_SHARE * all ? sum / known : null;
}
