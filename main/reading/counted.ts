import type { Plan } from "../contract/plan.ts";
import type { CountedPart, CountedSource } from "../contract/reading.ts";
import type { Ride, Span } from "../contract/ride.ts";
import { countOf, meanOf } from "../maths/statistics.ts";
import { planBand } from "./band.ts";
import { lengthS } from "./spans.ts";
import { stopsOf } from "./stops.ts";
import { thresholds } from "./thresholds.ts";

const limits = thresholds.counted;

/**
 * The part of the ride that is judged, and what says so: the plan's blocks or minutes, laps pressed by hand, power that
 * settles into the band, else ten minutes off either end. A span set by the coach goes before all of them.
 *
 * Stretches are what is left of it once long stops and planned rests are cut out; none where next to nothing is left.
 */
export function countedPart(ride: Ride, plan: Plan, setByCoach: Span | null): CountedPart {
  const endOfRideS = ride.grid.seconds;
  const found = setByCoach ? { span: setByCoach, source: "coach" as const } : findCounted(ride, plan);
  const startS = Math.max(0, Math.min(endOfRideS, Math.round(found.span.startS)));
  const endS = Math.max(startS, Math.min(endOfRideS, Math.round(found.span.endS)));
  const span = { startS, endS };
  const stretches = stretchesOf(ride, plan, span);
  const recordedS = stretches.reduce((sum, one) => sum + lengthS(one), 0);
  const trace = recordedS < limits.recordedS && recordedS < limits.recordedShare * lengthS(span);
  return { ...span, source: found.source, stretches: trace ? [] : stretches };
}

function findCounted(ride: Ride, plan: Plan): { span: Span; source: CountedSource } {
  const seconds = ride.grid.seconds;
  const ends = defaultEndS(seconds);
  const first = plan.blocks[0];
  const last = plan.blocks.at(-1);
  if (first && last && first.startS < seconds)
    return { span: { startS: first.startS, endS: last.endS }, source: "plan" };
  if (plan.warmUpS !== null || plan.coolDownS !== null) {
    const startS = plan.warmUpS ?? ends;
    const endS = seconds - (plan.coolDownS ?? ends);
    // Minutes that leave nothing of a ride cut short say nothing about it.
    if (endS > startS) return { span: { startS, endS }, source: "plan" };
  }
  const lap = markedLap(ride);
  if (lap) return { span: lap, source: "laps" };
  const settled = settledPower(ride, plan);
  if (settled) return { span: settled, source: "settled power" };
  return { span: { startS: ends, endS: seconds - ends }, source: "default minutes" };
}

function defaultEndS(seconds: number): number {
  return Math.min(limits.defaultEndS, Math.floor(seconds * limits.defaultEndShare));
}

/** The lap between two presses by hand that spans most of the ride, if there is one. Automatic laps never count. */
function markedLap(ride: Ride): Span | null {
  for (let i = 1; i < ride.laps.length; i++) {
    const lap = ride.laps[i];
    const before = ride.laps[i - 1];
    if (
      lap?.trigger === "manual" &&
      before?.trigger === "manual" &&
      lengthS(lap) >= limits.lapShare * ride.grid.seconds
    ) {
      return { startS: lap.startS, endS: lap.endS };
    }
  }
  return null;
}

/** Where the 2 min mean of power comes into the band for good, and where it leaves it for good; null when it does not. */
function settledPower(ride: Ride, plan: Plan): Span | null {
  const power = ride.grid.power;
  const band = planBand(plan);
  if (!power || !band) return null;
  const seconds = ride.grid.seconds;
  const stepS = 10;
  const inBand: boolean[] = [];
  for (let at = 0; at + limits.settleMeanS <= seconds; at += stepS) {
    const mean = meanOf(power.value, at, at + limits.settleMeanS);
    inBand.push(mean >= band.lowW && mean <= band.highW);
  }
  const withinS = Math.min(limits.settleWithinS, seconds / 3);
  const over = Math.floor(limits.settledOverS / stepS);
  const staysAfter = (step: number) => shareOf(inBand, step, step + over) >= limits.settledShare;
  const stayedBefore = (step: number) => shareOf(inBand, step - over, step + 1) >= limits.settledShare;
  const first = inBand.findIndex((held, step) => held && staysAfter(step));
  const last = inBand.findLastIndex((held, step) => held && stayedBefore(step));
  if (first < 0 || last <= first) return null;
  // Where the meter is silent power has not left the band: it is not known.
  const silent = (fromS: number, toS: number) =>
    toS - fromS > limits.settleMeanS && countOf(power.value, fromS, toS) < (toS - fromS) / 2;
  const ends = defaultEndS(seconds);
  const settledS = first * stepS;
  const leftS = last * stepS + limits.settleMeanS;
  const startS = silent(0, settledS) ? ends : settledS;
  const ridesOn =
    seconds - leftS > 2 * ends && meanOf(power.value, leftS, seconds - ends) >= thresholds.base.rideOnShare * band.lowW;
  // Riding on a little easier for more than twenty minutes is a fade, and no cool-down.
  const endS = silent(leftS, seconds) || ridesOn ? seconds - ends : leftS;
  return startS <= withinS && endS >= seconds - withinS ? { startS, endS } : null;
}

function shareOf(flags: readonly boolean[], from: number, to: number): number {
  const part = flags.slice(Math.max(0, from), Math.max(0, to));
  return part.length === 0 ? 0 : part.filter(Boolean).length / part.length;
}

function stretchesOf(ride: Ride, plan: Plan, counted: Span): Span[] {
  const longGaps = ride.gaps.filter((gap) => lengthS(gap) > limits.longStopS);
  const rests = plan.blocks.filter((block) => block.kind === "rest");
  const cuts = [...stopsOf(ride, limits.longStopS + 1), ...longGaps, ...rests].sort(
    (one, other) => one.startS - other.startS,
  );
  const stretches: Span[] = [];
  let fromS = counted.startS;
  for (const cut of cuts) {
    if (cut.endS <= fromS || cut.startS >= counted.endS) continue;
    if (cut.startS > fromS) stretches.push({ startS: fromS, endS: Math.ceil(cut.startS) });
    fromS = Math.max(fromS, Math.floor(cut.endS));
  }
  if (fromS < counted.endS) stretches.push({ startS: fromS, endS: counted.endS });
  return stretches;
}
