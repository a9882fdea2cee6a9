import type { Plan } from "../contract/plan.ts";
import type { Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { DebriefStory, LadderWeek, NextStep } from "../../overlay/words/debriefStory.ts";

/** A main part shorter than this is too short to plan by, s. Own choice. */
const LEAST_S = 1200;
/** Steps are whole fives of minutes, at most a quarter of an hour or 15 % of what was ridden. Common practice, no source. */
const ROUND_S = 300;
const MOST_STEP_S = 900;
const STEP_SHARE = 0.15;
/** So much at the plan is worth going on from, percent; so much of the ride without drift counts as all of it. Own choice. */
const AT_PLAN_PERCENT = 60;
/** Less of it at the plan than this, and nobody is asked for all of it at the plan, percent. Own choice. */
const HARDLY_PERCENT = 25;
const ALL_SHARE = 0.9;
/** What leaves training open leaves its ladder open, too. */
const NO_LADDER = new Set<NextStep["kind"]>(["rest", "too short", "target", "not known"]);
/** What is said of the heart where it did not hold. */
const CLIMBED: ReadonlySet<string> = new Set(["rose from the start", "began"]);
const WEEK_MS = 7 * 86_400_000;
/** More weeks than this are no plan but a guess. */
const MOST_WEEKS = 12;

type Told = Omit<DebriefStory, "next" | "event" | "words">;

const roundS = (seconds: number): number => Math.max(ROUND_S, Math.round(seconds / ROUND_S) * ROUND_S);

/** One step up from a length, s. */
function stepS(fromS: number): number {
  return Math.min(MOST_STEP_S, Math.max(ROUND_S, Math.floor((STEP_SHARE * fromS) / ROUND_S) * ROUND_S));
}

/** The next ride: rest, one step, or the same once more; never more than one step above what was ridden. */
export function nextStep(
  { target, drift }: Pick<Reading, "target" | "drift">,
  told: Told,
  coachS: number | null,
): NextStep {
  const { facts, teaching } = told;
  if (facts.hold !== null) return { kind: "rest", topics: facts.hold };
  if (coachS !== null) return { kind: "coach", askS: coachS };
  if (told.targetW === null && told.heartBand === null) return { kind: "no plan" };
  if (facts.mainS < LEAST_S) return { kind: "too short" };
  if (told.doubt !== null) return { kind: "target", doubt: told.doubt };
  if (facts.shares === null) return { kind: "not known" };
  const askS = roundS(facts.mainS);
  if (facts.shares.inPercent < HARDLY_PERCENT) return { kind: "same", askS, because: "far" };
  if (teaching !== "nothing" && teaching !== "drift") return { kind: "same", askS, because: "change" };
  if (facts.shares.inPercent < AT_PLAN_PERCENT) return { kind: "same", askS, because: "change" };
  if (told.heldLowS === null && facts.judgedBy === "power" && told.hasHeart)
    // That it climbed is known and said: only by how much at the same power it is not.
    return { kind: "same", askS, because: CLIMBED.has(drift.verdict) ? "rose" : "can't tell" };
  if (teaching === "drift") return { kind: "same", askS, because: "rose" };
  // Where power is the plan and there is no heart, nothing says how long it held: the ride itself was held.
  const heldS = told.heldLowS ?? facts.mainS;
  if (heldS < ALL_SHARE * facts.mainS) return { kind: "same", askS, because: "rose" };
  if (target.minimumS !== null && askS >= target.minimumS) return { kind: "enough", askS };
  const moreS = stepS(askS);
  return { kind: "longer", askS: Math.min(askS + moreS, Math.max(askS, target.minimumS ?? Infinity)), moreS };
}

/** What the event asks for, beside what this ride held; null where there is none or rest comes first. */
export function eventOf(
  ride: Ride,
  plan: Plan,
  { target }: Reading,
  told: Told,
  next: NextStep,
): DebriefStory["event"] {
  const { eventS, minimumS, aimS } = target;
  if (eventS === null || minimumS === null || aimS === null || NO_LADDER.has(next.kind)) return null;
  const day = plan.eventDate === null ? null : Date.parse(plan.eventDate);
  return {
    name: plan.eventName,
    eventS,
    leastS: minimumS,
    aimS,
    heldLowS: told.heldLowS,
    heldHighS: told.heldHighS,
    weeks: day === null || ride.startUtcMs === null ? [] : ladder(ride.startUtcMs, day, minimumS, next),
  };
}

/** One step a week from the next ride on, up to what the event asks for; the week of the event itself is left free. */
function ladder(rideUtcMs: number, eventUtcMs: number, leastS: number, next: NextStep): LadderWeek[] {
  if (!("askS" in next)) return [];
  const weekday = (new Date(rideUtcMs).getUTCDay() + 6) % 7;
  const dayMs = 86_400_000;
  const monday = Math.floor(rideUtcMs / dayMs) * dayMs - weekday * dayMs;
  const weeks: LadderWeek[] = [];
  let askS = next.askS;
  for (let at = monday + WEEK_MS; at + WEEK_MS <= eventUtcMs && weeks.length < MOST_WEEKS; at += WEEK_MS) {
    weeks.push({ mondayUtcMs: at, askS });
    if (askS >= leastS) break;
    askS = Math.min(leastS, askS + stepS(askS));
  }
  return weeks;
}
