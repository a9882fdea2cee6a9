import { durationText } from "./numbers.ts";

/** An athlete's defaults in plain values. */
export interface AthleteForWords {
  readonly targets: readonly {
    readonly setting: "road" | "trainer";
    readonly targetW: number;
    readonly toleranceW: number | null;
    readonly dateText: string | null;
  }[];
  readonly events: readonly {
    readonly name: string;
    readonly dateText: string | null;
    readonly durationS: number | null;
  }[];
  readonly homeHidden: boolean;
  /** Null: never asked. */
  readonly lessonConsent: boolean | null;
}

/** An athlete's defaults for the coach, in English, one line each. */
export function athleteLines(athlete: AthleteForWords): string[] {
  const { targets, events } = athlete;
  return [
    ...targets.map(
      ({ setting, targetW, toleranceW, dateText }) =>
        `${setting} target ${Math.round(targetW)} W${toleranceW === null ? "" : ` ± ${Math.round(toleranceW)} W`}` +
        `${dateText === null ? "" : `, from ${dateText}`}`,
    ),
    ...events.map(({ name, dateText, durationS }) =>
      [`trains for ${name}`, dateText, durationS === null ? null : durationText(durationS)]
        .filter((part) => part !== null)
        .join(", "),
    ),
    athlete.homeHidden ? "the surroundings of home are hidden" : "no place is hidden",
    ...(athlete.lessonConsent === null
      ? []
      : [athlete.lessonConsent ? "agreed to lessons for others" : "did not agree to lessons for others"]),
  ];
}
