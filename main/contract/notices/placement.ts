/** Why a clip lies where it lies, or why nothing places it: the list that `ClipPlacement.reason` is from. */

/** On which side of the ride a clip was filmed. */
type RideSide = "before the ride" | "after the ride";

/** What a clip's picture and sound, and its camera's gyroscope (`swing`) and accelerometer (`shake`), hold that the ride holds too. */
export type SignalFeature = "motion" | "sound" | "turning" | "swing" | "shake";

/** Why a place found by signals is not sure. */
export type SignalDoubt =
  "could be chance" | "another place fits" | "few moments" | "too short" | "not sharp" | "mark of the clock open";

/** Marks of anchors that cannot all be right. `mark` counts from 1, in the order in which they were given. */
export type AnchorTrouble =
  | { readonly kind: "one left out"; readonly mark: number; readonly byS: number }
  /** `pair`: the two that part most, each with what the best clock leaves of it. */
  | { readonly kind: "all disagree"; readonly byS: number; readonly pair: readonly [ToldMark, ToldMark] };

/** A mark as it was given, and ride time given less ride time by the clock, s. */
interface ToldMark {
  readonly mark: number;
  readonly mediaS: number;
  readonly rideS: number;
  readonly residualS: number;
}

/** Why a place by nothing but another clip's clock is doubted. */
export type InheritDoubt =
  | { readonly kind: "camera filmed another"; readonly fileName: string; readonly overlapS: number }
  | { readonly kind: "no sound"; readonly sourceName: string }
  /** Its camera's model is all that the two have in common. */
  | { readonly kind: "camera not told"; readonly sourceName: string }
  /** Its clock was never set: it may have begun anew between the two. */
  | { readonly kind: "clock was reset"; readonly sourceName: string }
  | { readonly kind: "fits elsewhere" };

interface OfFile {
  readonly fileName: string;
}

export interface PlacementReasons {
  readonly anchors: {
    readonly count: number;
    /** The worst of what several leave between them; null for one, and where they contradict each other. */
    readonly agreeToS: number | null;
    /** Ride seconds per media second where it is not 1; else null. */
    readonly rate: number | null;
    readonly trouble: AnchorTrouble | null;
    /** Moved by hand and not compared with the picture since. Missing: no. */
    readonly byHand?: boolean;
  };
  readonly "camera-positions": {
    readonly rmsM: number;
    readonly movedM: number;
    readonly anotherFits: boolean;
    readonly hardlyMoved: boolean;
    /** What the receiver's time and the ride's clock differ by, where that is much; else null. */
    readonly clockOffS: number | null;
    /** They fit, but not so that one bike is told from another that rode the same way. */
    readonly unlike: boolean;
  };
  /** Placed by the clocks: somebody rode the way at another time. `leadS`: how far ahead of the file, s; behind where below 0. */
  readonly "camera-on-another-rider": { readonly leadS: number; readonly errorS: number; readonly unlike: boolean };
  /** The rider of another ride file carried the camera. */
  readonly "camera-on-ride": { readonly rideName: string; readonly leadS: number | null };
  /** Ride times of the first frame by the satellite time and by the positions. */
  readonly "camera-clock-against-positions": {
    readonly clockS: number;
    readonly positionsS: number;
    readonly rmsM: number;
  };
  /** Of one camera's recordings, solved together. */
  readonly "shared-clock": { readonly own: PlacementReason; readonly others: number };
  readonly "signals-match": {
    /** Ride time of each stop that matches, ascending. */
    readonly stopsS: readonly number[];
    readonly turns: number;
    readonly used: readonly SignalFeature[];
    readonly together: boolean;
    readonly score: number;
    readonly farFromClock: boolean;
  };
  readonly "signals-open": { readonly used: readonly SignalFeature[]; readonly doubts: readonly SignalDoubt[] };
  /** `times` slower than life; below 1 it is time lapse. */
  readonly "slow-motion": { readonly own: PlacementReason | null; readonly times: number };
  /** `trimS`: a program wrote a file anew, so a trim of about this may lie between; null where none did. */
  readonly "clock-of": { readonly sourceName: string; readonly trimS: number | null };
  readonly "clock-of-outside": OfFile & { readonly sourceName: string; readonly side: RideSide };
  readonly "clocks-disagree": OfFile & { readonly sourceName: string };
  readonly "clock-mark-open": { readonly sourceName: string; readonly spreadS: number };
  readonly "inherited-doubted": { readonly own: PlacementReason; readonly atS: number; readonly doubt: InheritDoubt };
  /** `farM`: from the point that the file names to the nearest of the ride; `rideName`: another ride that passes there, or null. */
  readonly "filmed-elsewhere": {
    readonly own: PlacementReason;
    readonly farM: number;
    readonly rideName: string | null;
  };
  readonly "no-clock-to-tie": OfFile;
  readonly "no-clock": OfFile;
  /** Its clock shows a factory date, or one that lies ahead. */
  readonly "clock-was-reset": OfFile;
  /** `…UtcMs`: when clip and ride begin by their own clocks; null: not known. */
  readonly "clock-in-no-zone": OfFile & { readonly clipUtcMs: number | null; readonly rideUtcMs: number | null };
  /** `zoneMin`: what the clock was read as, minutes from UTC. */
  readonly "clock-outside": OfFile & { readonly zoneMin: number; readonly side: RideSide };
  readonly "clock-unchecked": { readonly zoneMin: number };
  readonly "small-copy": { readonly bigName: string };
}

export type PlacementReason = {
  readonly [C in keyof PlacementReasons]: { readonly code: C; readonly facts: PlacementReasons[C] };
}[keyof PlacementReasons];

/** One reason. */
export function placedBecause<C extends keyof PlacementReasons>(code: C, facts: PlacementReasons[C]): PlacementReason {
  return { code, facts } as PlacementReason;
}
