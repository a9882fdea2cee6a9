import type { Lap } from "../contract/ride.ts";
import { COLUMN_NAMES, RecordTable, type ColumnName, type SpanMs } from "./rideRecords.ts";

/** One session of a file, in the file's own time; `sport` as the format's profile names it. */
export interface SessionSpan extends SpanMs {
  readonly sport: string;
}

type DecodedLap = SpanMs & { readonly trigger: Lap["trigger"] };

interface Kept {
  readonly table: RecordTable;
  readonly pauses: readonly SpanMs[];
  readonly laps: readonly DecodedLap[];
}

/** Names of what is ridden (public FIT profile, type sport). */
const RIDDEN = new Set(["cycling", "e_biking"]);
/** Names that say nothing against a ride. */
const UNSAID = new Set(["unknown", "generic", "all", "training", "fitness_equipment"]);

/**
 * Leaves of a file of several sports only what was ridden: nobody can judge pressure on the pedals of a swim. What lies
 * between two rides becomes a pause.
 *
 * @returns null where there is nothing to leave out: one sport only, nothing ridden, or too few records in the ridden part
 */
export function onlyRidden(
  fileName: string,
  table: RecordTable,
  sessions: readonly SessionSpan[],
  pauses: readonly SpanMs[],
  laps: readonly DecodedLap[],
): Kept | null {
  if (!sessions.some(({ sport }) => RIDDEN.has(sport))) return null;
  const ridden = sessions
    .filter(({ sport }) => RIDDEN.has(sport) || UNSAID.has(sport))
    .sort((one, other) => one.startMs - other.startMs);
  if (ridden.length === sessions.length) return null;
  const within = (ms: number) => ridden.some(({ startMs, endMs }) => ms >= startMs && ms <= endMs);
  const kept = new RecordTable(fileName);
  const rows = table.timeMs.flatMap((ms, row) => (within(ms) ? [row] : []));
  if (rows.length < 2 || rows.length === table.count) return null;
  const beganM = table.columns.distanceM[rows.find((row) => table.columns.distanceM[row] >= 0) ?? 0];
  for (const row of rows) {
    const values: Partial<Record<ColumnName, number>> = {};
    for (const name of COLUMN_NAMES) values[name] = table.columns[name][row];
    // As the computer showed it: the way of each session begins at 0, also where the file counts on.
    values.distanceM = table.columns.distanceM[row] - beganM;
    kept.add(table.timeMs[row], values, table.startsSegment[row] === 1);
  }
  const between = ridden.slice(1).flatMap((next, i) => {
    const startMs = Math.max(...ridden.slice(0, i + 1).map(({ endMs }) => endMs));
    return next.startMs > startMs ? [{ startMs, endMs: next.startMs }] : [];
  });
  return {
    table: kept,
    pauses: [...pauses.filter(({ startMs, endMs }) => within(startMs) && within(endMs)), ...between],
    laps: laps.filter(({ startMs, endMs }) => within(startMs) && within(endMs)),
  };
}
