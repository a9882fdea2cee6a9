import type { RideSummary } from "../contract/rideSummary.ts";
import type { Athlete } from "../contract/athlete.ts";
import type { Plan } from "../contract/plan.ts";
import type { Override, Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import type { EarlierReading } from "../reading/moments/momentContext.ts";
import { localStartMs, targetWarnings } from "../reading/plan/targetFor.ts";
import { read } from "../reading/read.ts";
import { readingJson } from "../reading/readingJson.ts";
import { readRide } from "../ride/readRide.edge.ts";
import { rideSummary } from "../ride/rideSummary.ts";
import { earlierReadings } from "./earlierReadings.ts";
import { planSourceOfKnown, type PlanChoices } from "./planSource.ts";

export interface ReadOutcome {
  readonly ride: Ride;
  readonly plan: Plan;
  readonly reading: Reading;
  readonly summary: RideSummary;
  /** The JSON contract of `read`. */
  readonly json: unknown;
  /** What a coach can read aloud. */
  readonly lines: readonly string[];
}

/** What is known of the rider beside the ride; nothing is known by default. */
export interface KnownOfRider {
  readonly athlete: Athlete | null;
  /** First readings of the athlete's earlier rides. */
  readonly earlier: readonly EarlierReading[];
}

const NOTHING_KNOWN: KnownOfRider = { athlete: null, earlier: [] };

/** One ride and its plan judged, with what should be said about the athlete's target. */
export function judge(
  ride: Ride,
  plan: Plan,
  overrides: readonly Override[],
  known: KnownOfRider = NOTHING_KNOWN,
): ReadOutcome {
  const alone = read(ride, plan, overrides, known.earlier);
  const said =
    known.athlete === null ? [] : targetWarnings(known.athlete, plan.setting, localStartMs(ride), plan.targetW);
  const reading = said.length === 0 ? alone : { ...alone, warnings: [...alone.warnings, ...said] };
  const summary = rideSummary(ride, plan.setting);
  return {
    ride,
    plan,
    reading,
    summary,
    json: readingJson(summary, reading, "en", ride),
    lines: readingText(reading, summary, { units: plan.units, oddInFile: ride.warnings }),
  };
}

/** Read a ride file and judge it. Failures of the ride, the plan and the athlete's file; `file-unreadable` for a folder without an athlete. */
export async function readJourney(ridePath: string, choices: PlanChoices): Promise<ReadOutcome> {
  const { athlete, on } = await planSourceOfKnown(choices);
  const ride = await readRide(ridePath);
  const plan = on(localStartMs(ride));
  const earlier = await earlierReadings(choices.athleteDir ?? null, ride.startUtcMs, plan.setting);
  return judge(ride, plan, [], { athlete, earlier });
}
