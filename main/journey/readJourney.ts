import type { Plan } from "../contract/plan.ts";
import type { Override, Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import { readingText } from "../../overlay/words/readingWords.ts";
import { read } from "../reading/read.ts";
import { readingJson } from "../reading/readingJson.ts";
import { readRide } from "../ride/readRide.edge.ts";
import { rideSummary, type RideSummary } from "../ride/rideSummary.ts";
import { planFor, type PlanChoices } from "./planFor.ts";

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

/** One ride and its plan judged. */
export function judge(ride: Ride, plan: Plan, overrides: readonly Override[]): ReadOutcome {
  const reading = read(ride, plan, overrides);
  const summary = rideSummary(ride, plan.setting);
  return { ride, plan, reading, summary, json: readingJson(summary, reading), lines: readingText(reading, summary) };
}

/** Read a ride file and judge it. */
export async function readJourney(ridePath: string, choices: PlanChoices): Promise<ReadOutcome> {
  const plan = await planFor(choices);
  return judge(await readRide(ridePath), plan, []);
}
