import type { DebriefFacts } from "../contract/debriefFacts.ts";
import type { Plan } from "../contract/plan.ts";
import type { Reading } from "../contract/reading.ts";
import type { PlanFacts } from "../../overlay/words/debriefPhrases.ts";

/** The plan in plain values, its power on the meter's own scale. */
export function planFacts(plan: Plan, reading: Reading, facts: Pick<DebriefFacts, "mainS">): PlanFacts {
  return {
    title: plan.title,
    rider: plan.rider,
    setting: reading.setting,
    targetW: reading.bandW?.target ?? null,
    lowW: reading.bandW?.low ?? null,
    highW: reading.bandW?.high ?? null,
    heartLowBpm: plan.heartLowBpm,
    heartHighBpm: plan.heartHighBpm,
    eventName: plan.eventName,
    eventS: reading.target.eventS,
    mainS: facts.mainS,
    skills: plan.skills ?? [],
  };
}
