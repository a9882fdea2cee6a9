import { Failure } from "../contract/failure.ts";
import type { Lap, RawRecords } from "../contract/ride.ts";
import type { Note } from "../contract/notice.ts";

/** Names of the columns of `RawRecords` that a file may fill. */
export const COLUMN_NAMES = [
  "powerW",
  "heartRateBpm",
  "cadenceRpm",
  "speedMps",
  "distanceM",
  "altitudeM",
  "latDeg",
  "lonDeg",
  "temperatureC",
  "leftPercent",
] as const;
export type ColumnName = (typeof COLUMN_NAMES)[number];

/** A week at three records a second; more would only fill the memory. */
export const MOST_RECORDS = 2_000_000;

/**
 * Records as a decoder hands them on: file order, absolute times in ms (UTC since 1970 where the file has a calendar,
 * else since any zero), one plain array per column, NaN for no value.
 */
export class RecordTable {
  constructor(
    private readonly fileName: string,
    private readonly most = MOST_RECORDS,
  ) {}

  readonly timeMs: number[] = [];
  /** 1 where a new track segment begins: the way to it from the record before is not ridden distance. */
  readonly startsSegment: number[] = [];
  readonly columns = Object.fromEntries(COLUMN_NAMES.map((name) => [name, [] as number[]])) as Record<
    ColumnName,
    number[]
  >;

  /** Number of records. */
  get count(): number {
    return this.timeMs.length;
  }

  /** Adds a record; Failure `ride-not-usable` past 2 million; columns not named hold NaN, and so do values that are not finite. */
  add(timeMs: number, values: Partial<Record<ColumnName, number>>, startsSegment = false): void {
    if (this.count >= this.most) {
      throw new Failure("ride-too-many-records", { fileName: this.fileName });
    }
    this.timeMs.push(timeMs);
    this.startsSegment.push(startsSegment ? 1 : 0);
    for (const name of COLUMN_NAMES) {
      const value = values[name];
      this.columns[name].push(value !== undefined && Number.isFinite(value) ? value : NaN);
    }
  }
}

/** A span of absolute time, ms. */
export interface SpanMs {
  readonly startMs: number;
  readonly endMs: number;
}

/** What a decoder found in a file, before anything is sorted, split or judged. */
export interface DecodedRide {
  readonly table: RecordTable;
  readonly utcOffsetMin: number | null;
  /** Spans in which the recorder's timer was stopped. */
  readonly pauses: readonly SpanMs[];
  readonly laps: readonly (SpanMs & { readonly trigger: Lap["trigger"] })[];
  /** The file says that it was ridden indoors. */
  readonly indoors?: boolean;
  /** Metres over which a gradient is taken: longer where altitude may come from satellites alone. */
  readonly gradientWindowM: number;
  readonly warnings: readonly Note[];
}

/** Sorted records and what was found about them; the input of the grid. */
export interface OrderedRecords {
  readonly raw: RawRecords;
  /** 1 where a new track segment begins, per record. */
  readonly startsSegment: Uint8Array;
}
