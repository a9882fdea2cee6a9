import type { DebriefFacts } from "../contract/debriefFacts.ts";
import type { Plan } from "../contract/plan.ts";
import type { Moment, Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { MomentFacts } from "../../overlay/words/debriefPhrases.ts";
import type { DebriefStory, Held, TeachingPoint } from "../../overlay/words/debriefStory.ts";
import { eventOf, nextStep } from "./nextStep.ts";
import { momentFacts } from "./momentFacts.ts";
import { pausesAfterSurges } from "./pausesAfterSurges.ts";

/** From how many on a thing is a pattern, and which share of the main part is worth teaching; common practice, no source. */
const SURGES_FROM = 3;
/** From this share of the main part on, being above the plan is no matter of surges any more, percent. */
const MOST_PERCENT = 50;
const WORTH = { above: 0.08, pattern: 0.02, breaks: 0.02, below: 0.2, cadence: 0.1 };
/** A share of this is praise, percent; below it nobody is told it went well. Common practice, no source. */
const PRAISE_PERCENT = 60;
const HOUR_PERCENT = 75;
/** So many times as much at the plan as off it is worth a word beside what is to change; own choice. */
const MOSTLY = 2;
/** A stretch, and a level heart, worth praise, s. Common practice, no source. */
const STRETCH_S = 600;
const LONG_STRETCH_S = 1200;
const LEVEL_S = 2700;
/** Nine tenths of the pedalled time within so many turns a minute is an even cadence; own choice. */
const EVEN_RPM = 16;
/** A cadence block is a fault where most of the ride had another; own choice. */
const BLOCKS_AT_MOST = 1 / 3;
/**
 * What a second weighs: above the plan, or without pressure, one; below the plan half (riding easy costs a base ride
 * little); another cadence a quarter. A beat of drift beyond the acceptable: 1.5 % of the main part. Own choice.
 */
const WEIGHT = { below: 0.5, cadence: 0.25, beat: 0.015 };
/** Power lost from the first hour to the last worth a word, percent. */
const FADE_PERCENT = 8;
const BACK_DAYS = 14;
/** Heat is what the rider calls so: a computer in the sun measures the sun. */
const HOT = /(?<!not )(?<!nicht )\b(hot|heat|hei\u00df|hitze|schw\u00fcl)/i;
/** Shorter than this there is nothing to judge, s. */
const LEAST_MAIN_S = 300;
/** A shorter surge is no example of anything, s. Own choice. */
const LEAST_EXAMPLE_S = 10;

/** Which kinds of moment show each teaching point; the first kind is its main one and comes first. */
export const TEACHING_KINDS: Readonly<Record<TeachingPoint, readonly string[]>> = {
  offOverTop: ["riseThenOff", "surge"],
  rises: ["surge"],
  surges: ["surge"],
  tooHard: ["surge"],
  breaks: ["lapse", "breakRun"],
  tooEasy: [],
  fade: [],
  cadence: ["cadenceBlock"],
  efforts: ["effortShort"],
  drift: [],
  nothing: [],
  rest: [],
};

/** Points that hold the ride against its plan: none of them where the target looks wrong for it. */
const BY_THE_PLAN = new Set<TeachingPoint>(["offOverTop", "rises", "surges", "tooHard", "tooEasy", "fade", "efforts"]);

/** Praise that would say the opposite of what is to be changed. */
const OPPOSITE: Readonly<Partial<Record<TeachingPoint, readonly Held["kind"][]>>> = {
  rises: ["share", "rise", "smooth"],
  offOverTop: ["rise", "smooth", "unbroken"],
  breaks: ["unbroken"],
  surges: ["share", "smooth"],
  tooHard: ["share", "hour", "smooth"],
  tooEasy: ["share", "hour"],
  fade: ["hour", "share", "smooth"],
  cadence: ["cadence"],
  drift: ["level"],
};

const lengthS = (span: { startS: number; endS: number }): number => span.endS - span.startS;

/** Whether a moment is fit to show a teaching point: pressure is asked for only where the road is free. */
export function teaches(point: TeachingPoint, moment: Moment, facts: DebriefFacts): boolean {
  if (!TEACHING_KINDS[point].includes(moment.kind)) return false;
  if (point === "rises") return moment.reason === "on a rise";
  if (point !== "breaks") return true;
  const asked = facts.askable.filter((one) => one.startS < moment.endS && one.endS > moment.startS);
  return moment.kind === "lapse" ? asked.length > 0 : asked.length >= 2;
}

interface Cost {
  readonly point: TeachingPoint;
  /** Seconds of the main part, weighed. */
  readonly costS: number;
  /** Worth teaching at all: it took its share of the main part. */
  readonly worth: boolean;
  readonly times: number;
  readonly lostS: number | null;
  readonly percent: number | null;
}

/** More than half of what is known of the flat was ridden above the plan. */
function aboveOnTheFlat({ pressure }: Reading): boolean {
  if (pressure.byGradient === null) return false;
  const { inBandS, belowS, aboveS, offS } = pressure.byGradient.flat;
  return aboveS > (MOST_PERCENT / 100) * (inBandS + belowS + aboveS + offS);
}

/** All patterns with what each cost, the largest first; only those worth teaching. */
function costs(plan: Plan, reading: Reading, facts: DebriefFacts, moments: readonly Moment[]): Cost[] {
  const { pressure, drift, surges, base } = reading;
  const none = { times: 0, lostS: null, percent: null };
  const found: Cost[] = [];
  const kind = (name: string): Moment[] => moments.filter((moment) => moment.kind === name);
  const planned = facts.shares !== null;
  const worth = (seconds: number, share: number): boolean => seconds > 0 && seconds >= share * facts.mainS;

  // Above the plan, the pauses that pay for it included.
  if (planned) {
    const surgesS = surges.reduce((sum, one) => sum + lengthS(one), 0);
    const pauses = pausesAfterSurges(reading);
    const coasts = kind("riseThenOff");
    const offS = pauses.reduce((sum, { pause }) => sum + lengthS(pause), 0);
    const costS = Math.max(pressure.aboveS, surgesS) + offS;
    const up = pressure.byGradient?.up.aboveS ?? 0;
    // Who is above the plan on the flat as well has no matter of rises.
    const onRises =
      plan.setting !== "trainer" && pressure.aboveS > 0 && up >= pressure.aboveS / 2 && !aboveOnTheFlat(reading);
    const times = coasts.reduce((sum, one) => sum + (one.numbers["times"] ?? 1), 0);
    const percent = facts.shares?.abovePercent ?? null;
    const above = { costS, worth: worth(costS, WORTH.above), ...none, lostS: pressure.aboveS, percent };
    found.push(
      coasts.length > 0 && plan.setting !== "trainer"
        ? { ...above, point: "offOverTop", worth: worth(costS, WORTH.pattern), times, lostS: offS }
        : onRises
          ? { ...above, point: "rises" }
          : surges.length >= SURGES_FROM && surgesS >= pressure.aboveS / 2 && (percent ?? 0) < MOST_PERCENT
            ? { ...above, point: "surges", times: surges.length }
            : { ...above, point: "tooHard" },
    );
  }

  const askedS = facts.askable.reduce((sum, one) => sum + lengthS(one), 0);
  found.push({
    point: "breaks",
    costS: askedS,
    worth: worth(askedS, WORTH.breaks),
    times: facts.askable.length,
    lostS: askedS,
    percent: null,
  });

  // Below the plan: nobody is asked for pressure where the road falls, nor in a group.
  if (planned && plan.setting !== "group") {
    const belowS = pressure.belowS - (pressure.byGradient?.down.belowS ?? 0);
    const fades = base.fadePercent !== null && base.fadePercent >= FADE_PERCENT;
    found.push({
      point: fades ? "fade" : "tooEasy",
      costS: belowS * WEIGHT.below * (fades ? 1.5 : 1),
      worth: worth(belowS, WORTH.below),
      ...none,
      lostS: belowS,
      percent: fades ? Math.round(base.fadePercent) : (facts.shares?.belowPercent ?? null),
    });
  }

  // A planned effort is what the ride was for: its seconds weigh whole.
  const short = kind("effortShort");
  const missedS = short.reduce((sum, one) => sum + (one.numbers["lostS"] ?? lengthS(one)), 0);
  found.push({
    point: "efforts",
    costS: missedS,
    worth: worth(missedS, WORTH.pattern),
    ...none,
    times: short.length,
    lostS: missedS,
  });

  const blocks = kind("cadenceBlock");
  const cadenceS = blocks.reduce((sum, one) => sum + lengthS(one), 0);
  if (cadenceS <= BLOCKS_AT_MOST * facts.mainS && blocks.length > 1)
    found.push({
      point: "cadence",
      costS: cadenceS * WEIGHT.cadence,
      worth: worth(cadenceS, WORTH.cadence),
      ...none,
      times: blocks.length,
    });

  const rose =
    drift.verdict === "began" || drift.verdict === "rose from the start" || drift.verdict === "start unclear";
  const beyond = (facts.drift?.beats ?? 0) - plan.driftLimitBeats;
  if (rose && (facts.drift?.canTell ?? false) && beyond > 0)
    found.push({ point: "drift", costS: beyond * WEIGHT.beat * facts.mainS, worth: true, ...none });

  return found.filter((one) => facts.mainS >= LEAST_MAIN_S && one.worth).sort((one, other) => other.costS - one.costS);
}

/** The best true thing among all that is measured that is not the opposite of the one change. */
function bestOf(
  ride: Ride,
  { note: { heat }, skills = [] }: Plan,
  reading: Reading,
  facts: DebriefFacts,
  moments: readonly Moment[],
  teaching: TeachingPoint,
  percent: number | null,
): Held {
  // To ride on in spite of it is nothing to praise; to have said it is.
  if (facts.hold !== null) return { kind: "told" };
  const { shares, bestHour, evenRise, evenPower, lastLike, blocks, daysSinceLast } = facts;
  const { lowRpm, highRpm } = reading.cadence;
  const { heldLowS } = reading.target;
  const efforts = blocks.filter((one) => one.kind === "effort" && one.done !== null);
  const practised = skills.flatMap((one) =>
    one.done === null || one.done < (one.repeats ?? 1) ? [] : [{ ...one, done: one.done }],
  );
  const done = efforts.filter((one) => one.done === true).length;
  const steady = moments.filter((moment) => moment.kind === "steadyStretch").sort((a, b) => lengthS(b) - lengthS(a))[0];
  const stretch = (leastS: number): Held[] =>
    steady !== undefined && lengthS(steady) >= leastS
      ? [{ kind: "stretch", startS: steady.startS, endS: steady.endS }]
      : [];
  const found: Held[] = [
    ...(efforts.length > 0 && done >= 0.8 * efforts.length
      ? [{ kind: "blocks" as const, done, of: efforts.length }]
      : []),
    ...practised.slice(0, 1).map(({ skill, repeats, done: times }) => ({
      kind: "skill" as const,
      skill,
      done: times,
      asked: repeats !== null,
    })),
    ...(lastLike?.inBand && lastLike.inBand.now > lastLike.inBand.before && lastLike.inBand.now >= PRAISE_PERCENT
      ? [{ kind: "better" as const, what: "inBand" as const, ...lastLike.inBand }]
      : []),
    ...(lastLike?.breaksAnHour && lastLike.breaksAnHour.now < lastLike.breaksAnHour.before && teaching !== "breaks"
      ? [{ kind: "better" as const, what: "breaks" as const, ...lastLike.breaksAnHour }]
      : []),
    ...(bestHour !== null && bestHour.inPercent >= HOUR_PERCENT
      ? [{ kind: "hour" as const, startS: bestHour.startS, endS: bestHour.endS, percent: bestHour.inPercent }]
      : []),
    ...stretch(LONG_STRETCH_S),
    ...(shares !== null && shares.inPercent >= PRAISE_PERCENT
      ? [{ kind: "share" as const, percent: shares.inPercent }]
      : []),
    ...(evenRise === null ? [] : [{ kind: "rise" as const, ...evenRise }]),
    ...(heldLowS !== null &&
    heldLowS >= LEVEL_S &&
    facts.drift?.canTell === true &&
    Math.abs(facts.drift.beats) <= facts.drift.giveOrTake
      ? [{ kind: "level" as const, forS: heldLowS }]
      : []),
    // Efforts that were not ridden are evenness of the wrong kind.
    ...(evenPower === null || efforts.length > 0 ? [] : [{ kind: "smooth" as const, ...evenPower }]),
    ...stretch(STRETCH_S),
    ...(facts.longestUnbrokenS !== null && facts.longestUnbrokenS >= LONG_STRETCH_S
      ? [{ kind: "unbroken" as const, forS: facts.longestUnbrokenS }]
      : []),
    ...(lowRpm !== null && highRpm !== null && highRpm - lowRpm <= EVEN_RPM && lowRpm >= 60
      ? [{ kind: "cadence" as const, lowRpm: Math.round(lowRpm), highRpm: Math.round(highRpm) }]
      : []),
    ...(daysSinceLast !== null && daysSinceLast >= BACK_DAYS
      ? [{ kind: "back" as const, days: daysSinceLast, durationS: ride.elapsedS }]
      : []),
    ...(HOT.test(heat ?? "") ? [{ kind: "heat" as const, durationS: ride.elapsedS }] : []),
  ];
  // Most of the ride at the plan is no opposite of the part that was not.
  const mostly = shares !== null && percent !== null && shares.inPercent >= MOSTLY * percent;
  const not = (OPPOSITE[teaching] ?? []).filter((kind) => !(mostly && (kind === "share" || kind === "hour")));
  const fits = facts.mainS >= LEAST_MAIN_S ? found.find((one) => !not.includes(one.kind)) : undefined;
  return fits ?? { kind: "ridden", durationS: ride.elapsedS > 0 ? ride.elapsedS : reading.counted.endS };
}

/**
 * Surges by what each cost (above the band, and the pause after it), the dearest first: what the film shows, and the
 * example that the sentence gives, in the figures of its caption.
 */
export function surgesByCost(
  ride: Ride,
  reading: Reading,
  facts: DebriefFacts,
  moments: readonly Moment[],
): { readonly moment: Moment; readonly told: MomentFacts; readonly cost: number }[] {
  return moments
    .filter(({ kind }) => kind === "surge")
    .map((moment) => {
      const told = momentFacts(ride, reading, facts, moment);
      const overW = Math.max(0, (told.meanW ?? 0) - (reading.bandW?.high ?? 0));
      return { moment, told, cost: lengthS(moment) * overW + (told.pauseS ?? 0) * (told.targetW ?? 0) };
    })
    .sort((one, other) => other.cost - one.cost);
}

function exampleOf(
  point: TeachingPoint,
  ride: Ride,
  reading: Reading,
  facts: DebriefFacts,
  moments: readonly Moment[],
): DebriefStory["example"] {
  if (point === "efforts") {
    const [longest] = moments.filter(({ kind }) => kind === "effortShort").sort((a, b) => lengthS(b) - lengthS(a));
    const meanW = longest === undefined ? null : momentFacts(ride, reading, facts, longest).meanW;
    return longest === undefined || meanW === null
      ? null
      : { startS: longest.startS, forS: lengthS(longest), meanW, offS: null };
  }
  if (!["offOverTop", "rises", "surges", "tooHard"].includes(point)) return null;
  const known = surgesByCost(ride, reading, facts, moments).filter(
    ({ moment, told }) =>
      (point !== "offOverTop" || told.pauseS !== null) && (point !== "rises" || moment.reason === "on a rise"),
  );
  const best = known[0];
  if (best === undefined || best.told.meanW === null || lengthS(best.moment) < LEAST_EXAMPLE_S) return null;
  const { moment, told } = best;
  return { startS: moment.startS, forS: lengthS(moment), meanW: best.told.meanW, offS: told.pauseS };
}

/**
 * What this ride has to teach: the best true thing, the one thing to change that cost most (seconds above the plan with
 * the pauses after them, seconds without pressure where the road is free, below the plan, another cadence, beats of
 * drift; size decides), and one step from what was held. Breaks that the road explains never count. Where the rider's
 * note comes first, nothing is taught.
 * `words` are the coach's own lines in place of the made ones; `nextS` the coach's own length of the next ride.
 */
export function tellStory(
  ride: Ride,
  plan: Plan,
  reading: Reading,
  facts: DebriefFacts,
  coach: {
    readonly words?: Partial<DebriefStory["words"]>;
    readonly nextS?: number | null;
  } = {},
): DebriefStory {
  const moments = reading.moments.filter((moment) => !moment.coachOnly);
  const rests = facts.hold !== null;
  // A coach who says how long the next ride is keeps the target.
  const doubt = (coach.nextS ?? null) === null ? facts.targetDoubt : null;
  const chosen = rests
    ? undefined
    : costs(plan, reading, facts, moments).find(({ point }) => doubt === null || !BY_THE_PLAN.has(point));
  const teaching = rests ? "rest" : (chosen?.point ?? "nothing");
  const { times = 0, lostS = null, percent = null }: Partial<Cost> = chosen ?? {};
  const { drift } = reading;
  const began = !rests && drift.verdict === "began";
  const canTell = facts.drift?.canTell === true;
  const told = {
    facts,
    setting: plan.setting,
    hasPower: ride.grid.power !== null,
    hasHeart: ride.grid.heartRate !== null,
    held: bestOf(ride, plan, reading, facts, moments, teaching, percent),
    teaching,
    times,
    lostS,
    percent,
    example: exampleOf(teaching, ride, reading, facts, moments),
    targetW: ride.grid.power === null ? null : (reading.bandW?.target ?? plan.targetW),
    heartBand:
      plan.heartLowBpm === null || plan.heartHighBpm === null || ride.grid.heartRate === null
        ? null
        : { lowBpm: plan.heartLowBpm, highBpm: plan.heartHighBpm },
    onsetS: began ? drift.onsetS : null,
    onsetLowS: began ? drift.onsetLowS : null,
    onsetHighS: began ? drift.onsetHighS : null,
    doubt,
    driftBeats: canTell ? facts.drift.beats : null,
    driftGiveOrTake: canTell ? facts.drift.giveOrTake : null,
    heldLowS: canTell ? reading.target.heldLowS : null,
    heldHighS: canTell ? reading.target.heldHighS : null,
  };
  const next = nextStep(reading, told, coach.nextS ?? null);
  return {
    ...told,
    next,
    event: eventOf(ride, plan, reading, told, next),
    words: { held: coach.words?.held ?? null, change: coach.words?.change ?? null, next: coach.words?.next ?? null },
  };
}
