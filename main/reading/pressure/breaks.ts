import type { Plan } from "../../contract/plan.ts";
import type { Break, BreakReason } from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import type { Asked } from "../band.ts";
import { joinSpans, lengthS, runsOf } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { Cranks } from "./cranks.ts";
import { slowedBeyondRolling, type Road } from "./road.ts";

const limits = thresholds.excuse;
const pressure = thresholds.pressure;

/** Reasons that count as excused where the plan says nothing else. */
export const defaultExcuses: readonly string[] = ["stopped", "corner", "braking", "steep descent"];

/** Shortest break that this ride's recording can show, s. */
export function leastBreakS(ride: Ride): number {
  return ride.mode === "variable" ? pressure.variableBreakS : pressure.breakS;
}

/** What breaks are found and judged from. */
export interface BreakContext {
  readonly ride: Ride;
  readonly plan: Plan;
  readonly cranks: Uint8Array;
  readonly road: Road;
  readonly askedAt: (second: number) => Asked;
  /** Judged spans, in order. */
  readonly stretches: readonly Span[];
}

/** The breaks of the judged stretches, in order, each with its reason as the data tells it. Planned rests are none. */
export function breaksOf(context: BreakContext): Break[] {
  const { cranks, askedAt, stretches, ride } = context;
  const off = (s: number) => cranks[s] === Cranks.off && askedAt(s).planned !== "rest";
  const found: Break[] = [];
  for (const stretch of stretches) {
    for (const span of joinSpans(runsOf(off, stretch.startS, stretch.endS), pressure.joinS - 1)) {
      if (lengthS(span) < leastBreakS(ride)) continue;
      const reason = reasonOf(context, span);
      found.push(judgedBreak(context.plan, span, reason, "computed"));
    }
  }
  return found;
}

/** A break with what its reason means: excused or not, and whether it is a lapse. */
export function judgedBreak(plan: Plan, span: Span, reason: BreakReason, setBy: "computed" | "coach"): Break {
  const excused = isExcused(plan, reason);
  return {
    startS: span.startS,
    endS: span.endS,
    reason,
    excused,
    lapse: excused === false && lengthS(span) >= pressure.lapseS,
    setBy,
  };
}

function isExcused(plan: Plan, reason: BreakReason): boolean | null {
  if (typeof reason !== "string" || reason === "planned rest") return true;
  if (reason === "cannot tell") return null;
  return (plan.excuses ?? defaultExcuses).includes(reason);
}

function reasonOf(context: BreakContext, span: Span): BreakReason {
  const { plan, road, ride } = context;
  // On a trainer there is no road to excuse anything; the rider's own reasons are asked, not guessed.
  if (plan.setting === "trainer") return "unexplained";
  const masks: [BreakReason & string, Uint8Array][] = [
    ["stopped", road.stopped],
    ["corner", road.corner],
    ["braking", road.braking],
    ["steep descent", road.steepDescent],
  ];
  const allowed = plan.excuses ?? defaultExcuses;
  let covered = 0;
  for (let s = span.startS; s < span.endS; s++)
    if (masks.some(([name, mask]) => allowed.includes(name) && mask[s] === 1)) covered++;
  const length = lengthS(span);
  if (covered >= limits.coveredShare * length && length - covered < pressure.lapseS) {
    const shares = masks.map(([name, mask]) => [name, allowed.includes(name) ? countIn(mask, span) : 0] as const);
    return shares.reduce((best, next) => (next[1] > best[1] ? next : best))[0];
  }
  if (plan.setting === "group") return "cannot tell";
  if (countIn(road.known, span) < limits.knownShare * length) return "cannot tell";
  return slowedBeyondRolling(ride, span) ? "slowed, cause not in the data" : "unexplained";
}

function countIn(mask: Uint8Array, span: Span): number {
  let count = 0;
  for (let s = span.startS; s < span.endS; s++) count += mask[s];
  return count;
}
