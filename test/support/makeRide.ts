import type { Gap, Lap, RawRecords, RecordingMode, Ride, Span } from "../../main/contract/ride.ts";
import { findGaps } from "../../main/ride/findGaps.ts";
import { gridRide } from "../../main/ride/gridRide.ts";
import { startOffsetMin } from "../../main/ride/startOffsetMin.ts";
import { recordingMode } from "../../main/ride/recordingMode.ts";
import { COLUMN_NAMES } from "../../main/ride/rideRecords.ts";
import type { ColumnName } from "../../main/ride/rideRecords.ts";

/** Plain columns for a test ride, one entry a record; a missing column or a NaN entry is no value. */
export type MakeRideInput = Partial<Record<ColumnName, ArrayLike<number>>> & {
  /** Exact time of each record, s from the first; default: one record a second as long as the longest column. */
  readonly timeS?: ArrayLike<number>;
  readonly startUtcMs?: number | null;
  readonly utcOffsetMin?: number | null;
  /** Spans with the timer stopped; leave their records out by giving `timeS`, or set `dropPaused`. */
  readonly pauses?: readonly Span[];
  /** Drops the records inside the pauses, as a recorder would. */
  readonly dropPaused?: boolean;
  readonly laps?: readonly Lap[];
  readonly mode?: RecordingMode;
  readonly fileName?: string;
  readonly gradientWindowM?: number;
};

/** Makes a `Ride` from plain columns through the product's own grid, so that tests need no file. */
export function makeRide(input: MakeRideInput): Ride {
  const pauses = input.pauses ?? [];
  const longest = Math.max(0, ...COLUMN_NAMES.map((name) => input[name]?.length ?? 0), input.timeS?.length ?? 0);
  if (longest === 0) throw new Error("makeRide needs at least one record");
  const all = Array.from({ length: longest }, (_, i) => i);
  const time = (i: number) => input.timeS?.[i] ?? i;
  const kept = input.dropPaused ? all.filter((i) => !pauses.some((p) => time(i) > p.startS && time(i) < p.endS)) : all;
  const column = (values: ArrayLike<number> | undefined) => Float64Array.from(kept, (i) => values?.[i] ?? NaN);
  const raw: RawRecords = {
    count: kept.length,
    timeS: Float64Array.from(kept, time),
    ...(Object.fromEntries(COLUMN_NAMES.map((name) => [name, column(input[name])])) as Record<
      ColumnName,
      Float64Array
    >),
  };
  const startsSegment = new Uint8Array(raw.count);
  const mode = input.mode ?? recordingMode(raw.timeS, startsSegment, pauses);
  const { grid, warnings } = gridRide({
    raw,
    startsSegment,
    pauses,
    mode,
    gradientWindowM: input.gradientWindowM ?? 60,
  });
  const startUtcMs = input.startUtcMs === undefined ? Date.UTC(2026, 4, 17, 8, 0, 0) : input.startUtcMs;
  const gaps: Gap[] = findGaps(raw.timeS, pauses, mode);
  return {
    fileName: input.fileName ?? "test.fit",
    format: "fit",
    startUtcMs,
    utcOffsetMin: startOffsetMin(input.utcOffsetMin ?? null, startUtcMs, raw),
    mode,
    elapsedS: raw.timeS[raw.count - 1]!,
    raw,
    grid,
    gaps,
    laps: input.laps ?? [],
    warnings,
  };
}
