import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import { countedAt, STEPS_A_SECOND, tieEvidence, type FeatureScore } from "./featureScores.ts";
import type { GroupMember, GroupScore } from "./groupScore.ts";
import { heavyTailedTie, untied, type Untied } from "./heavyTailedTie.ts";

/** Length of a moment, s: a stop or a bend with what leads to it. */
const MOMENT_S = 20;

/** The straight line that ties a feature to the ride at a lag, and what it is worth. */
interface Tie {
  readonly lag: number;
  readonly meanSeen: number;
  readonly meanExpected: number;
  readonly slope: number;
  /** Sum of squares that the line explains. */
  readonly explained: number;
  readonly evidence: number;
}

function tieAt({ seen, expected, eitherWay }: FeatureScore, lag: number): Tie {
  let [count, n, sx, sy, sxx, syy, sxy] = [0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < seen.length; i++) {
    const [x, y] = [seen[i], expected[i + lag] ?? NaN];
    if (!Number.isFinite(x)) continue;
    count++;
    if (!Number.isFinite(y)) continue;
    n++;
    sx += x;
    sy += y;
    sxx += x * x;
    syy += y * y;
    sxy += x * y;
  }
  const [vx, vy, vxy] = [sxx - (sx * sx) / n, syy - (sy * sy) / n, sxy - (sx * sy) / n];
  const slope = vy > 0 ? vxy / vy : 0;
  return {
    lag,
    meanSeen: sx / n,
    meanExpected: sy / n,
    slope,
    explained: slope * vxy,
    evidence: vx * vy > 0 ? tieEvidence(vxy / Math.sqrt(vx * vy), count, eitherWay) : 0,
  };
}

/** Adds what each moment gives to one feature's evidence at the best lag from `lag` to its lead; the sum is that evidence. */
function addMoments(part: FeatureScore, lag: number, moments: Float64Array): void {
  let tie = tieAt(part, lag);
  for (let j = 1; j <= part.leadSteps; j++) {
    const later = tieAt(part, lag + j);
    if (later.evidence > tie.evidence) tie = later;
  }
  if (!(tie.evidence > 0) || !(tie.explained > 0)) return;
  part.seen.forEach((v, i) => {
    const [x, y] = [v - tie.meanSeen, (part.expected[i + tie.lag] ?? NaN) - tie.meanExpected];
    if (Number.isFinite(x) && Number.isFinite(y))
      moments[Math.floor(i / (MOMENT_S * STEPS_A_SECOND))] +=
        (tie.evidence * (x * x - (x - tie.slope * y) ** 2)) / tie.explained;
  });
}

/** Lags that are tried by heavy tails lie so many steps apart within a lead, and one step to either side where there is none. */
const LEAD_APART = 2;

/** Adds what each moment gives by heavy tails at the best lag from `lag` to its lead, or next to it. */
function addHeavyTailed(part: FeatureScore, lag: number, moments: Float64Array, alone: Untied): void {
  let best: { readonly steps: Float64Array; readonly evidence: number } | null = null;
  const [from, to, by] = part.leadSteps > 0 ? [0, part.leadSteps, LEAD_APART] : [-1, 1, 1];
  for (let j = from; j <= to; j += by) {
    const steps = heavyTailedTie(part, lag + j, alone);
    if (!steps) continue;
    const evidence = steps.reduce((sum, v) => sum + (Number.isFinite(v) ? v : 0), 0);
    if (!best || evidence > best.evidence) best = { steps, evidence };
  }
  if (!best || !(best.evidence > 0)) return;
  best.steps.forEach((v, i) => {
    if (Number.isFinite(v)) moments[Math.floor(i / (MOMENT_S * STEPS_A_SECOND))] += v;
  });
}

/** Adds what a feature gives at a lag to moments. */
type Adding = (part: FeatureScore, lag: number, moments: Float64Array) => void;

/**
 * What each `MOMENT_S` of a group's footage says for a place (a step of ride time), natural log; less than 0 where it
 * speaks against it. Two places compare moment by moment.
 */
export function momentEvidence(
  score: GroupScore,
  members: readonly GroupMember[],
  startStep: number,
  slackS: number,
  add: Adding = addMoments,
): Float64Array {
  const reach = members.length > 1 ? Math.round(slackS / SIGNAL_STEP_S) : 0;
  const all = score.members.map((member, k) => {
    if (!member) return new Float64Array(0);
    const moments = new Float64Array(Math.ceil(member.parts[0].seen.length / (MOMENT_S * STEPS_A_SECOND)));
    const centre = startStep + Math.round(members[k].afterFirstS / SIGNAL_STEP_S) - member.firstLag;
    let best = -1;
    for (let at = centre - reach; at <= centre + reach; at++)
      if (Number.isFinite(member.evidence[at]) && !(member.evidence[at] <= member.evidence[best])) best = at;
    if (best >= 0) for (const part of countedAt(member.parts, best)) add(part, best + member.firstLag, moments);
    return moments;
  });
  return Float64Array.from(all.flatMap((moments) => [...moments]));
}

/** How to ask moments of heavy-tailed noise: each feature's own noise is fitted once. Their sum is their evidence. */
export function byHeavyTails(): Adding {
  const known = new Map<FeatureScore, Untied>();
  return (part, lag, moments) => {
    const alone = known.get(part) ?? untied(part);
    known.set(part, alone);
    addHeavyTailed(part, lag, moments, alone);
  };
}
