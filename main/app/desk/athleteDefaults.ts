import type { Athlete } from "../../contract/athlete.ts";
import type { DebriefDocument, Edit } from "../../contract/debrief.ts";
import type { Plan } from "../../contract/plan.ts";
import { athletePlan } from "../../reading/plan/athletePlan.ts";
import { defaultPlan } from "../../reading/plan/defaultPlan.ts";

/** A plan in which what nobody has said yet is the athlete's: target of the ride's day, next event, units, name. */
export function planOfAthlete(plan: Plan, athlete: Athlete, rideLocalMs: number | null): Plan {
  const unsaid = defaultPlan();
  const lasting = athletePlan(athlete, plan.setting, rideLocalMs);
  const filled = Object.entries(lasting).filter(
    ([key]) => JSON.stringify(plan[key as keyof Plan]) === JSON.stringify(unsaid[key as keyof Plan]),
  );
  return { ...plan, ...Object.fromEntries(filled) };
}

/** What an athlete's file brings to a debrief as edits: the plan's gaps, language and preset. */
export function athleteDefaults(
  athlete: Athlete,
  { plan, settings }: DebriefDocument,
  rideLocalMs: number | null,
  label: string,
): Edit[] {
  return [
    { part: "plan", value: planOfAthlete(plan, athlete, rideLocalMs), label },
    { part: "settings", value: { ...settings, language: athlete.language, preset: athlete.preset }, label },
  ];
}
