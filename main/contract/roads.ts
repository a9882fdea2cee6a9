/** Two rides on one road: where both rode the same stretch in the same direction, and which place of one is which of the other. */
import type { RideBeside } from "./pair.ts";
import type { Break } from "./reading.ts";
import type { Ride, Span } from "./ride.ts";

/** A ride as a line along the ground, a node every `ROAD_STEP_M`; stops take no room on it. */
export interface RoadTrack {
  /** Metres east and north of the plane's origin. */
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  /** Direction of travel, unit vector. */
  readonly dirEast: Float64Array;
  readonly dirNorth: Float64Array;
  /** Ride time at which the rider was there, s. */
  readonly timeS: Float64Array;
  /** Which unbroken piece a node is of: no place is known between two pieces. */
  readonly piece: Int32Array;
}

/** A stretch that both rides rode in the same direction, coarsely: nodes of the tracks that lie side by side. */
export interface SharedStretch {
  /** Ride time in each of the rides, s. */
  readonly a: Span;
  readonly b: Span;
  readonly lengthM: number;
  /** How far apart the two receivers saw it, m (median). */
  readonly apartM: number;
  /** Nodes of A, and those of B beside them; both rise. */
  readonly aNodes: Int32Array;
  readonly bNodes: Int32Array;
}

/** Why no road is shared; `too short`: one of the rides is shorter than the shortest stretch. */
export type NoSharedRoad =
  "no places in A" | "no places in B" | "too short" | "far apart" | "opposite direction" | "other roads";

export interface RoadMatch {
  readonly a: RoadTrack;
  readonly b: RoadTrack;
  /** Every pair of passes, the longest first: a lap ridden nine times against one ridden once gives nine, one for each. */
  readonly stretches: readonly SharedStretch[];
  /** Null where there is a stretch. */
  readonly why: NoSharedRoad | null;
}

/** One stretch as a function: the ride time of B at the place where A was at a ride time. Both columns rise, `atM` in even steps. */
export interface PlaceMap {
  /** Way along the stretch, m. */
  readonly atM: Float64Array;
  readonly aS: Float64Array;
  readonly bS: Float64Array;
}

/** Another ride over a road of this one: all that is asked of it, none of its places. */
export interface RoadBefore {
  /** Null: the same rider, earlier. Else what the other rider is called. */
  readonly riderName: string | null;
  /** Start of the other ride, UTC, ms since 1970; null: not known. */
  readonly startUtcMs: number | null;
  readonly utcOffsetMin: number | null;
  /** What the other ride's meter reads too low (positive), W. */
  readonly meterOffsetW: number;
  /** Its recorded power and heart rate, the whole ride. */
  readonly ride: RecordedEffort;
  /** What of it was judged, and its breaks there; null where it can't tell of breaks. */
  readonly counted: readonly Span[];
  readonly breaks: readonly Break[] | null;
  /** Where its heart rate looks odd. */
  readonly oddHeart: readonly Span[];
  /** The road they share, a spot every `spotM`. */
  readonly spotM: number;
  readonly beside: RideBeside;
}

/** What a comparison asks of a ride. */
export interface RecordedEffort {
  readonly grid: Pick<Ride["grid"], "power" | "heartRate">;
}
