import type { Plan } from "../contract/plan.ts";
import type { BaseFigures, CountedPart } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import { note, type Note } from "../contract/notice.ts";

/** What this ride or plan can't show, each once. */
export function readingWarnings(
  ride: Ride,
  plan: Plan,
  counted: CountedPart,
  steadiest: BaseFigures["steadiestHour"],
  cranksKnown: boolean,
): Note[] {
  const { power, heartRate, cadence, speed, position } = ride.grid;
  const said: Note[] = [];
  const counts = counted.stretches.length > 0;
  if (!power && !cadence) {
    said.push(note("reading-without-power-and-cadence", {}));
  } else if (!cranksKnown && counts) {
    said.push(note("reading-pressure-unknown", {}));
  } else if (!power) {
    said.push(note("reading-without-power", {}));
  }
  const hasTarget = plan.targetW !== null || plan.blocks.some((block) => block.targetW !== null);
  if (power && !hasTarget) said.push(note("reading-without-target", {}));
  if (power && !hasTarget && steadiest) said.push(note("reading-target-offer", steadiest));
  if (!power && plan.heartLowBpm === null) said.push(note("reading-without-heart-band", {}));
  if (!heartRate) said.push(note("reading-without-heart", {}));
  if (power && !cadence) said.push(note("reading-without-cadence", {}));
  if (plan.setting !== "trainer" && ride.indoors) {
    said.push(note("reading-indoors", {}));
  } else if (plan.setting !== "trainer" && (!speed || !position)) {
    const missing = !speed && !position ? "speed and position" : speed ? "position" : "speed";
    said.push(note("reading-without-movement", { missing }));
  } else if (plan.setting === "road" && !ride.grid.gradientPercent) {
    said.push(note("reading-without-altitude", {}));
  }
  if (plan.setting === "group") said.push(note("reading-in-group", {}));
  const told = { breaks: cranksKnown, drift: heartRate !== null };
  if (ride.mode === "variable" && counts && (told.breaks || told.drift)) said.push(note("reading-own-steps", told));
  if (!counts) said.push(note("reading-nothing-counts", {}));
  return said;
}
