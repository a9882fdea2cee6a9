import { SIGNAL_STEP_S } from "../../contract/signals.ts";
import type { Feature } from "./featureScores.ts";
import { groupScore, type GroupMember, type GroupScore } from "./groupScore.ts";
import { memberPlaces, type MemberPlace, type RideForSignals } from "./memberPlaces.ts";
import { byHeavyTails, momentEvidence } from "./moments.ts";
import type { SignalDoubt } from "../../contract/notices/placement.ts";

/**
 * What must hold for `sure` (each is asked). Chosen on 1,068 made clips on wrong rides by both noise models, each with three
 * clocks: the most together that came out was 20.8 without a clock that names the place (17.6 with one), and 4 or more
 * were left by both scores in one of them (two). On 4,700 more three were sure, all with a gyroscope: one had 20.6 together
 * (turning alone), in two motion and shake told the same stop twice.
 */
export const SURE = {
  /** Evidence of the place, natural log of how much likelier it makes what was seen and heard than no tie at all. */
  leastEvidence: 16,
  /** Log posterior of the place over that of the next one more than `rivalS` away. */
  leastGap: 6,
  rivalS: 8,
  /**
   * What is left of the gap to each rival when this share of the moments, those that speak most for the place, is left out:
   * one at least, and no more than so many, as chance agrees in few however long a clip is. By the quick score, and by
   * heavy-tailed noise whose memory is fitted anew to what each place leaves: a wrong place rarely has much by both.
   */
  leastWithoutBest: 4,
  leftOutShare: 0.08,
  mostLeftOut: 3,
  /** Its lead in evidence alone, in units of what the evidence of chance places falls by (`leadOverChance`). */
  leastLead: 0,
  /**
   * Of both of these and twice the lead. Of the lead no more than so much counts, and of what is left by heavy tails no more
   * than so much above the quick score's: alone, each has been far out on a wrong ride.
   */
  leastTogether: 23,
  mostLead: 5,
  mostHeavier: 4,
  /**
   * Of the gyroscope alone, where one was held against the ride. Wrong places had 0.1 and 0.2 (a lorry's noise and a stop
   * that both rides had); of 721 right ones that were sure it was less in 1 (`simulated`).
   */
  leastSwing: 2,
  /**
   * What is left of the evidence itself, whatever the rivals have, without its three best moments: a place that one bend
   * told was sure on a wrong ride, with less than nothing left.
   */
  leastBeyondThree: 0,
  /** Fewer moments than this (`MOMENT_S` each) agree by chance too easily. */
  leastMoments: 6,
  /** Half-width of its place, s. */
  most2SeS: 1.5,
} as const;

/** What is asked instead where the camera's clock names the place: chance has fewer places to offer there. */
const SURE_BY_CLOCK = {
  /** From this help of the clock on (`helpOfClock`, natural log): a window of about an eighth of the ride. */
  leastHelp: 2,
  leastEvidence: 10,
  leastWithoutBest: 3,
  leastTogether: 21,
  /** Where the second strongest of what was seen, heard and felt says so much by itself: the most together of 933 such was 10.1. */
  leastSecond: 1,
  leastTogetherByTwo: 18.5,
} as const;

/** Chance places that tell how far evidence by chance reaches, and the least number of them that can tell. */
const CHANCE_PLACES = 20;
const LEAST_CHANCE_PLACES = 8;

export interface GroupSolution {
  readonly sure: boolean;
  /** Natural logs: see `SURE`. */
  readonly evidence: number;
  readonly gap: number;
  readonly lead: number;
  /** By how much the clock speaks more for the place than for the mean of all places, natural log. */
  readonly help: number;
  /** Evidence of the camera's gyroscope alone; null without one, or where nothing of it meets the ride. */
  readonly swing: number | null;
  /** Evidence without its three best moments. */
  readonly beyondThree: number;
  /** Evidence of the second strongest of motion (or shake), sound, turning and swing. */
  readonly second: number;
  /** What is left without its best moments by the quick score, and by heavy-tailed noise. */
  readonly withoutBest: number;
  readonly heavyWithoutBest: number;
  readonly members: readonly MemberPlace[];
  /** Places of the group's first start, best first, at most three, with their evidence. */
  readonly candidates: readonly { readonly startS: number; readonly evidence: number }[];
  /** Which conditions failed, in words. */
  readonly doubts: readonly SignalDoubt[];
}

