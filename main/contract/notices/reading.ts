import type { FormFault } from "../formFault.ts";
import type { TargetDoubt } from "../reading.ts";
import type { NoFacts } from "./noFacts.ts";

/** Why a heart reading does not stand in its usual place. */
export type HeartTrouble = "stop" | "missing" | "not settled" | "never settled";

/** How long the heart held without drift, as far as a ride shows it. */
export type HeldFinding =
  /** `blindBeats`: drift below this would not show; null where it is not that. */
  | { readonly kind: "unknown"; readonly blindBeats: number | null }
  /** Not ridden steadily enough to tell. */
  | ({ readonly kind: "not steady" } & NotSteady)
  /** Held to the end of what was judged: the whole ride, or the part between long stops. `yetApart`: the readings differ. */
  | { readonly kind: "to the end"; readonly leastS: number; readonly whole: boolean; readonly yetApart: boolean }
  /** The sensors end long before the ride. */
  | { readonly kind: "as far as known"; readonly leastS: number }
  | { readonly kind: "to the last reading"; readonly leastS: number }
  | { readonly kind: "not at all" }
  | { readonly kind: "start unknown" }
  | { readonly kind: "between"; readonly lowS: number; readonly highS: number; readonly whole: boolean };

/** Why a ride was not steady enough to say how long the heart held. */
export type NotSteady =
  /** Less than half of the main part lay in the band. */
  | { readonly why: "off plan" }
  /** Power changed from one five minutes to the next. */
  | { readonly why: "power swung" }
  /** Power over the last reading less that over the first, W. */
  | { readonly why: "power changed"; readonly stepW: number }
  /** Beats, below 0, by which the heart fell: more than one ride's noise. Without power nobody knows whether at the same. */
  | { readonly why: "heart fell"; readonly beats: number; readonly atSamePower: boolean };

/** What else may have moved the heart or the meter. */
export type Confound =
  | { readonly kind: "temperature changed"; readonly fromC: number; readonly toC: number }
  | { readonly kind: "warm"; readonly aboutC: number }
  | { readonly kind: "stops"; readonly count: number; readonly minutes: number }
  | { readonly kind: "heart missing"; readonly percent: number }
  | { readonly kind: "power missing"; readonly percent: number }
  | { readonly kind: "power not steady" }
  | { readonly kind: "climbing"; readonly metres: number }
  /** `text`: the rider's own words. */
  | { readonly kind: "note"; readonly on: RiderNote; readonly text: string };

export type RiderNote = "heat" | "foodAndDrink" | "sleep" | "illness" | "medicine" | "feel" | "kit";

/** An athlete's target, as a notice names it. */
interface OfTarget {
  readonly where: "road" | "trainer";
  readonly targetW: number;
}

export interface ReadingFailures {
  readonly "plan-unusable": { readonly fileName: string; readonly fault: FormFault };
}

export interface ReadingNotes {
  readonly "reading-without-power-and-cadence": NoFacts;
  readonly "reading-without-power": NoFacts;
  readonly "reading-without-target": NoFacts;
  /** The steadiest hour's mean, as a start for a target. */
  readonly "reading-target-offer": { readonly meanW: number; readonly startS: number; readonly endS: number };
  readonly "reading-target-doubt": TargetDoubt;
  readonly "reading-indoors": NoFacts;
  readonly "reading-without-heart-band": NoFacts;
  readonly "reading-without-heart": NoFacts;
  readonly "reading-without-cadence": NoFacts;
  readonly "reading-without-movement": { readonly missing: "speed and position" | "speed" | "position" };
  readonly "reading-without-altitude": NoFacts;
  readonly "reading-in-group": NoFacts;
  /** What the recorder's own steps keep from being told. */
  readonly "reading-own-steps": { readonly breaks: boolean; readonly drift: boolean };
  /** There is power or cadence in the file, but hardly any over the main part. */
  readonly "reading-pressure-unknown": NoFacts;
  readonly "reading-nothing-counts": NoFacts;
  readonly "heart-mostly-missing": { readonly percent: number };
  readonly "heart-of-longest-part": { readonly startS: number; readonly endS: number };
  /** Too short for either reading. */
  readonly "heart-part-too-short": NoFacts;
  /** `why` null: the main part is too short. */
  readonly "heart-reading-absent": { readonly which: "first" | "last"; readonly why: HeartTrouble | null };
  readonly "heart-reading-moved": { readonly which: "first" | "last"; readonly why: HeartTrouble };
  readonly "onset-too-few-minutes": { readonly minutes: number; readonly needed: number };
  readonly "onset-minutes-left-out": {
    readonly asked: number;
    readonly lostToStops: number;
    readonly lostToData: number;
  };
  readonly "onset-usual-power-effect": { readonly beatsPerWatt: number };
  readonly "override-without-time": { readonly what: "counted" };
  readonly "target-all-later": { readonly where: "road" | "trainer" };
  readonly "target-old": OfTarget & { readonly source: string | null; readonly date: string; readonly weeks: number };
  readonly "target-other-meter": OfTarget & { readonly foundMeter: string; readonly meter: string };
}
