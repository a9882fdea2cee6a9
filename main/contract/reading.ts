/**
 * The ride judged against its plan. Times are ride seconds; null is "cannot be known", never 0.
 * The keys of the JSON that `followcar read` prints are made from this in one place.
 */
import type { Span } from "./ride.ts";
import type { Setting } from "./plan.ts";
import type { Note } from "./notice.ts";
import type { Confound, HeldFinding } from "./notices/reading.ts";

/** One state per counted second; unknown beats off, off beats the band of the centred 30 s mean. */
export const PressureState = {
  unknown: 0,
  off: 1,
  offExcused: 2,
  offUnclear: 3,
  below: 4,
  in: 5,
  above: 6,
} as const;
export type PressureState = (typeof PressureState)[keyof typeof PressureState];

/** Reasons of a break that the data show and a coach may give; a planned rest is the plan's to say. */
export const GIVEN_REASONS = [
  "stopped",
  "corner",
  "braking",
  "steep descent",
  "slowed, cause not in the data",
  "unexplained",
  "cannot tell",
] as const;

/** A reason that a coach gives: one of the program's own, or words, which excuse the break. */
export type GivenReason = (typeof GIVEN_REASONS)[number] | { readonly coach: string };

export type BreakReason = GivenReason | "planned rest";

export interface Break extends Span {
  readonly reason: BreakReason;
  /** true, false, or null for `cannot tell`. */
  readonly excused: boolean | null;
  /** 10 s or more and plainly not excused. */
  readonly lapse: boolean;
  readonly setBy: "computed" | "coach";
}

export interface Surge extends Span {
  readonly meanW: number;
  readonly peakW: number;
}

export type MomentKind =
  | "riseThenOff"
  | "breakRun"
  | "lapse"
  | "surge"
  | "driftOnset"
  | "oddHeart"
  | "steadyStretch"
  | "turn"
  | "cadenceBlock"
  | "effortShort"
  | "marked"
  | (string & {});

export interface Moment extends Span {
  readonly kind: MomentKind;
  /** Why it is one, as a code or the coach's words; `overlay/words` makes the sentence. */
  readonly reason: string;
  readonly excused: boolean | null;
  /** 1 is the one to see first. */
  readonly rank: number;
  /** Numbers a coach would say; units stand in the keys. */
  readonly numbers: Readonly<Record<string, number | null>>;
  readonly setBy: "computed" | "coach";
  /** True when only the coach may see it until picked (odd heart). */
  readonly coachOnly: boolean;
  /** What the coach said here while skimming: a sound file in the debrief's folder, with `/`, and how long it lasts, s. */
  readonly comment?: { readonly path: string; readonly lengthS: number };
}

export interface StateShares {
  readonly inBandS: number;
  readonly belowS: number;
  readonly aboveS: number;
  readonly offS: number;
}

export interface PressureReading extends StateShares {
  readonly unknownS: number;
  readonly excusedOffS: number;
  readonly cannotTellOffS: number;
  readonly breaks: number;
  readonly lapses: number;
  readonly surges: number;
  /** What counts as a surge in this ride: so long at least, s, and by more than this share over the target. */
  readonly surgeFrom: { readonly lengthS: number; readonly overTarget: number };
  readonly longestUnbrokenS: number;
  readonly longestUnbrokenStrictS: number;
  readonly byGradient: { readonly up: StateShares; readonly flat: StateShares; readonly down: StateShares } | null;
  readonly swing: number | null;
  readonly swingPedalling: number | null;
  /** What the band was judged by. Null: there is no band, in/below/above mean nothing, and pressed seconds stand in `in`. */
  readonly judgedBy: "power" | "heart" | null;
  /** False where the file has neither power nor cadence: then off, breaks and unbroken stretches mean nothing. */
  readonly cranksKnown: boolean;
}

export const DRIFT_VERDICTS = [
  "not enough data",
  "no drift shown",
  "rose from the start",
  "start unclear",
  "began",
] as const;
export type DriftVerdict = (typeof DRIFT_VERDICTS)[number];

export interface DriftReading {
  readonly firstBpm: number | null;
  readonly firstAtS: number | null;
  /** Mean power that the heart answered to over the first reading (its lag taken in), as the meter gave it, W. */
  readonly firstPowerW: number | null;
  readonly lastBpm: number | null;
  readonly lastAtS: number | null;
  /** As `firstPowerW`, over the last reading. */
  readonly lastPowerW: number | null;
  readonly riseBeats: number | null;
  readonly risePercent: number | null;
  readonly driftBeats: number | null;
  readonly driftPercent: number | null;
  readonly uncertaintyBeats: number | null;
  /** The drift, up or down, is more than one ride's noise: 3 beats, or its uncertainty if that is more. False where it is not known. */
  readonly isShown: boolean;
  readonly correctedForPower: boolean;
  /**
   * Where rise and drift show other whole beats: how much higher power was over the last reading, whole W; 0 where rounding
   * and what a meter can't tell apart explain it; else null.
   */
  readonly differsByPowerStepW: number | null;
  readonly powerToHeartHalvesPercent: number | null;
  /** Mean power of the second half less that of the first, over the same seconds, W. */
  readonly halvesPowerStepW: number | null;
  readonly onsetS: number | null;
  readonly onsetLowS: number | null;
  readonly onsetHighS: number | null;
  readonly verdict: DriftVerdict;
  readonly confounds: readonly Confound[];
}

