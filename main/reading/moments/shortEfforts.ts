import { PressureState } from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf } from "../../maths/statistics.ts";
import type { Band } from "../band.ts";
import { lengthS } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { candidate, type Candidate, type MomentContext } from "./momentContext.ts";

const REACHED = new Set<number>([PressureState.in, PressureState.above]);
const MISSED = new Set<number>([PressureState.below, PressureState.off]);

interface Effort extends Span {
  readonly band: Band;
}

interface Missed {
  readonly effort: Effort;
  /** Its longest stretch below the plan that nothing explains. */
  readonly worst: Span;
  /** All seconds below the plan that nothing explains, s. */
  readonly lostS: number;
}

/**
 * Planned efforts that stayed below the plan though nothing in the file explains it, each by its longest stretch below.
 * Not told: where road, traffic, a stop or the sensor took so much of it that the rest would have made it; efforts ridden
 * at another time than planned; those too short for the mean that seconds are judged by; and all of a group ride, where
 * the group sets the pace.
 */
export function shortEfforts({ ride, plan, states, judgedBy, askedAt }: MomentContext): Candidate[] {
  const power = ride.grid.power?.value;
  if (plan.setting === "group" || judgedBy !== "power" || power === undefined) return [];
  const efforts = plan.blocks.flatMap(({ kind, startS, endS }): Effort[] => {
    const { band } = askedAt(startS);
    return kind === "effort" && band !== null ? [{ startS: Math.ceil(startS), endS: Math.floor(endS), band }] : [];
  });
  const explained = plan.setting === "trainer" ? () => false : roadExplains(ride);
  const missed = efforts.flatMap((effort) => missedOf(effort, power, states, explained) ?? []);
  if (missed.length === 0 || riddenElsewhere(ride, efforts, missed)) return [];
  return missed.map(({ effort, worst, lostS }) =>
    candidate("effortShort", worst, {
      reason: "below the plan",
      excused: false,
      numbers: {
        durationS: lengthS(worst),
        meanW: meanOf(power, worst.startS, worst.endS),
        targetW: effort.band.targetW,
        lostS,
        effortStartS: effort.startS,
        effortEndS: effort.endS,
      },
      weight: Math.min(1, lostS / 600),
    }),
  );
}

function missedOf(
  effort: Effort,
  power: Float64Array,
  states: Uint8Array,
  explained: (second: number) => boolean,
): Missed | null {
  const { leastEffortS, meanEdgeS, doneShare, leastStretchS, bridgeS } = thresholds.effort;
  const { startS, endS, band } = effort;
  if (lengthS(effort) < leastEffortS || endS > states.length) return null;
  const excused = (s: number): boolean => !REACHED.has(states[s]) && (!MISSED.has(states[s]) || explained(s));
  let reachedS = 0;
  let excusedS = 0;
  let ownW = 0;
  for (let s = startS; s < endS; s++) {
    if (REACHED.has(states[s])) reachedS++;
    if (excused(s)) excusedS++;
    else ownW += Number.isFinite(power[s]) ? power[s] : 0;
  }
  const ownS = lengthS(effort) - excusedS;
  if (reachedS + excusedS >= doneShare * lengthS(effort) || ownW >= band.lowW * ownS) return null;
  // The mean by which seconds are judged reaches out of the effort at its ends.
  let lostS = 0;
  let worst: Span = { startS, endS: startS };
  let run: Span = worst;
  for (let s = startS + meanEdgeS; s < endS - meanEdgeS; s++) {
    if (!MISSED.has(states[s]) || explained(s)) continue;
    lostS++;
    run = lengthS(run) > 0 && s - run.endS <= bridgeS ? { ...run, endS: s + 1 } : { startS: s, endS: s + 1 };
    if (lengthS(run) > lengthS(worst)) worst = run;
  }
  // It also calls seconds below that lie before or after: none of those belongs to the stretch.
  const belowAt = (s: number): boolean => !(power[s] >= band.lowW);
  let { startS: from, endS: to } = worst;
  while (from < to && !belowAt(from)) from++;
  while (to > from && !belowAt(to - 1)) to--;
  return to - from < leastStretchS ? null : { effort, worst: { startS: from, endS: to }, lostS };
}

/** Whether so many seconds outside the efforts were ridden at their power that they were ridden, only not then. */
function riddenElsewhere({ grid }: Ride, efforts: readonly Effort[], missed: readonly Missed[]): boolean {
  const { power30sW } = grid;
  if (power30sW === null) return true;
  const lowW = Math.min(...missed.map(({ effort }) => effort.band.lowW));
  const lostS = missed.reduce((sum, one) => sum + one.lostS, 0);
  let elsewhereS = 0;
  for (let s = 0; s < grid.seconds; s++)
    if (power30sW[s] >= lowW && !efforts.some((one) => s >= one.startS && s < one.endS)) elsewhereS++;
  return elsewhereS >= thresholds.effort.elsewhereShare * lostS;
}

/**
 * Says of a second whether the road explains that it was ridden easier: a stop or traffic near it, a falling road, a
 * corner, or speed at which nobody is asked for pressure. What is not known explains.
 */
function roadExplains({ grid }: Ride): (second: number) => boolean {
  const { speed, gradientPercent, headingDeg, seconds } = grid;
  if (!speed || !gradientPercent || !headingDeg) return () => true;
  const { slowMps, slowAroundS, descentPercent, fastestMps, turnDeg, turnWithinS } = thresholds.effort;
  const because = new Uint8Array(seconds);
  const around = (s: number, reachS: number): void => {
    because.fill(1, Math.max(0, s - reachS), Math.min(seconds, s + reachS + 1));
  };
  for (let s = 0; s < seconds; s++) {
    const mps = speed.value[s];
    if (grid.paused[s] === 1 || mps < slowMps) around(s, slowAroundS);
    else if (!Number.isFinite(mps + gradientPercent[s]) || gradientPercent[s] < descentPercent || mps > fastestMps)
      because[s] = 1;
    const later = Math.min(seconds - 1, s + turnWithinS);
    if (Math.abs(headingDeg[later] - headingDeg[s]) >= turnDeg) because.fill(1, s, later + 1);
  }
  return (second) => because[second] === 1;
}
