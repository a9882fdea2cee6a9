/**
 * What is known of one ride, each figure once and rounded once: message, film, cards, page, coach's page, command line
 * and window say these and no others. Null: cannot be known.
 */
import type { ComparedSide } from "./comparison.ts";
import type { TargetDoubt } from "./reading.ts";
import type { Span } from "./ride.ts";

/** Whole percents of the main part that add up to 100. */
export interface WholeShares {
  readonly inPercent: number;
  readonly belowPercent: number;
  readonly abovePercent: number;
  readonly offPercent: number;
  readonly unknownPercent: number;
}

/** What a rider's note speaks of that comes before any training. `unclear`: something the program does not understand. */
export const HOLD_TOPICS = ["illness", "heart", "injury", "medicine", "sleep", "food", "unclear"] as const;
export type HoldTopic = (typeof HOLD_TOPICS)[number];

/** A planned block as it was ridden. */
export interface BlockFacts extends Span {
  readonly kind: "steady" | "effort";
  readonly targetW: number | null;
  /** Mean power, whole W. */
  readonly meanW: number | null;
  /** Share of it at the plan, by the same mean as the ride's shares, whole percent. */
  readonly inPercent: number | null;
  /** Mean power of its second half less that of its first, whole W: how evenly it was ridden. */
  readonly halvesStepW: number | null;
  /** Ridden for four fifths of its length at the plan's power or more (its mean within the band); null: not known. */
  readonly done: boolean | null;
}

/** What this ride can say of the heart at the same power. */
export interface DriftFacts {
  /** Whole beats, and how far they can be wrong. */
  readonly beats: number;
  readonly giveOrTake: number;
  /** False where the error is wider than the drift that is acceptable, or power differed too much to compare. */
  readonly canTell: boolean;
}

/** The last ride of the same athlete that is like this one. */
export interface LastLikeRide {
  readonly startUtcMs: number;
  /** Time at the plan, percent: then and now. Null where it is too near to tell. */
  readonly inBand: { readonly before: number; readonly now: number } | null;
  /** Breaks of 10 s or more without a reason an hour, then and now, one decimal. Null where it is too near to tell. */
  readonly breaksAnHour: { readonly before: number; readonly now: number } | null;
  /** Heart rate early on at the same power: beats more (or, negative, fewer) than then, with its error. Null: can't tell. */
  readonly heart: { readonly beats: number; readonly giveOrTake: number } | null;
}

/** A part of the road that the athlete rode before, of 3 km or 5 min at least. */
export interface RiddenAgain {
  readonly kind: "rise" | "road";
  readonly lengthM: number;
  /** Of the earlier ride, UTC, ms since 1970. */
  readonly startUtcMs: number;
  readonly utcOffsetMin: number | null;
  /** What nothing excuses is counted in `breaks`; null where a break's reason or too much of the pressure is not known. */
  readonly now: ComparedSide;
  readonly before: ComparedSide;
  /** Mean power within a twentieth: only then the two are told beside each other. */
  readonly likePower: boolean;
  /** Breaks, then and now. Null: not at like power, not known, or too near to tell. */
  readonly breaks: { readonly before: number; readonly now: number } | null;
  /** Heart rate at like power: beats more (negative: fewer) than then, with its error. Null: can't tell. */
  readonly heart: { readonly beats: number; readonly giveOrTake: number } | null;
}

export interface DebriefFacts {
  /** What shares are judged by; null: nothing to judge by. */
  readonly judgedBy: "power" | "heart" | null;
  /** Length of the centred mean that shares are judged by, s. */
  readonly meanOverS: number;
  /** Length of all that counts, s. */
  readonly mainS: number;
  readonly shares: WholeShares | null;
  /** The same by the road; a class of less than a minute is null. */
  readonly sharesByRoad: {
    readonly up: WholeShares | null;
    readonly flat: WholeShares | null;
    readonly down: WholeShares | null;
  } | null;
  /** Pressed or not, where there is no band; whole percents. Null: cranks not known. */
  readonly pressed: {
    readonly onPercent: number;
    readonly offPercent: number;
    readonly unknownPercent: number;
  } | null;
  /** Over the main part: zeros of power counted, cadence while pedalling; whole numbers. */
  readonly meanW: number | null;
  readonly meanBpm: number | null;
  readonly meanRpm: number | null;
  readonly longestUnbrokenS: number | null;
  /**
   * Breaks without a reason where pressure may be asked for: no descent, corner, traffic, stop, nor right after a hard
   * effort; none in a group. Only these are ever asked about.
   */
  readonly askable: readonly Span[];
  /** The hour with most time at the plan, and how much of it, whole percent; null: no whole hour, or no plan. */
  readonly bestHour: (Span & { readonly inPercent: number }) | null;
  /** The longest rise of 3 min or more ridden at the plan for four fifths of it or more, with its mean, whole W. */
  readonly evenRise: (Span & { readonly meanW: number }) | null;
  /** Nine tenths of the time on the pedals lay between these, as 30 s means, whole W; null: wider than is even, or too little known. */
  readonly evenPower: { readonly lowW: number; readonly highW: number } | null;
  readonly drift: DriftFacts | null;
  readonly blocks: readonly BlockFacts[];
  /** Rest and recovery come first, because of the rider's note; null: nothing against training. */
  readonly hold: readonly HoldTopic[] | null;
  readonly lastLike: LastLikeRide | null;
  /** Roads ridden before, what is most worth telling first. */
  readonly again: readonly RiddenAgain[];
  /** The target looks wrong for this ride, so it is not judged by it; null: nothing speaks against it. */
  readonly targetDoubt: TargetDoubt | null;
  /** Length of the main part that the athlete's last debrief asked for, s; null: nothing was asked. */
  readonly askedLastS: number | null;
  /** Days since the athlete's ride before this one; null: none known. */
  readonly daysSinceLast: number | null;
}
