/**
 * The parts of a reading and of a ride's summary that words are made from: plain values, nothing of the program's own.
 * Null is "cannot be known" and is never told as a number.
 */
export interface SharesForWords {
  readonly inBandS: number;
  readonly belowS: number;
  readonly aboveS: number;
  readonly offS: number;
}

export interface SpanForWords {
  readonly startS: number;
  readonly endS: number;
}

export interface MomentForWords extends SpanForWords {
  readonly kind: string;
  readonly reason: string;
  readonly rank: number;
  readonly numbers: Readonly<Record<string, number | null>>;
  readonly setBy: "computed" | "coach";
  readonly coachOnly: boolean;
}

export interface ReadingForWords {
  readonly setting: string;
  readonly bandW: { readonly low: number; readonly high: number; readonly target: number } | null;
  readonly counted: SpanForWords & { readonly source: string; readonly stretches: readonly SpanForWords[] };
  readonly pressure: SharesForWords & {
    readonly unknownS: number;
    readonly breaks: number;
    readonly lapses: number;
    readonly surges: number;
    readonly longestUnbrokenS: number;
    readonly longestUnbrokenStrictS: number;
    readonly byGradient: {
      readonly up: SharesForWords;
      readonly flat: SharesForWords;
      readonly down: SharesForWords;
    } | null;
    readonly swing: number | null;
    readonly swingPedalling: number | null;
    readonly judgedBy: "power" | "heart" | null;
    readonly cranksKnown: boolean;
  };
  readonly cadence: {
    readonly meanRpm: number | null;
    readonly lowRpm: number | null;
    readonly highRpm: number | null;
  };
  readonly drift: {
    readonly firstBpm: number | null;
    readonly firstAtS: number | null;
    readonly lastBpm: number | null;
    readonly lastAtS: number | null;
    readonly driftBeats: number | null;
    readonly driftPercent: number | null;
    readonly uncertaintyBeats: number | null;
    readonly isShown: boolean;
    readonly correctedForPower: boolean;
    readonly whyRiseDiffers: string | null;
    readonly powerToHeartHalvesPercent: number | null;
    readonly onsetS: number | null;
    readonly onsetLowS: number | null;
    readonly onsetHighS: number | null;
    readonly verdict: string;
    readonly confounds: readonly string[];
  };
  readonly target: {
    readonly eventS: number | null;
    readonly minimumS: number | null;
    readonly aimS: number | null;
    readonly heldWords: string;
  };
  readonly breaks: readonly {
    readonly reason: string | { readonly coach: string };
    readonly excused: boolean | null;
  }[];
  readonly moments: readonly MomentForWords[];
  readonly overrides: readonly { readonly what: string; readonly computed: unknown; readonly reason: string | null }[];
  readonly warnings: readonly string[];
}

export interface SummaryForWords {
  readonly file: string;
  readonly elapsedS: number;
  readonly distanceM: number | null;
  readonly ascentM: number | null;
  readonly power?: { readonly meanW: number | null } | null;
  readonly heartRate?: { readonly meanBpm: number | null } | null;
}
