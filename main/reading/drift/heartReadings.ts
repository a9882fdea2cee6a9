import type { Span } from "../../contract/ride.ts";
import { countOf, meanOf, slopeOf } from "../../maths/statistics.ts";
import { sharedS } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import type { HeartTrouble } from "../../contract/notices/reading.ts";

const limits = thresholds.drift;

/** One reading of the heart: the mean over five minutes. */
export interface HeartReading {
  readonly span: Span;
  /** Recorded mean, bpm. */
  readonly bpm: number;
  /** The same at the reference power, bpm; equal to `bpm` where power is not corrected for, NaN where power is missing. */
  readonly adjustedBpm: number;
  /** Mean lagged power over the same seconds, W; NaN without power. */
  readonly laggedW: number;
}

/** Columns that readings are taken from; all on the ride's grid, NaN where missing. */
export interface HeartColumns {
  readonly heartBpm: Float64Array;
  readonly adjustedBpm: Float64Array;
  readonly laggedW: Float64Array | null;
  readonly stops: readonly Span[];
}

/** A reading, or why there is none; `moved` says what disturbed the usual place. */
export interface FoundReading {
  readonly reading: HeartReading | null;
  readonly moved: HeartTrouble | null;
}

/** The reading over exactly this span; null with too few valid seconds. */
export function readingOver(columns: HeartColumns, span: Span): HeartReading | null {
  if (countOf(columns.heartBpm, span.startS, span.endS) < limits.readingValidS) return null;
  const bpm = meanOf(columns.heartBpm, span.startS, span.endS);
  const known = countOf(columns.adjustedBpm, span.startS, span.endS) >= limits.readingValidS;
  return {
    span,
    bpm,
    adjustedBpm: known ? meanOf(columns.adjustedBpm, span.startS, span.endS) : NaN,
    laggedW: columns.laggedW && known ? meanOf(columns.laggedW, span.startS, span.endS) : NaN,
  };
}

/**
 * The first reading: five minutes, ten minutes after the stretch starts, moved on minute by minute while a stop disturbs
 * it, data is missing or the heart has not settled.
 */
export function firstReading(columns: HeartColumns, stretch: Span): FoundReading {
  const from = stretch.startS + limits.firstFromS;
  const latest = Math.min(stretch.startS + limits.firstLatestS, stretch.endS - 2 * limits.readingS);
  let why: HeartTrouble | null = null;
  let unsettled: FoundReading | null = null;
  for (let startS = from; startS <= latest; startS += 60) {
    const span = { startS, endS: startS + limits.readingS };
    const trouble = troubleIn(columns, span);
    const reading = readingOver(columns, span);
    const settled = Math.abs(slopeOf(columns.adjustedBpm, span.startS, span.endS) * 60) < limits.settledSlopePerMin;
    if (reading && !trouble && settled) return { reading, moved: startS === from ? null : why };
    if (reading && !trouble) unsettled ??= { reading, moved: startS === from ? null : why };
    why ??= trouble ?? (reading ? "not settled" : "missing");
  }
  if (unsettled) return { reading: unsettled.reading, moved: unsettled.moved ?? "never settled" };
  return { reading: null, moved: why };
}

/** The last reading: the last five minutes of the stretch, moved back up to ten minutes while a stop disturbs it. */
export function lastReading(columns: HeartColumns, stretch: Span, notBeforeS: number): FoundReading {
  let why: HeartTrouble | null = null;
  for (let movedS = 0; movedS <= limits.lastMoveS; movedS += 60) {
    const span = { startS: stretch.endS - limits.readingS - movedS, endS: stretch.endS - movedS };
    if (span.startS < notBeforeS) break;
    const trouble = troubleIn(columns, span);
    const reading = readingOver(columns, span);
    if (reading && !trouble) return { reading, moved: movedS === 0 ? null : why };
    why ??= trouble ?? "missing";
  }
  return { reading: null, moved: why };
}

function troubleIn(columns: HeartColumns, span: Span): HeartTrouble | null {
  const around = { startS: span.startS - limits.disturbedForS, endS: span.endS };
  return columns.stops.some((stop) => sharedS(stop, around) > 0) ? "stop" : null;
}
