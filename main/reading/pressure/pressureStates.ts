import type { Plan } from "../../contract/plan.ts";
import { PressureState, type Break } from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf } from "../../maths/statistics.ts";
import type { Asked } from "../band.ts";
import { Cranks, cranksKnown } from "./cranks.ts";

/** What the band is judged by: power's 30 s mean, else heart rate's, else nothing. */
export type JudgedBy = "power" | "heart" | null;

/** What this ride's band can be judged by. */
export function judgedBy(ride: Ride, plan: Plan): JudgedBy {
  if (ride.grid.power && (plan.targetW !== null || plan.blocks.some((block) => block.targetW !== null))) return "power";
  if (ride.grid.heartRate && plan.heartLowBpm !== null && plan.heartHighBpm !== null) return "heart";
  return null;
}

/**
 * One pressure state per second, the owner of everything that is said or drawn about pressure.
 *
 * Unknown beats off; off beats the band, which is judged by the centred 30 s mean. Where there is no band to judge by,
 * pressed seconds are `in`: pressure was held, and nothing more is said of them.
 */
export function pressureStates(
  ride: Ride,
  plan: Plan,
  cranks: Uint8Array,
  askedAt: (second: number) => Asked,
  breaks: readonly Break[],
): Uint8Array {
  const { seconds, power30sW } = ride.grid;
  const by = judgedBy(ride, plan);
  const states = new Uint8Array(seconds);
  for (let s = 0; s < seconds; s++) {
    if (cranks[s] === Cranks.unknown) continue;
    if (cranks[s] === Cranks.off) {
      states[s] = askedAt(s).planned === "rest" ? PressureState.offExcused : PressureState.off;
      continue;
    }
    let mean = NaN;
    let low = NaN;
    let high = NaN;
    if (by === "power") {
      const { band } = askedAt(s);
      mean = power30sW?.[s] ?? NaN;
      low = band?.lowW ?? NaN;
      high = band?.highW ?? NaN;
    } else if (by === "heart") {
      mean = heartMean(ride, s);
      low = plan.heartLowBpm ?? NaN;
      high = plan.heartHighBpm ?? NaN;
    } else {
      states[s] = PressureState.in;
      continue;
    }
    if (!Number.isFinite(mean) || !Number.isFinite(low)) continue;
    states[s] = mean < low ? PressureState.below : mean > high ? PressureState.above : PressureState.in;
  }
  for (const one of breaks) {
    if (one.excused === false) continue;
    for (let s = one.startS; s < one.endS; s++) {
      if (states[s] === PressureState.off)
        states[s] = one.excused ? PressureState.offExcused : PressureState.offUnclear;
    }
  }
  return states;
}

/** Centred 30 s mean of heart rate, bpm. */
function heartMean({ grid }: Ride, second: number): number {
  return meanOf(grid.heartRate?.value ?? [], second - 15, second + 15);
}

/**
 * The states that time in, below and above the band is summed from: those of pressure, and where a file knows nothing of
 * the cranks and the ride is steered by heart rate, the heart against its band. They are drawn nowhere: no pressure is
 * known.
 */
export function summedStates(
  ride: Ride,
  plan: Plan,
  states: Uint8Array,
  cranks: Uint8Array,
  stretches: readonly Span[],
): Uint8Array {
  const { heartLowBpm: low, heartHighBpm: high } = plan;
  const { paused } = ride.grid;
  // A sensor that wrote next to nothing tells no more than none.
  const turns = cranksKnown(ride, cranks, stretches);
  if (turns || judgedBy(ride, plan) !== "heart" || low === null || high === null) return states;
  return states.map((_, s) => {
    const mean = paused[s] === 1 ? NaN : heartMean(ride, s);
    if (!Number.isFinite(mean)) return PressureState.unknown;
    return mean < low ? PressureState.below : mean > high ? PressureState.above : PressureState.in;
  });
}
