import type { RawRecords } from "../contract/ride.ts";
import { COLUMN_NAMES, type ColumnName, type OrderedRecords, type RecordTable } from "./rideRecords.ts";
import { note, type Note } from "../contract/notice.ts";

/** A step back further than this, or onwards further than LEAP_MS, is a jump of the clock and not a record out of place. */
const BACK_MS = 60_000;
const LEAP_MS = 12 * 3_600_000;
/** A run of fewer records than this may lie between the records of another. */
const FEW = 10;

/** Records in order of time, with the absolute time of the first. */
export interface Arranged extends OrderedRecords {
  readonly startMs: number;
  readonly warnings: readonly Note[];
}

interface Run {
  readonly from: number;
  readonly to: number;
  readonly startMs: number;
  readonly endMs: number;
}

/**
 * Sorts records by time and keeps one ride: where the clock jumps - back over ground already covered, or more than 12 h -
 * the run with the most records is kept together with all that fit before, after or between its records, and the
 * others are left out and named. The table must hold at least one record.
 */
export function arrangeRecords(table: RecordTable): Arranged {
  const warnings: Note[] = [];
  const time = table.timeMs;
  const runs: Run[] = [];
  let disordered = 0;
  for (let i = 0, from = 0; i < time.length; i++) {
    const step = i + 1 < time.length ? time[i + 1] - time[i] : Infinity;
    if (step < 0) disordered++;
    if (step >= -BACK_MS && step <= LEAP_MS) continue;
    const span = time.slice(from, i + 1);
    runs.push({
      from,
      to: i + 1,
      startMs: span.reduce((a, b) => Math.min(a, b)),
      endMs: span.reduce((a, b) => Math.max(a, b)),
    });
    from = i + 1;
  }
  const kept = runs.length === 1 ? runs : keepOneRide(runs, time);
  const chosen = new Set(kept);
  const left = runs.filter((run) => !chosen.has(run));
  if (left.length > 0) warnings.push(leftOut(left));
  const indices: number[] = [];
  for (const run of kept) for (let i = run.from; i < run.to; i++) indices.push(i);
  if (disordered > 0 && kept.some((run, k) => unsorted(time, run) || (k > 0 && run.startMs < kept[k - 1].endMs))) {
    warnings.push(note("ride-records-out-of-order", {}));
  }
  if (disordered > 0) indices.sort((a, b) => time[a] - time[b] || a - b);

  const startMs = time[indices[0]];
  const columns = {} as Record<ColumnName, Float64Array>;
  for (const name of COLUMN_NAMES) columns[name] = pick(table.columns[name], indices);
  const timeS = pick(time, indices).map((ms) => (ms - startMs) / 1000);
  const raw: RawRecords = { count: indices.length, timeS, ...columns };
  return { raw, startsSegment: Uint8Array.from(pick(table.startsSegment, indices)), startMs, warnings };
}

function pick(column: readonly number[], indices: readonly number[]): Float64Array {
  const out = new Float64Array(indices.length);
  for (let k = 0; k < indices.length; k++) out[k] = column[indices[k]]!;
  return out;
}

function keepOneRide(runs: readonly Run[], time: readonly number[]): Run[] {
  const size = (run: Run) => run.to - run.from;
  const byTime = [...runs].sort((a, b) => a.startMs - b.startMs);
  let best: Run[] = [];
  let bestSize = 0;
  for (let i = 0; i < byTime.length;) {
    let next = i;
    let endMs = byTime[i].startMs;
    let records = 0;
    while (next < byTime.length && byTime[next].startMs - endMs <= LEAP_MS) {
      endMs = Math.max(endMs, byTime[next].endMs);
      records += size(byTime[next]);
      next++;
    }
    if (records > bestSize) {
      best = byTime.slice(i, next);
      bestSize = records;
    }
    i = next;
  }
  const occupied = new Set<number>();
  const kept: Run[] = [];
  for (const run of best.sort((a, b) => size(b) - size(a))) {
    const seconds = Array.from({ length: size(run) }, (_, i) => Math.floor(time[run.from + i] / 1000));
    const fits =
      size(run) < FEW
        ? !seconds.some((s) => occupied.has(s))
        : kept.every(
            (k) => Math.min(k.endMs, run.endMs) - Math.max(k.startMs, run.startMs) <= BACK_MS || size(k) < FEW,
          );
    if (!fits) continue;
    kept.push(run);
    for (const s of seconds) occupied.add(s);
  }
  return kept.sort((a, b) => a.from - b.from);
}

function unsorted(time: readonly number[], run: Run): boolean {
  for (let i = run.from + 1; i < run.to; i++) if (time[i] < time[i - 1]) return true;
  return false;
}

function leftOut(left: readonly Run[]): Note {
  const named = left.slice(0, 3).map((run) => ({ records: run.to - run.from, startMs: run.startMs }));
  return note("ride-times-jump", { left: named, more: left.length - named.length });
}