export interface TargetReading {
  readonly eventS: number | null;
  readonly minimumS: number | null;
  readonly aimS: number | null;
  readonly heldLowS: number | null;
  readonly heldHighS: number | null;
  readonly held: HeldFinding;
}

export type CountedSource = "plan" | "laps" | "settled power" | "default minutes" | "coach";

export interface CountedPart extends Span {
  readonly source: CountedSource;
  readonly stretches: readonly Span[];
}

interface Overruling<What extends string, Set> {
  readonly what: What;
  readonly set: Set;
  /** Why, in the coach's words, or null. */
  readonly reason: string | null;
}

/** The coach's counted part, heart readings, or onset (null: there is none). */
export type ValueOverride =
  Overruling<"counted", Span> | Overruling<"first" | "last", number> | Overruling<"onset", number | null>;

/** The coach's reason of a break, known again by its span as it was when the coach spoke of it. */
export interface BreakOverride extends Overruling<"break", GivenReason> {
  readonly startS: number;
  /** Null: only the start is known. */
  readonly endS: number | null;
}

/** What the coach overruled. */
export type Override = ValueOverride | BreakOverride;

/** An override in force, with what the program had computed beside it. A break's: one for each break of today that it is about. */
export type AppliedOverride =
  | (ValueOverride & { readonly computed: number | Span | null })
  | (BreakOverride & { readonly computed: BreakReason; readonly at: Span });

/** A break's reason that no break of today surely takes; `among`: indices of breaks it may be about, likeliest first. */
export interface UnsureOverride {
  readonly override: BreakOverride;
  readonly among: readonly number[];
}

/** Spans and columns that panels, charts and the page draw; all on the ride's 1 s grid. */
export interface ReadingColumns {
  /** A `PressureState` per second over the whole ride (unknown outside the recorded part). */
  readonly pressureState: Uint8Array;
  /** 1 in seconds of a surge. */
  readonly surge: Uint8Array;
  /** Counted seconds so far at the start of each cell, s; NaN before and after the counted part. */
  readonly countedS: Float64Array;
  /** Mean heart rate of the last 5 min at power like the first reading's, minus that reading, beats; NaN where it may not be shown. */
  readonly likePowerBeats: Float64Array;
}

/** Figures of one hour of the main part; the last may be shorter. Null: not known. */
export interface HourFigures extends Span {
  readonly meanW: number | null;
  readonly meanBpm: number | null;
  /** While pedalling. */
  readonly meanRpm: number | null;
  /** Over the seconds that have both. */
  readonly wattsPerBeat: number | null;
  readonly meanMps: number | null;
  readonly climbM: number | null;
  /** Share of power from the left pedal, percent, where the file has it. */
  readonly leftPercent: number | null;
}

/** Seconds in each level by how long its unbroken stretches lasted; class k holds lengths from `fromS[k]` to the next. */
export interface Exposure {
  readonly fromS: readonly number[];
  readonly inBandS: readonly number[];
  readonly belowS: readonly number[];
  readonly aboveS: readonly number[];
  readonly offS: readonly number[];
}

/** What a coach of base rides asks for next; over the judged stretches. */
export interface BaseFigures {
  readonly meanW: number | null;
  readonly meanBpm: number | null;
  readonly meanRpm: number | null;
  readonly workKj: number | null;
  readonly hours: readonly HourFigures[];
  /** Mean power of the last whole hour below that of the first, percent; null with fewer than two. */
  readonly fadePercent: number | null;
  readonly exposure: Exposure | null;
  /** The steadiest hour: a start for a target where there is none. */
  readonly steadiestHour: (Span & { readonly meanW: number }) | null;
}

/** The reading of one part between long stops. */
export interface PartReading extends Span {
  /** The one that the ride's readings are of: the longest. */
  readonly told: boolean;
  readonly drift: DriftReading;
}

/** What was asked and what was ridden on average, where they lie too far apart to judge the one by the other. Whole numbers. */
export type TargetDoubt =
  | { readonly by: "power"; readonly askedW: number; readonly riddenW: number }
  | { readonly by: "heart"; readonly lowBpm: number; readonly highBpm: number; readonly riddenBpm: number };

export interface Reading {
  readonly setting: Setting;
  /** The band on the meter's own scale (offset applied), W; null without a target. */
  readonly bandW: { readonly low: number; readonly high: number; readonly target: number } | null;
  readonly counted: CountedPart;
  readonly pressure: PressureReading;
  readonly cadence: {
    readonly meanRpm: number | null;
    readonly lowRpm: number | null;
    readonly highRpm: number | null;
  };
  readonly drift: DriftReading;
  readonly base: BaseFigures;
  /** Parts between long stops that are long enough for a reading of their own; empty where there is one only. */
  readonly parts: readonly PartReading[];
  readonly target: TargetReading;
  /** The target looks wrong for this ride; null: nothing speaks against it. */
  readonly targetDoubt: TargetDoubt | null;
  readonly breaks: readonly Break[];
  readonly surges: readonly Surge[];
  readonly moments: readonly Moment[];
  readonly overrides: readonly AppliedOverride[];
  /** Overrides that hold for nothing until the coach says which break they are about. */
  readonly unsureOverrides: readonly UnsureOverride[];
  readonly columns: ReadingColumns;
  readonly warnings: readonly Note[];
}
