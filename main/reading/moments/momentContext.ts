import type { Plan } from "../../contract/plan.ts";
import type {
  Break,
  CountedPart,
  DriftReading,
  Moment,
  MomentKind,
  PressureReading,
  Surge,
} from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf } from "../../maths/statistics.ts";
import type { Asked } from "../band.ts";

/** A first reading of an earlier ride of the same rider: what an unusual heart is told against. */
export interface EarlierReading {
  readonly firstBpm: number;
  /** Mean lagged power over that reading, W. */
  readonly powerW: number;
}

/** All that moments are found from. */
export interface MomentContext {
  readonly ride: Ride;
  readonly plan: Plan;
  readonly counted: CountedPart;
  readonly breaks: readonly Break[];
  readonly surges: readonly Surge[];
  readonly states: Uint8Array;
  /** What in, below and above were judged by; null: there is no band, pressed seconds stand in `in`. */
  readonly judgedBy: PressureReading["judgedBy"];
  readonly askedAt: (second: number) => Asked;
  readonly drift: DriftReading;
  readonly onsetSetBy: "computed" | "coach";
  readonly longestUnbroken: Span;
  readonly earlier: readonly EarlierReading[];
}

/** A moment before it has its place in the list. */
export interface Candidate extends Omit<Moment, "rank"> {
  /** How much there is to see in it, 0 to 1, within its kind. */
  readonly weight: number;
}

/** A computed moment that everyone may see; the parts that differ are passed. */
export function candidate(
  kind: MomentKind,
  span: Span,
  parts: Pick<Candidate, "reason" | "numbers" | "weight"> & Partial<Candidate>,
): Candidate {
  return { kind, startS: span.startS, endS: span.endS, excused: null, setBy: "computed", coachOnly: false, ...parts };
}

/** A number of a column's mean over some seconds, or null where nothing is known. */
export function meanOrNull(column: Float64Array | null | undefined, fromS: number, toS: number): number | null {
  if (!column) return null;
  const mean = meanOf(column, fromS, toS);
  return Number.isFinite(mean) ? mean : null;
}
