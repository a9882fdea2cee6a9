import type { Plan } from "../../contract/plan.ts";
import { thresholds } from "../thresholds.ts";

/**
 * The plan of a ride about which nothing was said: on the road, no target, no minutes, rules of thumb for the event.
 *
 * Whatever is passed stands in its place. A target without a tolerance gets the usual one, 12 W either side.
 */
export function defaultPlan(overrides: Partial<Plan> = {}): Plan {
  const plan: Plan = {
    title: null,
    rider: null,
    setting: "road",
    targetW: null,
    toleranceW: null,
    heartLowBpm: null,
    heartHighBpm: null,
    warmUpS: null,
    coolDownS: null,
    blocks: [],
    eventS: null,
    eventName: null,
    eventDate: null,
    floorW: null,
    excuses: null,
    targetLeastFactor: thresholds.target.leastFactor,
    targetAimFactor: thresholds.target.aimFactor,
    targetLeastCapS: thresholds.target.leastCapS,
    targetAimCapS: thresholds.target.aimCapS,
    driftLimitBeats: thresholds.target.driftLimitBeats,
    meterOffsetW: 0,
    units: "metric",
    note: {
      feel: null,
      heat: null,
      foodAndDrink: null,
      sleep: null,
      illness: null,
      medicine: null,
      kit: null,
    },
    ...overrides,
  };
  if (plan.targetW !== null && plan.toleranceW === null) {
    return { ...plan, toleranceW: thresholds.pressure.defaultToleranceW };
  }
  return plan;
}
