/** Footage and rides on one clock. */
import type { Note } from "./notice.ts";
import type { PlacementReason } from "./notices/placement.ts";

/**
 * Which numbers belong to an instant in a clip: rideS = offsetS + rate * mediaS, the recorder's delay counted in.
 * Pictures, shots and the window's player go by this clock; `rideClockOf` alone makes it of what the line-up found.
 */
export interface RideClock {
  readonly offsetS: number;
  /** Ride seconds per media second; 1 for an ordinary clip. */
  readonly rate: number;
}

/**
 * Where a clip was found in the record: foundS = offsetS + rate * mediaS, the recorder's delay not counted in. Anchors,
 * candidates and what the line-up prints are in this time.
 */
export interface FoundClock {
  readonly offsetS: number;
  /** As of a `RideClock`. */
  readonly rate: number;
}

/** A pair set by a person: this instant in a clip is this instant in the ride. */
/** An instant of the ride as a person read it off something. */
export interface RideInstant {
  /** Ride time, s. */
  readonly rideS: number;
  /** Standard error of the reading, s. */
  readonly sigmaS: number;
}

export interface Anchor {
  readonly clipId: string;
  readonly mediaS: number;
  /** Ride time in the record, s, as of a `FoundClock`. */
  readonly rideS: number;
  /** Standard error of the mark, s. */
  readonly sigmaS: number;
  /** Ride seconds per media second, where the person says that the clip does not play at the speed of life. */
  readonly rate?: number;
  /** Moved by hand further than the error of the place before, and not compared with the picture since: no more than a proposal. */
  readonly byHand?: boolean;
  /** By how much it was moved by hand in all since it was last compared with the picture, ride s. Missing: not at all. */
  readonly movedS?: number;
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
  /** Null when nothing places the clip. `rideClockOf` has the clock to show numbers by. */
  readonly found: FoundClock | null;
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
  /**
   * Seconds by which the camera passed each place before the shown ride's rider did (after, where below 0); absent
   * where that rider carried it, or nothing tells.
   */
  readonly leadS?: number;
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
  /** How late the recorder shows what happens, s: added to what was found, by `rideClockOf`. */
  readonly deviceDelayS: number;
  readonly warnings: readonly Note[];
}

/** The clock by which a clip's numbers are shown, or null where the line-up has no place for it. */
export function rideClockOf(lineup: Pick<Lineup, "clips" | "deviceDelayS">, clipId: string): RideClock | null {
  const found = lineup.clips.find((one) => one.clipId === clipId)?.found ?? null;
  return found && { offsetS: found.offsetS + lineup.deviceDelayS, rate: found.rate };
}
