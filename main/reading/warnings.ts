import type { Plan } from "../contract/plan.ts";
import type { CountedPart } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";

/** What this ride or plan can't show, one plain sentence each, each said once. */
export function readingWarnings(ride: Ride, plan: Plan, counted: CountedPart): string[] {
  const { power, heartRate, cadence, speed, position } = ride.grid;
  const said: string[] = [];
  if (!power && !cadence) {
    said.push("There is neither power nor cadence in the file: breaks in pressure can't be told.");
  } else if (!power) {
    said.push("There is no power in the file: breaks are told from cadence 0, and drift is not corrected for power.");
  }
  const hasTarget = plan.targetW !== null || plan.blocks.some((block) => block.targetW !== null);
  if (power && !hasTarget) {
    said.push("There is no target power: time in, below and above the band and surges need one (--target 185).");
  }
  if (!power && plan.heartLowBpm === null)
    said.push("Without power, time in the band needs a heart band in the plan (heartBand).");
  if (!heartRate) said.push("There is no heart rate in the file: no readings and no drift.");
  if (!cadence) said.push("There is no cadence in the file.");
  if (plan.setting !== "trainer" && (!speed || !position)) {
    const missing = !speed && !position ? "neither speed nor position" : speed ? "no position" : "no speed";
    const trainer = !position ? " If this was ridden on a trainer, say so (--setting trainer)." : "";
    said.push(`There is ${missing} in the file: a break without a seen reason is "cannot tell".${trainer}`);
  } else if (plan.setting === "road" && !ride.grid.gradientPercent) {
    said.push('There is no altitude in the file: fast breaks may be descents, so they are "cannot tell".');
  }
  if (plan.setting === "group")
    said.push('In a group, a break that nothing excuses is "cannot tell": easing in a wheel is riding well.');
  if (ride.mode === "variable") {
    said.push("The recorder chose its own steps: breaks under 10 s and the start of a drift can't be told.");
  }
  if (counted.stretches.length === 0) said.push("Nothing of this ride counts: the main part is empty.");
  return said;
}
