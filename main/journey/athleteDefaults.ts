import type { Athlete } from "../contract/athlete.ts";
import type { DebriefDocument, Edit } from "../contract/debrief.ts";
import type { Plan } from "../contract/plan.ts";
import { athletePlan } from "../reading/plan/athletePlan.ts";
import type { Ride } from "../contract/ride.ts";
import { localStartMs } from "../reading/plan/targetFor.ts";
import { defaultPlan } from "../reading/plan/defaultPlan.ts";

/** A plan in which what nobody has said yet is the athlete's: target of the ride's day, next event, units, name. */
function planOfAthlete(plan: Plan, athlete: Athlete, ride: Ride | null): Plan {
  const unsaid = defaultPlan();
  const lasting = athletePlan(athlete, plan.setting, ride && localStartMs(ride));
  const filled = Object.entries(lasting).filter(
    ([key]) => JSON.stringify(plan[key as keyof Plan]) === JSON.stringify(unsaid[key as keyof Plan]),
  );
  return { ...plan, ...Object.fromEntries(filled) };
}

/** The plan of a first ride of an athlete: their values on its day, or what was said before it was there. */
export function firstPlanOfAthlete(before: Plan, athlete: Athlete, ride: Ride): Plan {
  const unsaid = defaultPlan({ setting: before.setting });
  const saidNothing = JSON.stringify(before) === JSON.stringify(planOfAthlete(unsaid, athlete, null));
  return saidNothing ? planOfAthlete(unsaid, athlete, ride) : before;
}

/** What an athlete's file brings to a debrief as edits: the plan's gaps, language and preset. */
export function athleteDefaults(
  athlete: Athlete,
  { plan, settings }: DebriefDocument,
  ride: Ride | null,
  label: string,
): Edit[] {
  return [
    { part: "plan", value: planOfAthlete(plan, athlete, ride), label },
    { part: "settings", value: { ...settings, language: athlete.language, preset: athlete.preset }, label },
  ];
}
