import { aboutText } from "./aboutText.ts";
import { clockText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { PowerText } from "./debriefPhrases.ts";
import { byBlocks, type DebriefStory, littleCounts, SHORT_RECORDING_S, swings } from "./debriefStory.ts";
import { FIRST, RIDER_FIRST, restLine } from "./restEn.ts";
import { firstOf } from "./restFirst.ts";
import { skillWords } from "./skillWords.ts";
import type { Voice } from "./voice.ts";
import { rideDateText } from "./dateText.ts";
import type { TargetDoubt } from "../../main/contract/reading.ts";

export const times = (count: number): string => (count === 1 ? "once" : count === 2 ? "twice" : `${count} times`);
export const beats = (value: number): string =>
  `${whole(value)} ${Math.abs(Math.round(value)) === 1 ? "beat" : "beats"}`;
export const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

export function heldLine(story: DebriefStory, power: PowerText, who: Voice): string {
  if (story.words.held !== null) return story.words.held;
  const { held } = story;
  const from = (span: { startS: number; endS: number }): string =>
    `from ${clockText(span.startS)} to ${clockText(span.endS)}`;
  const rider = who("You", "The rider");
  // Its length has the stops in it.
  const rode = story.setting === "trainer" ? `${rider} rode` : who("You were out", "The rider was out");
  const began = `${rider} made the time`;
  const whose = who("Your", "The rider's");
  const your = who("your", "the");
  switch (held.kind) {
    case "blocks":
      return held.done === held.of
        ? `${rider} rode ${held.of === 1 ? "the planned effort" : `all ${held.of} efforts`} as asked.`
        : `${rider} rode ${held.done} of ${held.of} efforts as asked.`;
    case "hour":
      return `For an hour, ${from(held)}, ${who("you were", "the rider was")} ${atPlan(story)} ${whole(held.percent)} % of the time.`;
    case "stretch":
      return `${rider} kept the pressure on for ${length(held.endS - held.startS)}, ${from(held)}.`;
    case "share":
      return `${rider} rode ${atPlan(story)} for ${whole(held.percent)} % of the main part.`;
    case "rise":
      return `${rider} rode a rise of ${length(held.endS - held.startS)} evenly, ${from(held)}: ${power(held.meanW)}.`;
    case "level":
      return `${whose} heart rate stayed level at the same power for about ${aboutText(held.forS)}.`;
    case "cadence":
      return `${whose} cadence was even: between ${whole(held.lowRpm)} and ${whole(held.highRpm)} nine tenths of the time.`;
    case "skill":
      return `${rider} practised${held.asked ? " as asked" : ""}: ${lowerFirst(skillWords("en").names[held.skill])}, ${times(held.done)}.`;
    case "smooth":
      return `${whose} power was even: ${power(held.lowW)} to ${power(held.highW)} for nine tenths of the time on the pedals.`;
    case "better":
      return held.what === "inBand"
        ? `${rider} rode ${atPlan(story)} for ${whole(held.now)} % of the main part, after ${whole(held.before)} % on ${your} last ride like this.`
        : `${rider} kept the pressure on more: ${perHour(held.now)} breaks an hour, after ${perHour(held.before)} on ${your} last ride like this.`;
    case "heat":
      return `${rode} for ${length(held.durationS)} in the heat.`;
    case "told":
      return `${who("You said how you were", "The rider said how it went")}: that helps more than any number here.`;
    case "back":
      return `${who("You are", "The rider is")} back after ${held.days} days: ${lowerFirst(rode)} for ${length(held.durationS)}.`;
    case "unbroken":
      return `${rider} kept the pressure on for ${length(held.forS)} at a stretch.`;
    case "ridden":
      if (held.durationS < SHORT_RECORDING_S) return `This recording is ${length(held.durationS)} long.`;
      return story.setting === "trainer"
        ? `${began} and rode for ${length(held.durationS)}.`
        : `${began} and ${who("were", "was")} out for ${length(held.durationS)}.`;
  }
}

/** Breaks an hour, with one decimal where there is one. */
const perHour = (value: number): string => String(value);
const atPlan = ({ facts }: DebriefStory): string =>
  facts.judgedBy === "heart" ? "in the planned heart range" : "at the planned power";
const planText = (story: DebriefStory, power: PowerText): string =>
  story.facts.judgedBy === "heart" && story.heartBand !== null
    ? `the planned heart rate of ${whole(story.heartBand.lowBpm)} to ${whole(story.heartBand.highBpm)}`
    : story.targetW === null || byBlocks(story)
      ? "the plan"
      : `the planned ${power(story.targetW)}`;

/** `, for example 49 s at 275 W, then 16 s without pressure`; empty where nothing shows it. */
function exampleText({ example }: DebriefStory, power: PowerText): string {
  if (example === null) return "";
  const then = example.offS === null ? "" : `, then ${length(example.offS)} without pressure`;
  return `, for example ${length(example.forS)} at ${power(example.meanW)}${then}`;
}

export function changeLine(story: DebriefStory, power: PowerText, who: Voice): string {
  if (story.words.change !== null) return story.words.change;
  const plan = planText(story, power);
  const example = exampleText(story, power);
  const percent = `${whole(story.percent)} % of the main part`;
  const rode = who("you rode", "the rider rode");
  const was = who("you were", "the rider was");
  const legs = who("your", "the");
  const whose = who("your", "the rider's");
  const lost = story.lostS === null ? "" : `, ${length(story.lostS)} in all`;
  switch (story.teaching) {
    case "offOverTop":
      return `Start each rise lower: ${times(story.times)} ${rode} it well above ${plan}, no pressure over the top${example}.`;
    case "rises":
      return `Start each rise lower: above ${plan} for ${percent}, most of it uphill${example}.`;
    case "surges":
      return `Ride more evenly: above ${plan} for ${percent}, much of it in ${story.times} surges${example}.`;
    case "tooHard":
      return swings(story)
        ? `Ride more evenly: ${was} above ${plan} for ${percent} and below it for ${whole(story.facts.shares?.belowPercent ?? null)} %${example}.`
        : `Ride easier: ${was} above ${plan} for ${percent}${example}.`;
    case "breaks":
      return story.setting === "trainer"
        ? `Keep ${legs} legs turning under light pressure: it was gone ${times(story.times)}${lost}.`
        : `Where the road is free and level or rising, keep a light pressure on the pedals: it was gone there ${times(story.times)}${lost}.`;
    case "tooEasy":
      return story.setting === "trainer"
        ? `Ride a little closer to the plan: ${was} below ${plan} for ${percent}.`
        : `Where the road is free and level or rising, ride a little closer to the plan: ${was} below ${plan} for ${percent}.`;
    case "fade":
      return `Start easier, so that the end holds: power fell by ${whole(story.percent)} % from the first to the last hour.`;
    case "cadence":
      return `Keep ${legs} legs turning at one speed: ${whose} cadence left its usual range ${times(story.times)}.`;
    case "efforts":
      return (
        `${story.setting === "trainer" ? "Ride" : "Where the road is free, ride"} each planned effort as asked: ` +
        `${someOf(story)} stayed below the plan${example}. If that was too much, ${who("tell your coach", "the coach should know")}.`
      );
    case "drift":
      return story.onsetS === null
        ? `Begin a little easier: at the same power ${whose} heart rate was ${beats(story.driftBeats ?? 0)} higher at the end, ` +
            `give or take ${whole(story.driftGiveOrTake)}.`
        : `Begin a little easier: ${whose} heart rate began to climb ${climbText(story)}.`;
    case "nothing":
      return nothingLine(story);
    case "rest":
      return story.facts.hold === null
        ? "This ride is shown without anything to change."
        : `Nothing to change on this ride: ${who(FIRST[firstOf(story.facts.hold)], RIDER_FIRST[firstOf(story.facts.hold)])}.`;
  }
}

/** `2 of 5`, of planned efforts. */
function someOf({ times: missed, facts }: DebriefStory): string {
  const of = facts.blocks.filter(({ kind }) => kind === "effort").length;
  if (of <= 1) return "this one";
  return missed >= of ? (of === 2 ? "both" : `all ${of}`) : `${missed} of ${of}`;
}

/** The beginning of a climb as the interval that it is; the coach's own is one time. */
function climbText({ onsetS, onsetLowS, onsetHighS }: DebriefStory): string {
  return onsetLowS === null || onsetHighS === null || onsetLowS === onsetHighS
    ? `at about ${aboutText(onsetS)}`
    : `somewhere between ${aboutText(onsetLowS)} and ${aboutText(onsetHighS)}`;
}

function nothingLine(story: DebriefStory): string {
  const { facts } = story;
  if (story.doubt !== null) return "Nothing is judged by the plan: what it asks for does not fit what was ridden.";
  if (facts.mainS < SHORT_RECORDING_S)
    return littleCounts(story)
      ? "Too little of this ride counts to say what to change."
      : "This recording is too short to say what to change.";
  if (facts.judgedBy === null) return "There was no plan to hold this ride against.";
  if (facts.shares === null) return "Too little of this ride is known to hold it against its plan.";
  return facts.shares.inPercent >= 60
    ? "Nothing to change: this ride was as asked."
    : "No one thing stands out: come a little closer to the plan.";
}

/** What is asked for: `at 160 W`, or at the heart range. */
function asked(story: DebriefStory, power: PowerText): string {
  if (byBlocks(story)) return "as planned";
  if (story.targetW !== null) return `at ${power(story.targetW)}`;
  if (story.heartBand !== null)
    return `at a heart rate of ${whole(story.heartBand.lowBpm)} to ${whole(story.heartBand.highBpm)}`;
  return "as planned";
}

/** What the plan aims at, by its name. */
function aim(story: DebriefStory, power: PowerText): string {
  const { targetW, heartBand } = story;
  if (byBlocks(story)) return "the plan";
  if (targetW !== null) return power(targetW);
  return heartBand === null ? "the plan" : `a heart rate of ${whole(heartBand.lowBpm)} to ${whole(heartBand.highBpm)}`;
}

/** What was asked and what was ridden. */
const doubtText = (doubt: TargetDoubt, power: PowerText): string =>
  doubt.by === "power"
    ? `${power(doubt.askedW)} was asked, ${power(doubt.riddenW)} was ridden on average`
    : `a heart rate of ${doubt.lowBpm} to ${doubt.highBpm} was asked, ${doubt.riddenBpm} was ridden on average`;

/** `Asked 1 h 30 min last time: held 1 h 20 min to 1 h 35 min.` Empty where nothing was asked. */
function askedLast({ facts, heldLowS, heldHighS }: DebriefStory): string {
  if (facts.askedLastS === null) return "";
  const held =
    heldLowS === null
      ? `ridden ${length(facts.mainS)}, how long it was held this ride can't tell`
      : heldHighS === null
        ? `held at least ${aboutText(heldLowS)}`
        : heldHighS === heldLowS
          ? `held ${aboutText(heldLowS)}`
          : `held ${aboutText(heldLowS)} to ${aboutText(heldHighS)}`;
  return `Asked ${length(facts.askedLastS)} last time: ${held}. `;
}

export function nextLine(story: DebriefStory, power: PowerText, who: Voice): string {
  if (story.words.next !== null) return story.words.next;
  const { next } = story;
  const what = asked(story, power);
  const ride = who("Ride", "For the rider: ride");
  const before = next.kind === "rest" || next.kind === "no plan" || next.kind === "target" ? "" : askedLast(story);
  switch (next.kind) {
    case "rest":
      return restLine(next.topics, who);
    case "target":
      return `${who("Talk with your coach about the target first", "First the rider and the coach settle the target")}: ${doubtText(next.doubt, power)}.`;
    case "not known":
      return `${before}Too little of this ride is known to plan by${who(": ask your coach what comes next", "")}.`;
    case "coach":
      return `${before}${ride} ${what} for ${length(next.askS)}.`;
    case "too short":
      return (
        `${before}${littleCounts(story) ? "Too little of this ride counts" : "This recording is too short"} to plan by` +
        `${who(": ask your coach what comes next", "")}.`
      );
    case "no plan":
      return who(
        "Agree with your coach what the next ride is for: this one had no plan to go on from.",
        "What comes next, the rider and the coach decide.",
      );
    case "enough":
      return `${before}${ride} ${what} for ${length(next.askS)} again: that is as long as ${story.event?.name ?? who("your event", "the event")} asks for.`;
    case "longer":
      return `${before}${ride} ${what} for ${length(next.askS)}, ${length(next.moreS)} longer than this time.`;
    case "same": {
      if (next.because === "far")
        return (
          `${before}${ride} for ${length(next.askS)} once more, closer to ${aim(story, power)}: ` +
          `this time ${who("you were", "the rider was")} there for ${whole(story.facts.shares?.inPercent ?? null)} % of the main part.`
        );
      const why = {
        change: story.teaching === "nothing" ? ", closer to the plan" : ", with this one change",
        "can't tell": `: how long ${who("your", "the rider's")} heart held, this ride can't tell`,
        // Beside "nothing to change" no change is asked for.
        rose:
          story.teaching === "nothing"
            ? `: ${who("your", "the rider's")} heart rate climbed on the way, so the time stays the same`
            : ", a little easier at the start",
      }[next.because];
      return `${before}${ride} ${what} for ${length(next.askS)} once more${why}.`;
    }
  }
}

export function compareLine({ facts }: DebriefStory): string | null {
  const { lastLike } = facts;
  // A ride ridden unwell is beside no other.
  if (lastLike === null || facts.hold !== null) return null;
  const { inBand, breaksAnHour, heart } = lastLike;
  const parts = [
    ...(inBand === null ? [] : [`${whole(inBand.now)} % at the plan, after ${whole(inBand.before)} %`]),
    ...(breaksAnHour === null
      ? []
      : [`${perHour(breaksAnHour.now)} long breaks an hour, after ${perHour(breaksAnHour.before)}`]),
    ...(heart === null
      ? []
      : [
          `heart rate early on ${beats(Math.abs(heart.beats))} ${heart.beats > 0 ? "higher" : "lower"} ` +
            `at the same power, give or take ${whole(heart.giveOrTake)}`,
        ]),
  ];
  if (parts.length === 0) return null;
  return `Beside your last ride like this (${rideDateText(lastLike.startUtcMs, null, "en")}): ${parts.join("; ")}.`;
}