/** Log of how likely a start of the group's first recording is before anything is heard or seen. */
export type LogPrior = (startS: number) => number;

interface Peak {
  readonly index: number;
  readonly logP: number;
}

/** Largest entries more than `rivalS` from each other. */
function peaks(logP: Float64Array, most: number): Peak[] {
  const apart = SURE.rivalS / SIGNAL_STEP_S;
  const left = logP.slice();
  const found: Peak[] = [];
  while (found.length < most) {
    let best = -1;
    for (let k = 0; k < left.length; k++) if (Number.isFinite(left[k]) && (best < 0 || left[k] > left[best])) best = k;
    if (best < 0) break;
    found.push({ index: best, logP: logP[best] });
    left.fill(NaN, Math.max(0, best - apart), best + apart + 1);
  }
  return found;
}

/**
 * By how much the evidence at entry `at` is above that of the best place elsewhere, in units of what the evidence of chance
 * places falls by: the mean excess of the best of them over the last of `CHANCE_PLACES` (the tail of what chance gives is
 * taken for exponential), at least 1. The camera's clock has no say in it. NaN where there are too few places.
 */
function leadOverChance(score: GroupScore, at: number): number {
  const others = peaks(score.evidence, CHANCE_PLACES + 2)
    .filter(({ index }) => Math.abs(index - at) > SURE.rivalS / SIGNAL_STEP_S)
    .slice(0, CHANCE_PLACES + 1);
  if (others.length <= LEAST_CHANCE_PLACES) return NaN;
  const last = others[others.length - 1].logP;
  const scale = others.slice(0, -1).reduce((sum, { logP }) => sum + logP - last, 0) / (others.length - 1);
  return (score.evidence[at] - others[0].logP) / Math.max(1, scale);
}

/** By how much the clock speaks more for entry `at` than for the mean of all places, natural log; 0 without a clock. */
function helpOfClock(priors: Float64Array, at: number): number {
  let [sum, count] = [0, 0];
  for (const logP of priors) {
    if (!Number.isFinite(logP)) continue;
    sum += Math.exp(logP - priors[at]);
    count++;
  }
  return -Math.log(sum / count);
}

/** What a place is judged by beside its error: see `GroupSolution`. */
type Told = Pick<
  GroupSolution,
  "evidence" | "gap" | "help" | "lead" | "swing" | "second" | "beyondThree" | "withoutBest" | "heavyWithoutBest"
>;

/** Which conditions of `SURE`, or of `SURE_BY_CLOCK` where the clock names the place, fail by what is told of it. */
export function placeDoubts(told: Told): SignalDoubt[] {
  const named = told.help >= SURE_BY_CLOCK.leastHelp;
  const asked = named ? SURE_BY_CLOCK : SURE;
  const byTwo = named && told.second >= SURE_BY_CLOCK.leastSecond;
  const leastTogether = byTwo ? SURE_BY_CLOCK.leastTogetherByTwo : asked.leastTogether;
  const left = Math.min(told.withoutBest, told.heavyWithoutBest);
  const heavy = Math.min(told.heavyWithoutBest, told.withoutBest + SURE.mostHeavier);
  const together = told.withoutBest + heavy + 2 * Math.min(told.lead, SURE.mostLead);
  const doubts: SignalDoubt[] = [];
  if (!(told.evidence >= asked.leastEvidence && (told.swing ?? Infinity) >= SURE.leastSwing))
    doubts.push("could be chance");
  if (!(told.gap >= SURE.leastGap && told.lead >= SURE.leastLead && together >= leastTogether))
    doubts.push("another place fits");
  if (!(left >= asked.leastWithoutBest && told.beyondThree >= SURE.leastBeyondThree)) doubts.push("few moments");
  return doubts;
}

/** Sum of the largest values, those that are left out (`leftOutShare`); none counts less than 0. */
function mostOf(values: Float64Array): number {
  const count = Math.min(SURE.mostLeftOut, Math.max(1, Math.ceil(SURE.leftOutShare * values.length)));
  return values
    .sort()
    .slice(-count)
    .reduce((sum, value) => sum + Math.max(0, value), 0);
}

