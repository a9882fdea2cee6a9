import { LANGUAGES, UNIT_SYSTEMS } from "../contract/languageAndUnits.ts";
import { PRESET_NAMES, USUAL_PRESET } from "../contract/presets.ts";
import { z } from "zod";
import type { Athlete } from "../contract/athlete.ts";
import { Failure } from "../contract/failure.ts";
import { formFault, type FormFault, type FormRule } from "../contract/formFault.ts";

export type { Athlete } from "../contract/athlete.ts";

const text = z.string().max(2000);
const day = z.string().refine((written) => /^\d{4}-\d{2}-\d{2}$/.test(written) && !Number.isNaN(Date.parse(written)), {
  params: { rule: "day" satisfies FormRule },
});
const watts = z.number().min(1).max(2000);
const tolerance = z.number().min(1).max(500).nullable().default(null);
const note = text.nullable().default(null);
const target = z.strictObject({
  targetW: watts.nullable().default(null),
  toleranceW: tolerance,
  meterOffsetW: z.number().min(-200).max(200).default(0),
  foundDate: day.nullable().default(null),
  foundHow: note,
  foundMeter: note,
  meter: note,
  earlier: z
    .array(z.strictObject({ date: day, targetW: watts, toleranceW: tolerance, source: note, meter: note }))
    .max(500)
    .default([]),
});

const athleteSchema: z.ZodType<Athlete> = z.strictObject({
  schema: z.literal(1).default(1),
  name: text.min(1),
  language: z.enum(LANGUAGES).default("en"),
  units: z.enum(UNIT_SYSTEMS).default("metric"),
  events: z
    .array(
      z.strictObject({
        name: text.min(1),
        dateText: note,
        durationS: z
          .number()
          .min(600, "event under 10 minutes" satisfies FormRule)
          .nullable()
          .default(null),
      }),
    )
    .max(100)
    .default([]),
  homeZone: z
    .object({
      latDeg: z.number().min(-90).max(90),
      lonDeg: z.number().min(-180).max(180),
      radiusM: z.number().min(50).max(20_000),
    })
    .nullable()
    .default(null),
  preset: z.enum(PRESET_NAMES).default(USUAL_PRESET),
  lessonConsent: z.strictObject({ given: z.boolean(), dateText: text }).nullable().default(null),
  road: target.prefault({}),
  trainer: target.prefault({}),
});

/** An athlete of whom only the name is known. */
export function newAthlete(name: string): Athlete {
  return athleteSchema.parse({ name });
}

/** An athlete from the text of `athlete.json`. Failure `plan-not-valid` names the file and the first thing wrong. */
export function parseAthlete(json: string, fileName: string): Athlete {
  const refuse = (fault: FormFault, cause: unknown): Failure =>
    new Failure("athlete-unusable", { fileName, fault }, cause);
  let value: unknown;
  try {
    value = JSON.parse(json.replace(/^\uFEFF/, ""));
  } catch (error) {
    throw refuse({ kind: "not JSON", at: null }, error);
  }
  const parsed = athleteSchema.safeParse(value);
  if (parsed.success) return parsed.data;
  throw refuse(formFault(parsed.error.issues), parsed.error);
}

/** The athlete's words that no lesson may hold: name and events. */
export function athleteWords(athlete: Athlete): string[] {
  return [athlete.name, ...athlete.name.split(/\s+/), ...athlete.events.map((event) => event.name)].filter(
    (word) => word.length > 1,
  );
}

/** A lesson for others needs the athlete's consent. Failure `usage` where it was refused or never asked. */
export function requireLessonConsent(athlete: Athlete | null): void {
  if (athlete?.lessonConsent?.given === true) return;
  throw new Failure("lesson-without-consent", { name: athlete?.name ?? null });
}
