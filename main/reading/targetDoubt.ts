import type { Plan } from "../contract/plan.ts";
import type { TargetDoubt } from "../contract/reading.ts";
import type { Ride, Span } from "../contract/ride.ts";
import { meanOf } from "../maths/statistics.ts";
import type { Asked } from "./band.ts";
import { Cranks } from "./pressure/cranks.ts";
import type { JudgedBy } from "./pressure/pressureStates.ts";
import { thresholds } from "./thresholds.ts";

/**
 * What was asked and what was ridden, where they lie so far apart that the plan is likelier wrong for this ride than the
 * ride for its plan: a group's ride, another athlete's plan, another meter. Null where they don't, and where too little
 * of the ride is known.
 *
 * Power: the mean over all seconds that ask for one, pauses on the pedals included, is further from what was asked than
 * `thresholds.doubt` allows, and more than half of the pedalled time lies outside the band on that side. The second
 * keeps rides with much rolling, whose legs did what was asked, out of it. Heart rate: its mean lies further outside the
 * range than `thresholds.doubt.beats`.
 */
export function targetDoubt(
  ride: Ride,
  plan: Plan,
  stretches: readonly Span[],
  cranks: Uint8Array,
  askedAt: (second: number) => Asked,
  by: JudgedBy,
): TargetDoubt | null {
  if (by === "power") return powerDoubt(ride, stretches, cranks, askedAt);
  const { heartLowBpm: lowBpm, heartHighBpm: highBpm } = plan;
  if (by !== "heart" || lowBpm === null || highBpm === null) return null;
  const beats = stretches.flatMap(({ startS, endS }) =>
    [...(ride.grid.heartRate?.value.subarray(startS, endS) ?? [])].filter((bpm) => Number.isFinite(bpm)),
  );
  if (beats.length < thresholds.doubt.leastS) return null;
  const riddenBpm = meanOf(beats);
  const far = Math.max(lowBpm - riddenBpm, riddenBpm - highBpm) > thresholds.doubt.beats;
  return far ? { by, lowBpm, highBpm, riddenBpm: Math.round(riddenBpm) } : null;
}

function powerDoubt(
  { grid }: Ride,
  stretches: readonly Span[],
  cranks: Uint8Array,
  askedAt: (second: number) => Asked,
): TargetDoubt | null {
  const { power } = grid;
  if (power === null) return null;
  let known = 0;
  let asked = 0;
  let ridden = 0;
  let pedalled = 0;
  let below = 0;
  let above = 0;
  for (const { startS, endS } of stretches) {
    for (let s = Math.ceil(startS); s < endS; s++) {
      const { band, planned } = askedAt(s);
      if (band === null || planned === "rest" || !Number.isFinite(power.value[s])) continue;
      known++;
      asked += band.targetW;
      ridden += power.value[s];
      if (cranks[s] !== Cranks.pressed) continue;
      pedalled++;
      if (power.value[s] < band.lowW) below++;
      else if (power.value[s] > band.highW) above++;
    }
  }
  if (known < thresholds.doubt.leastS || asked <= 0) return null;
  const share = ridden / asked - 1;
  const { belowShare, aboveShare } = thresholds.doubt;
  if (!(share < -belowShare && below > pedalled / 2) && !(share > aboveShare && above > pedalled / 2)) return null;
  return { by: "power", askedW: Math.round(asked / known), riddenW: Math.round(ridden / known) };
}
