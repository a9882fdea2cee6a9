import { z } from "zod";
import { Failure } from "../contract/failure.ts";

/** Version of the form of `athlete.json` that this program writes. */
export const ATHLETE_SCHEMA = 1;

/** Power asked for in one setting, and what that setting's meter reads too low (positive), W. */
export interface AthleteTarget {
  readonly targetW: number | null;
  readonly toleranceW: number | null;
  readonly meterOffsetW: number;
}

export interface AthleteEvent {
  readonly name: string;
  /** As the coach wrote it, for people; null: not set. */
  readonly dateText: string | null;
  readonly durationS: number | null;
}

/** A place whose surroundings are hidden from maps, panels and exports. */
export interface HomeZone {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly radiusM: number;
}

/** One athlete, as `athlete.json` in their folder holds it. */
export interface Athlete {
  readonly schema: typeof ATHLETE_SCHEMA;
  readonly name: string;
  readonly language: "en" | "de";
  readonly units: "metric" | "imperial";
  readonly events: readonly AthleteEvent[];
  readonly homeZone: HomeZone | null;
  readonly preset: "draft" | "share" | "phone" | "archive";
  /** Whether the athlete agreed to lessons for others, and when, in the coach's words; null: not asked. */
  readonly lessonConsent: { readonly given: boolean; readonly dateText: string } | null;
  readonly road: AthleteTarget;
  readonly trainer: AthleteTarget;
}

const text = z.string().max(2000);
const target = z.object({
  targetW: z.number().min(1).max(2000).nullable(),
  toleranceW: z.number().min(1).max(500).nullable(),
  meterOffsetW: z.number().min(-200).max(200),
});
const athleteSchema: z.ZodType<Athlete> = z.object({
  schema: z.literal(ATHLETE_SCHEMA),
  name: text.min(1),
  language: z.enum(["en", "de"]),
  units: z.enum(["metric", "imperial"]),
  events: z.array(z.object({ name: text.min(1), dateText: text.nullable(), durationS: z.number().positive().nullable() })).max(100),
  homeZone: z
    .object({ latDeg: z.number().min(-90).max(90), lonDeg: z.number().min(-180).max(180), radiusM: z.number().min(50).max(20_000) })
    .nullable(),
  preset: z.enum(["draft", "share", "phone", "archive"]),
  lessonConsent: z.object({ given: z.boolean(), dateText: text }).nullable(),
  road: target,
  trainer: target,
});

const NO_TARGET: AthleteTarget = { targetW: null, toleranceW: null, meterOffsetW: 0 };

/** An athlete of whom only the name is known. */
export function newAthlete(name: string): Athlete {
  return {
    schema: ATHLETE_SCHEMA,
    name,
    language: "en",
    units: "metric",
    events: [],
    homeZone: null,
    preset: "share",
    lessonConsent: null,
    road: NO_TARGET,
    trainer: NO_TARGET,
  };
}

/** An athlete from the text of `athlete.json`. Failure `plan-not-valid` names the file and the first thing wrong. */
export function parseAthlete(json: string, fileName: string): Athlete {
  const refuse = (what: string): Failure => new Failure("plan-not-valid", `${fileName} is not a usable athlete file: ${what}.`, "Correct it, or make it again in the window or with --athlete.");
  let value: unknown;
  try {
    value = JSON.parse(json.replace(/^\uFEFF/, ""));
  } catch {
    throw refuse("it is not JSON");
  }
  const parsed = athleteSchema.safeParse(value);
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0];
  throw refuse(`${issue?.path.join(".") || "the file"}: ${issue?.message ?? "not as it should be"}`);
}

/** The athlete's words that no lesson may hold: name and events. */
export function athleteWords(athlete: Athlete): string[] {
  return [athlete.name, ...athlete.name.split(/\s+/), ...athlete.events.map((event) => event.name)].filter((word) => word.length > 1);
}

/** A lesson for others needs the athlete's consent. Failure `usage` where it was refused or never asked. */
export function requireLessonConsent(athlete: Athlete | null): void {
  if (athlete?.lessonConsent?.given === true) return;
  const who = athlete === null ? "No athlete file says" : `${athlete.name}'s file does not say`;
  throw new Failure("usage", `${who} that the athlete agreed to a lesson for others.`, "Ask, then write the consent into athlete.json (lessonConsent), or make the debrief for the athlete only.");
}
