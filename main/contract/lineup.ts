/** Footage and rides on one clock. */
import type { Note } from "./notice.ts";
import type { PlacementReason } from "./notices/placement.ts";

/** rideS = offsetS + rate * mediaS (+ device delay, applied apart). One per clip. */
export interface RideClock {
  readonly offsetS: number;
  /** Ride seconds per media second; 1 for an ordinary clip. */
  readonly rate: number;
}

/** A pair set by a person: this instant in a clip is this instant in the ride. */
export interface Anchor {
  readonly clipId: string;
  readonly mediaS: number;
  readonly rideS: number;
  /** Standard error of the mark, s. */
  readonly sigmaS: number;
}

export type LineupMethod = "anchor" | "telemetry" | "signals" | "clock";
export type LineupVerdict = "sure" | "not sure" | "conflict" | "no match";

export interface LineupCandidate {
  readonly rideStartS: number;
  /** Larger is better; comparable within one clip only. */
  readonly score: number;
}

export interface ClipPlacement {
  readonly clipId: string;
  /** Null when nothing places the clip. */
  readonly clock: RideClock | null;
  readonly method: LineupMethod;
  readonly verdict: LineupVerdict;
  readonly sure: boolean;
  readonly confidence: number;
  /** Half-width of about 95 %, s; null when unknown. */
  readonly uncertaintyS: number | null;
  readonly clockGroup: string;
  /** The clip whose placement this one inherits within its clock group, or null. */
  readonly inheritedFrom: string | null;
  readonly candidates: readonly LineupCandidate[];
  readonly reason: PlacementReason;
}

export interface RidePlacement {
  readonly file: string;
  readonly shown: boolean;
  readonly offsetS: number;
  readonly uncertaintyS: number | null;
}

export interface Lineup {
  readonly clips: readonly ClipPlacement[];
  readonly rides: readonly RidePlacement[];
  readonly deviceDelayS: number;
  readonly warnings: readonly Note[];
}
