import { z } from "zod";
import { Failure } from "../../contract/failure.ts";
import type { Setting } from "../../contract/plan.ts";
import { thresholds } from "../thresholds.ts";
import { durationInput, firstIssue } from "./parsePlan.ts";

/** A target that an athlete trains at, with when and how it was found. */
export interface DatedTarget {
  /** Day it was found, `YYYY-MM-DD`. */
  readonly date: string;
  /** Where it holds: meters on the road and on the trainer differ by a few watts. */
  readonly setting: "road" | "trainer";
  readonly targetW: number;
  /** Null: the usual tolerance. */
  readonly toleranceW: number | null;
  /** How it was found, in the coach's words; null when not said. */
  readonly source: string | null;
  /** The meter it was found with; null when not said. */
  readonly meter: string | null;
}

/** An event that an athlete trains for. */
export interface AthleteEvent {
  readonly name: string;
  /** `YYYY-MM-DD`, or null. */
  readonly date: string | null;
  readonly durationS: number | null;
}

/** What the reading takes from `athlete.json`; other keys of that file belong to other parts of the program. */
export interface AthleteReading {
  readonly name: string | null;
  readonly language: string | null;
  readonly units: "metric" | "imperial";
  readonly targets: readonly DatedTarget[];
  readonly events: readonly AthleteEvent[];
  /** The meter that the athlete rides with now; null when not said. */
  readonly meter: string | null;
}

const day = z.string().refine((text) => /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text)), "write the day as YYYY-MM-DD");

const athleteInput = z.looseObject({
  name: z.string().optional(),
  language: z.string().optional(),
  units: z.enum(["metric", "imperial"]).default("metric"),
  meter: z.string().optional(),
  targets: z
    .array(
      z.strictObject({
        date: day,
        setting: z.enum(["road", "trainer"]).default("road"),
        target: z.number().min(1).max(2000),
        tolerance: z.number().min(1).max(500).optional(),
        source: z.string().optional(),
        meter: z.string().optional(),
      }),
    )
    .default([]),
  events: z.array(z.strictObject({ name: z.string(), date: day.optional(), duration: durationInput.optional() })).default([]),
});

/**
 * The parts of an athlete file's JSON that the reading needs.
 *
 * @throws Failure `plan-not-valid`, naming the file, the key and the remedy.
 */
export function parseAthlete(json: unknown, fileName: string): AthleteReading {
  const result = athleteInput.safeParse(json);
  if (!result.success) {
    throw new Failure(
      "plan-not-valid",
      `The athlete file ${fileName} can't be used: ${firstIssue(result.error)}.`,
      "Correct that key; `followcar plan --help` shows the file's form.",
    );
  }
  const input = result.data;
  return {
    name: input.name ?? null,
    language: input.language ?? null,
    units: input.units,
    meter: input.meter ?? null,
    targets: input.targets.map((one) => ({
      date: one.date,
      setting: one.setting,
      targetW: one.target,
      toleranceW: one.tolerance ?? null,
      source: one.source ?? null,
      meter: one.meter ?? null,
    })),
    events: input.events.map((one) => ({ name: one.name, date: one.date ?? null, durationS: one.duration ?? null })),
  };
}

/** The athlete's target for a ride, and what should be said about it. */
export interface ChosenTarget {
  readonly target: DatedTarget | null;
  readonly warnings: readonly string[];
}

/**
 * The newest target found on or before the ride's day for its setting (a group ride is a road ride).
 *
 * A target older than 8 weeks and one from another meter are used, and said.
 *
 * @param rideUtcMs day of the ride, ms since 1970; null when the file has no date: then the newest target holds
 */
export function targetFor(athlete: AthleteReading, setting: Setting, rideUtcMs: number | null): ChosenTarget {
  const where = setting === "trainer" ? "trainer" : "road";
  const dayEndMs = rideUtcMs === null ? Infinity : rideUtcMs + 86_400_000;
  const target =
    athlete.targets
      .filter((one) => one.setting === where && Date.parse(one.date) <= dayEndMs)
      .sort((one, other) => Date.parse(one.date) - Date.parse(other.date))
      .at(-1) ?? null;
  if (!target) return { target: null, warnings: [] };
  const warnings: string[] = [];
  const ageDays = rideUtcMs === null ? 0 : Math.floor((rideUtcMs - Date.parse(target.date)) / 86_400_000);
  if (ageDays > thresholds.target.oldDays) {
    warnings.push(`The ${where} target of ${target.targetW} W is from ${target.date}, ${Math.floor(ageDays / 7)} weeks before this ride.`);
  }
  if (target.meter !== null && athlete.meter !== null && target.meter !== athlete.meter) {
    warnings.push(`The ${where} target of ${target.targetW} W was found with another meter (${target.meter}, now ${athlete.meter}).`);
  }
  return { target, warnings };
}
