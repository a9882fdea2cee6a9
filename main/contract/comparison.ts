/** Two rides over one stretch of road, in figures. Nulls cannot be known. */
import type { Span } from "./ride.ts";

/** One ride over a part of the stretch; its span is ride time. */
export interface ComparedSide extends Span {
  /** Mean over the recorded seconds, zeros counted, W. */
  readonly powerW: number | null;
  readonly heartRateBpm: number | null;
  /** Breaks in pressure that nothing excuses; null where the file has no power. */
  readonly breaks: number | null;
}

export interface ComparedRow {
  /** Along the road from where the stretch begins, m. */
  readonly fromM: number;
  readonly toM: number;
  readonly first: ComparedSide;
  readonly second: ComparedSide;
  /** By how much the first was quicker over this part, s. */
  readonly gainedS: number;
}

export interface ComparedStretch {
  readonly whole: ComparedRow;
  readonly parts: readonly ComparedRow[];
}
