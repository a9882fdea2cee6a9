/** Two rides on one stretch of road, side by side: a card that moves, with footage let in where there is some. */
import type { PanelName } from "./filmLook.ts";
import type { UnitSystem } from "./languageAndUnits.ts";
import type { RideClock } from "./lineup.ts";
import type { Span } from "./ride.ts";

/** `place`: both pictures are at one spot of the road. `time`: both run as filmed from a common spot on. */
export const FOLLOW_WAYS = ["place", "time"] as const;
export type FollowWay = (typeof FOLLOW_WAYS)[number];

/** What a side shows of its ride, an entry a second; null is a dash. */
export interface PairSeries {
  /** Ride time of the first entry, whole s. */
  readonly startS: number;
  /** As in `RideColumns`: how far into its second each record falls, s; null: all fall on whole seconds. */
  readonly lateS: readonly number[] | null;
  /** The recorder chose its own steps: power is the last value, not a 3 s mean. */
  readonly variable: boolean;
  /** Values as a panel shows them once the second's record is there. */
  readonly powerW: readonly (number | null)[];
  readonly heartRateBpm: readonly (number | null)[];
  readonly speedMps: readonly (number | null)[];
  /** Missing: made before these could be shown; dashes. */
  readonly cadenceRpm?: readonly (number | null)[];
  readonly countedS?: readonly (number | null)[];
  readonly likePowerBeats?: readonly (number | null)[];
  /** A `PressureState` a second. */
  readonly pressure: readonly number[];
  readonly altitudeM: readonly (number | null)[];
}

export interface PairSide {
  /** `you`, `coach`, `16 May`. */
  readonly name: string;
  /** What fills its half; null: its numbers and its road on a card. */
  readonly footage: { readonly clipId: string; readonly clock: RideClock } | null;
  readonly series: PairSeries;
}

/**
 * Ride time of both sides by film time from the card's start: straight lines between the entries, none falls; of two at
 * one film time the later holds from there on.
 */
export interface PairPace {
  readonly filmS: readonly number[];
  readonly firstS: readonly number[];
  readonly secondS: readonly number[];
}

/** Spots of the road in order: when each side was there, ride time, s. The first is where the difference counts from. */
export interface PairSpots {
  readonly firstS: readonly number[];
  readonly secondS: readonly number[];
}

/** Another ride on the road of this one: where it was at each spot, and what it shows there. `firstS` is this ride's time. */
export interface RideBeside {
  readonly spots: PairSpots;
  readonly series: PairSeries;
}

/**
 * Another ride shown on this one's picture: its thread below this one's, and on some panels its number behind it; on the
 * map, its place.
 */
export interface ShotBeside extends RideBeside {
  /** `16 May`, `coach`. */
  readonly name: string;
  /** False: another rider's. Missing: the same rider's, on another day. */
  readonly oneRider?: boolean;
  /** Panels that show now / then. */
  readonly panels: readonly PanelName[];
  /** This ride's time at the spot from which on both run as ridden, s. Missing: the other is where this one is. */
  readonly byTimeFromS?: number;
}

/** What of a debrief a pair was made from, so that it can be made anew: another ride and a span of the debrief's own. */
export interface PairOrigin extends Span {
  /** Which of the rides on this road. */
  readonly riderName: string | null;
  readonly startUtcMs: number | null;
  /** The debrief's own ride stands second. */
  readonly ownSecond: boolean;
  /** The clip that shows the other rider; null: none. Missing: those that the line-up says the other carried. */
  readonly otherClipId?: string | null;
}

export interface PairCard {
  readonly kind: "pair";
  readonly title: string;
  readonly follow: FollowWay;
  readonly units: UnitSystem;
  /** Left and right, or above and below; what is said of the difference is said of the first. */
  readonly sides: readonly [PairSide, PairSide];
  readonly pace: PairPace;
  readonly spots: PairSpots;
  /** False: two riders, whose hearts are not to be told beside each other. Missing: one rider on two days. */
  readonly oneRider?: boolean;
  /** Missing: not made from a debrief. */
  readonly of?: PairOrigin;
}
