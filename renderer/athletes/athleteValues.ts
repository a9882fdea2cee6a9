/** An athlete as the form holds it: the form of `athlete.json`, which the program checks when it is saved. */
export interface AthleteValues {
  readonly schema: 1;
  readonly name: string;
  readonly language: "en" | "de";
  readonly units: "metric" | "imperial";
  readonly events: readonly { readonly name: string; readonly dateText: string | null; readonly durationS: number | null }[];
  readonly homeZone: { readonly latDeg: number; readonly lonDeg: number; readonly radiusM: number } | null;
  readonly preset: "draft" | "share" | "phone" | "archive";
  readonly lessonConsent: { readonly given: boolean; readonly dateText: string } | null;
  readonly road: TargetValues;
  readonly trainer: TargetValues;
}

/** Power asked for in one setting; the offset is what its meter reads too low, W. */
export interface TargetValues {
  readonly targetW: number | null;
  readonly toleranceW: number | null;
  readonly meterOffsetW: number;
}

const NO_TARGET: TargetValues = { targetW: null, toleranceW: null, meterOffsetW: 0 };

/** An athlete of whom nothing is written yet. */
export const emptyAthlete: AthleteValues = {
  schema: 1,
  name: "",
  language: "en",
  units: "metric",
  events: [],
  homeZone: null,
  preset: "share",
  lessonConsent: null,
  road: NO_TARGET,
  trainer: NO_TARGET,
};
