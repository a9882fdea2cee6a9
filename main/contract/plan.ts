/** What the rider was asked to do. Every field may be missing: the reading says which numbers need it. */
import type { UnitSystem } from "./languageAndUnits.ts";

export const SETTINGS = ["road", "trainer", "group"] as const;
export type Setting = (typeof SETTINGS)[number];

/** Judged against the target, a planned effort (no surge), or a planned rest (no break). */
export const BLOCK_KINDS = ["steady", "effort", "rest"] as const;
type BlockKind = (typeof BLOCK_KINDS)[number];

/** What may be practised beside power: hands in the drops, one hand, breathing, cornering drills. */
export const SKILLS = ["drops", "one hand", "breathing", "corners"] as const;
export type Skill = (typeof SKILLS)[number];

/** A skill to practise. No sensor tells it: the coach ticks how often it was done; null: not ticked yet. */
export interface PlanSkill {
  readonly skill: Skill;
  /** How often it was asked for; null: not asked for, and seen all the same. */
  readonly repeats: number | null;
  readonly done: number | null;
}

/** The skills with how often one was done; one that was not asked for is put in as such, and goes where it was not done. */
export function withTick(skills: readonly PlanSkill[], skill: Skill, done: number | null): PlanSkill[] {
  const known = skills.some((one) => one.skill === skill);
  const all = known
    ? skills.map((one) => (one.skill === skill ? { ...one, done } : one))
    : [...skills, { skill, repeats: null, done }];
  return all.filter((one) => one.repeats !== null || (one.done ?? 0) > 0);
}

export interface PlanBlock {
  readonly startS: number;
  readonly endS: number;
  readonly kind: BlockKind;
  readonly targetW: number | null;
  readonly toleranceW: number | null;
}

/** A block as it is asked for, on the meter's own scale; nulls: it asks for no power. */
export interface PlannedBlock {
  readonly startS: number;
  readonly endS: number;
  readonly kind: BlockKind;
  readonly lowW: number | null;
  readonly highW: number | null;
}

export interface RiderNote {
  readonly feel: string | null;
  readonly heat: string | null;
  readonly foodAndDrink: string | null;
  readonly sleep: string | null;
  readonly illness: string | null;
  readonly medicine: string | null;
  readonly kit: string | null;
}

export interface Plan {
  readonly title: string | null;
  readonly rider: string | null;
  readonly setting: Setting;
  readonly targetW: number | null;
  /** Half-width of the band, W. */
  readonly toleranceW: number | null;
  /** A heart band, bpm, where the ride is steered by heart rate. */
  readonly heartLowBpm: number | null;
  readonly heartHighBpm: number | null;
  readonly warmUpS: number | null;
  readonly coolDownS: number | null;
  readonly blocks: readonly PlanBlock[];
  /** How long the whole ride should be, warm-up and cool-down in it, s. Missing: not said. */
  readonly lengthS?: number;
  /** Skills to practise, each once. Missing: none. */
  readonly skills?: readonly PlanSkill[];
  /** Duration of the event trained for, s. */
  readonly eventS: number | null;
  readonly eventName: string | null;
  /** Day of the event, `YYYY-MM-DD`; null: not known. */
  readonly eventDate: string | null;
  /** Power below which the cranks count as unpressed, W; null: the default of the reading. */
  readonly floorW: number | null;
  /** Reasons that count as excused; null: the default four. */
  readonly excuses: readonly string[] | null;
  /** Drift-free time asked for, as multiples of the event (least, aim) and caps, s. */
  readonly targetLeastFactor: number;
  readonly targetAimFactor: number;
  readonly targetLeastCapS: number;
  readonly targetAimCapS: number;
  /** Drift at the same power that is acceptable, beats. A ride whose error is wider can't tell. */
  readonly driftLimitBeats: number;
  /** What the meter reads too low (positive) or too high (negative), W: the band moves by minus this. */
  readonly meterOffsetW: number;
  readonly units: UnitSystem;
  readonly note: RiderNote;
}