/** What is left of the first place's gap to each of the others without its best moments: the least. */
function leftWithoutBest(gaps: readonly number[], moments: readonly Float64Array[]): number {
  return Math.min(...gaps.map((gap, k) => gap - mostOf(moments[0].map((value, i) => value - moments[k + 1][i]))));
}

/** Evidence of each feature at a group's place, shake as motion; a feature that was not held against the ride is not there. */
function featuresAt(
  score: GroupScore,
  members: readonly GroupMember[],
  startStep: number,
  slackS: number,
): Map<Feature, number> {
  const reach = members.length > 1 ? Math.round(slackS / SIGNAL_STEP_S) : 0;
  const sums = new Map<Feature, number>();
  score.members.forEach((member, k) => {
    const own = new Map<Feature, number>();
    for (const { feature, evidence, firstLag } of member?.parts ?? []) {
      const at = startStep + Math.round(members[k].afterFirstS / SIGNAL_STEP_S) - firstLag;
      const near = evidence.subarray(Math.max(0, at - reach), at + reach + 1).filter(Number.isFinite);
      const name = feature === "shake" ? "motion" : feature;
      if (near.length > 0) own.set(name, Math.max(own.get(name) ?? 0, ...near));
    }
    for (const [name, value] of own) sums.set(name, (sums.get(name) ?? 0) + value);
  });
  return sums;
}

function sumOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0);
}

/**
 * Finds one place in the ride for all recordings of a clock group by what was seen and heard, and how sure that is.
 * Null when the group has nothing to hold on to (no signals, or a ride too short to tell chance from agreement). `score`
 * is for who asks of the same recordings with several priors.
 */
export function solveGroup(
  members: readonly GroupMember[],
  ride: RideForSignals,
  prior: LogPrior,
  slackS: number,
  score = groupScore(members, ride.prepared, slackS),
): GroupSolution | null {
  if (!score) return null;
  const startS = (index: number) => (score.firstLag + index) * SIGNAL_STEP_S;
  const priors = score.evidence.map((evidence, k) => (Number.isFinite(evidence) ? prior(startS(k)) : NaN));
  const found = peaks(
    score.evidence.map((evidence, k) => evidence + priors[k]),
    4,
  );
  const best = found[0];
  if (!best) return null;
  const evidence = score.evidence[best.index];
  const gap = best.logP - (found[1]?.logP ?? -Infinity);
  const lead = leadOverChance(score, best.index);
  const help = helpOfClock(priors, best.index);
  const told = featuresAt(score, members, score.firstLag + best.index, slackS);
  const swing = told.get("swing") ?? null;
  const second = [...told.values()].sort((a, b) => b - a)[1] ?? 0;
  const rivals = found.slice(1);
  const moments = found.map(({ index }) => momentEvidence(score, members, score.firstLag + index, slackS));
  const withoutBest = leftWithoutBest(
    rivals.map((rival) => best.logP - rival.logP),
    moments,
  );
  const beyondThree = sumOf(moments[0].slice().sort().slice(0, -3));
  const byTails = byHeavyTails();
  const heavy = found.map(({ index }) => momentEvidence(score, members, score.firstLag + index, slackS, byTails));
  const heavyLogP = heavy.map((values, k) => sumOf(values) + priors[found[k].index]);
  const heavyWithoutBest = leftWithoutBest(
    rivals.map((_, k) => heavyLogP[0] - heavyLogP[k + 1]),
    heavy,
  );
  const places = memberPlaces(score, members, startS(best.index), slackS, ride);
  const errors = places.map((place) => place.uncertaintyS).filter((e): e is number => e !== null);
  const doubts = placeDoubts({ evidence, gap, lead, help, swing, second, beyondThree, withoutBest, heavyWithoutBest });
  if (moments[0].length < SURE.leastMoments) doubts.push("too short");
  if (errors.length === 0 || Math.min(...errors) > SURE.most2SeS) doubts.push("not sharp");
  return {
    sure: doubts.length === 0,
    evidence,
    gap,
    lead,
    help,
    swing,
    second,
    beyondThree,
    withoutBest,
    heavyWithoutBest,
    members: places,
    candidates: found.slice(0, 3).map((peak) => ({
      startS: peak === best ? places[0].offsetS : startS(peak.index),
      evidence: score.evidence[peak.index],
    })),
    doubts,
  };
}
