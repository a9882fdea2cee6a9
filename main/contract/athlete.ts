/** One athlete, as `athlete.json` in their folder holds it. Lasting values: a ride's plan and the command line win over them. */
import type { Language, UnitSystem } from "./languageAndUnits.ts";
import type { PresetName } from "./presets.ts";

/** A target that an athlete trains at, with when and how it was found. */
export interface DatedTarget {
  /** Day it was found, `YYYY-MM-DD`. */
  readonly date: string;
  readonly targetW: number;
  /** Half-width of the band, W; null: the usual one. */
  readonly toleranceW: number | null;
  /** How it was found, in the coach's words; null: not said. */
  readonly source: string | null;
  /** The meter it was found with; null: not said. */
  readonly meter: string | null;
}

/** What an athlete rides at in one setting: meters on the road and on the trainer differ by a few watts. */
export interface AthleteTarget {
  /** In force now, W; null: none set. */
  readonly targetW: number | null;
  /** Half-width of the band, W; null: the usual one. */
  readonly toleranceW: number | null;
  /** What the meter reads too low (positive) or too high (negative), W. */
  readonly meterOffsetW: number;
  /** Day the target in force was found, `YYYY-MM-DD`; null: not said, then its age can't be told. */
  readonly foundDate: string | null;
  /** How it was found, in the coach's words; null: not said. */
  readonly foundHow: string | null;
  /** The meter it was found with; null: not said. */
  readonly foundMeter: string | null;
  /** The meter ridden with now; null: not said. */
  readonly meter: string | null;
  /** Targets before the one in force, in any order: a ride is judged by the one of its day. */
  readonly earlier: readonly DatedTarget[];
}

/** An event that an athlete trains for. */
export interface AthleteEvent {
  readonly name: string;
  /** As the coach wrote it, for people; only one written `YYYY-MM-DD` is known to lie before or after a ride. Null: not set. */
  readonly dateText: string | null;
  readonly durationS: number | null;
}

/** A place whose surroundings are hidden from maps, panels and exports. */
export interface HomeZone {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly radiusM: number;
}

export interface Athlete {
  /** Version of the form. */
  readonly schema: 1;
  readonly name: string;
  readonly language: Language;
  readonly units: UnitSystem;
  readonly events: readonly AthleteEvent[];
  readonly homeZone: HomeZone | null;
  readonly preset: PresetName;
  /** Whether the athlete agreed to lessons for others, and when, in the coach's words; null: not asked. */
  readonly lessonConsent: { readonly given: boolean; readonly dateText: string } | null;
  readonly road: AthleteTarget;
  readonly trainer: AthleteTarget;
}
