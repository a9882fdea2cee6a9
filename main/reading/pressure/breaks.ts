import type { Plan } from "../../contract/plan.ts";
import type { Break, BreakReason } from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import type { Asked } from "../band.ts";
import { joinSpans, lengthS, maskOf, runsOf } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import { Cranks } from "./cranks.ts";
import {
  brakedInto,
  creepsFrom,
  inSlowPassage,
  isCarried,
  runOutOf,
  slowedBeyondRolling,
  slowsFrom,
  type Road,
} from "./road.ts";

const limits = thresholds.excuse;
const pressure = thresholds.pressure;

/** Reasons that count as excused where the plan says nothing else. */
const defaultExcuses: readonly string[] = ["stopped", "corner", "braking", "steep descent"];

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

/**
 * The breaks of the judged stretches, in order, each with its reason as the data tells it. Planned rests are none.
 *
 * A loss of pressure whose cause changes on the way is cut there: what the road explains is one break, and a part of 10 s
 * or more that nothing explains is another, as long as it lasted.
 */
export function breaksOf(context: BreakContext): Break[] {
  const { cranks, askedAt, stretches, ride } = context;
  const off = (s: number) => cranks[s] === Cranks.off && askedAt(s).planned !== "rest";
  const found: Break[] = [];
  for (const stretch of stretches) {
    for (const span of joinSpans(runsOf(off, stretch.startS, stretch.endS), pressure.joinS - 1)) {
      if (lengthS(span) < leastBreakS(ride)) continue;
      for (const part of partsOf(context, span)) found.push(judgedBreak(context.plan, part, part.reason, "computed"));
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

interface Part extends Span {
  readonly reason: BreakReason;
}

/** What the road says of a second: a reason, or that a bend leaves it open. */
type RoadReason = "stopped" | "corner" | "braking" | "steep descent" | "cannot tell";

/** A loss of pressure cut into what the road explains and what it does not. */
function partsOf(context: BreakContext, span: Span): Part[] {
  const { plan } = context;
  // On a trainer there is no road to excuse anything; the rider's own reasons are asked, not guessed.
  if (plan.setting === "trainer") return [{ ...span, reason: "unexplained" }];
  const reasonAt = roadReasons(context, span);
  const explained = (s: number) => reasonAt[s - span.startS] !== null;
  const lapses = runsOf((s) => !explained(s), span.startS, span.endS).filter((run) => lengthS(run) >= pressure.lapseS);
  const parts: Part[] = [];
  let fromS = span.startS;
  for (const lapse of [...lapses, { startS: span.endS, endS: span.endS }]) {
    if (lapse.startS > fromS) parts.push(...restParts(context, { startS: fromS, endS: lapse.startS }, span, reasonAt));
    if (lengthS(lapse) > 0) parts.push({ ...lapse, reason: unexplainedReason(context, lapse) });
    fromS = lapse.endS;
  }
  return parts;
}

/**
 * What is left of a loss of pressure once its lapses are taken out: one break where the road explains most of it, else one
 * for each explained and unexplained part, those too short to be a break joined to the one before.
 */
function restParts(context: BreakContext, rest: Span, whole: Span, reasonAt: readonly (RoadReason | null)[]): Part[] {
  const within = reasonAt.slice(rest.startS - whole.startS, rest.endS - whole.startS);
  const told = within.filter((reason) => reason !== null);
  if (told.length === 0) return [{ ...rest, reason: unexplainedReason(context, rest) }];
  if (told.length >= limits.coveredShare * lengthS(rest)) return [{ ...rest, reason: mostOf(told) }];
  const runs = [
    ...runsOf((s) => within[s - rest.startS] !== null, rest.startS, rest.endS),
    ...runsOf((s) => within[s - rest.startS] === null, rest.startS, rest.endS),
  ].sort((one, other) => one.startS - other.startS);
  const spans: Span[] = [];
  for (const run of runs) {
    const last = spans.at(-1);
    if (last && (lengthS(run) < pressure.breakS || lengthS(last) < pressure.breakS))
      spans[spans.length - 1] = { startS: last.startS, endS: run.endS };
    else spans.push(run);
  }
  return spans.map((span) => {
    const reasons = within.slice(span.startS - rest.startS, span.endS - rest.startS).filter((one) => one !== null);
    const covered = reasons.length >= limits.coveredShare * lengthS(span);
    return { ...span, reason: covered ? mostOf(reasons) : unexplainedReason(context, span) };
  });
}

/** What explains each second of a span, the first of the list that does; null where nothing does. */
function roadReasons(context: BreakContext, span: Span): (RoadReason | null)[] {
  const { plan, road, ride } = context;
  const allowed = plan.excuses ?? defaultExcuses;
  const untilS = Math.min(ride.grid.seconds, span.endS + limits.reachedWithinS);
  // All of a break that slows down into walking pace or a turn belongs to it.
  const slowing = (mask: Uint8Array, counts: (atS: number) => boolean = () => true): Uint8Array => {
    const found = new Uint8Array(lengthS(span));
    for (const run of runsOf((s) => mask[s] === 1, span.startS, untilS))
      if (counts(run.startS))
        found.fill(1, slowsFrom(ride, run.startS, span.startS) - span.startS, Math.max(0, run.endS - span.startS));
    return found;
  };
  const intoStop = slowing(road.nearStand);
  const creepS = creepsFrom(ride, road, span);
  if (creepS !== null) intoStop.fill(1, creepS - span.startS);
  const brakedDown = slowing(road.slow, (atS) => brakedInto(ride, atS));
  const intoTurn = slowing(road.turning);
  const runOut = maskOf(runOutOf(ride, road, span), ride.grid.seconds);
  const masks: [RoadReason, (s: number) => boolean][] = [
    [
      "stopped",
      (s) =>
        road.stopped[s] === 1 ||
        road.walking[s] === 1 ||
        intoStop[s - span.startS] === 1 ||
        brakedDown[s - span.startS] === 1,
    ],
    ["corner", (s) => road.corner[s] === 1 || intoTurn[s - span.startS] === 1],
    ["steep descent", (s) => road.steepDescent[s] === 1 || runOut[s] === 1],
    ["braking", (s) => road.braking[s] === 1],
    ["cannot tell", (s) => road.bend[s] === 1],
  ];
  const usable = masks.filter(([name]) => allowed.includes(name === "cannot tell" ? "corner" : name));
  return Array.from({ length: lengthS(span) }, (_, index) => {
    const s = span.startS + index;
    return usable.find(([, holds]) => holds(s))?.[0] ?? null;
  });
}

/** The reason told most often; of equal ones the first. */
function mostOf(reasons: readonly RoadReason[]): RoadReason {
  const times = new Map<RoadReason, number>();
  for (const reason of reasons) times.set(reason, (times.get(reason) ?? 0) + 1);
  return [...times].reduce((best, next) => (next[1] > best[1] ? next : best))[0];
}

/** What is said of a part that no road explains. */
function unexplainedReason({ plan, road, ride }: BreakContext, span: Span): BreakReason {
  if (plan.setting === "group" || ride.indoors) return "cannot tell";
  if (countIn(road.known, span) < limits.knownShare * lengthS(span)) return "cannot tell";
  // Over a few seconds speed and grade are too coarse to tell.
  if (lengthS(span) >= pressure.lapseS && (isCarried(ride, span) || inSlowPassage(ride, road, span)))
    return "cannot tell";
  return slowedBeyondRolling(ride, span) ? "slowed, cause not in the data" : "unexplained";
}

function countIn(mask: Uint8Array, span: Span): number {
  let count = 0;
  for (let s = span.startS; s < span.endS; s++) count += mask[s];
  return count;
}
