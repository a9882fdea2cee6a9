import { aboutText } from "./aboutText.ts";
import { clockText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { DebriefPhrases, HeartFacts, MomentFacts, PowerText } from "./debriefPhrases.ts";
import { harderAtTheEndW, heartStory, saysNothingMore, type HeartStory } from "./heartStory.ts";
import { pageEn } from "./pageEn.ts";
import { byBlocks, type DebriefStory, littleCounts, SHORT_RECORDING_S, swings } from "./debriefStory.ts";
import { FIRST, NOW, restLine } from "./restEn.ts";
import { firstOf } from "./restFirst.ts";
import { skillRows, skillWords } from "./skillWords.ts";
import type { Voice } from "./voice.ts";
import { shownRise } from "./reading/shownRise.ts";
import { rideDateText } from "./dateText.ts";
import { driftLine } from "./driftLine.ts";
import type { DriftFacts } from "../../main/contract/debriefFacts.ts";
import type { TargetDoubt } from "../../main/contract/reading.ts";

const times = (count: number): string => (count === 1 ? "once" : count === 2 ? "twice" : `${count} times`);
const beats = (value: number): string => `${whole(value)} ${Math.abs(Math.round(value)) === 1 ? "beat" : "beats"}`;

const MOMENT_NAMES: Record<string, string> = {
  riseThenOff: "Above the plan uphill, then no pressure",
  breakRun: "Pressure gone again and again",
  lapse: "Pressure gone",
  surge: "Well above the plan",
  driftOnset: "The heart starts to climb",
  oddHeart: "Heart rate to look at",
  steadyStretch: "Pressure kept on",
  turn: "Tight turn",
  cadenceBlock: "Other cadence",
  ownMoment: "A moment to look at",
};

const momentName = (kind: string, who: Voice): string =>
  kind === "marked" ? who("Marked by you", "Marked by the rider") : (MOMENT_NAMES[kind] ?? kind);
const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

const reasons = (who: Voice): Readonly<Record<string, string>> => ({
  stopped: who("You had stopped", "The rider had stopped"),
  corner: "A corner",
  braking: who("You were braking", "The rider was braking"),
  "steep descent": "A steep descent",
  "slowed, cause not in the data": `Something slowed ${who("you", "the rider")} down`,
  unexplained: "The ride file shows no reason",
  "cannot tell": "The ride file cannot tell why",
  "planned rest": "A planned rest",
});

function heldLine(story: DebriefStory, power: PowerText, who: Voice): string {
  if (story.words.held !== null) return story.words.held;
  const { held } = story;
  const from = (span: { startS: number; endS: number }): string =>
    `from ${clockText(span.startS)} to ${clockText(span.endS)}`;
  const rider = who("You", "The rider");
  // Its length has the stops in it.
  const rode = story.setting === "trainer" ? `${rider} rode` : who("You were out", "The rider was out");
  const began = `${rider} made the time`;
  const whose = who("Your", "The rider's");
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
      return `${rider} practised as asked: ${lowerFirst(skillWords("en").names[held.skill])}, ${times(held.done)}.`;
    case "smooth":
      return `${whose} power was even: ${power(held.lowW)} to ${power(held.highW)} for nine tenths of the time on the pedals.`;
    case "better":
      return held.what === "inBand"
        ? `${rider} rode ${atPlan(story)} for ${whole(held.now)} % of the main part, after ${whole(held.before)} % on your last ride like this.`
        : `${rider} kept the pressure on more: ${perHour(held.now)} breaks an hour, after ${perHour(held.before)} on your last ride like this.`;
    case "heat":
      return `${rode} for ${length(held.durationS)} in the heat.`;
    case "told":
      return "You said how you were: that helps more than any number here.";
    case "back":
      return `You are back after ${held.days} days: ${lowerFirst(rode)} for ${length(held.durationS)}.`;
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

function changeLine(story: DebriefStory, power: PowerText, who: Voice): string {
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
        : `Nothing to change on this ride: ${FIRST[firstOf(story.facts.hold)]}.`;
  }
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

function nextLine(story: DebriefStory, power: PowerText, who: Voice): string {
  if (story.words.next !== null) return story.words.next;
  const { next } = story;
  const what = asked(story, power);
  const ride = who("Ride", "For the rider: ride");
  const before = next.kind === "rest" || next.kind === "no plan" || next.kind === "target" ? "" : askedLast(story);
  switch (next.kind) {
    case "rest":
      return restLine(next.topics);
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
        rose: ", a little easier at the start",
      }[next.because];
      return `${before}${ride} ${what} for ${length(next.askS)} once more${why}.`;
    }
  }
}

function compareLine({ facts }: DebriefStory): string | null {
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

function caption(moment: MomentFacts, power: PowerText, who: Voice): string[] {
  const lengthS = moment.endS - moment.startS;
  const planned = moment.targetW === null ? "" : `, planned ${power(moment.targetW)}`;
  const known = moment.setByCoach && moment.reason !== "" ? moment.reason : reasons(who)[moment.reason];
  const reason = known === undefined ? [] : [known];
  switch (moment.kind) {
    case "steadyStretch":
      return [
        moment.whole ? `Pressure kept on for ${length(lengthS)}` : `Pressure kept on: ${length(lengthS)} in all`,
        ...(moment.meanW === null ? [] : [`${moment.whole ? "" : "Here "}${power(moment.meanW)} on average`]),
      ];
    case "riseThenOff":
      return [
        moment.meanW === null
          ? "Up the rise"
          : moment.targetW !== null && moment.meanW > moment.targetW
            ? `Up the rise: ${power(moment.meanW)}${planned}`
            : `Up the rise: ${power(moment.meanW)}${planned}`,
        moment.offS === null ? "Then the pressure is gone" : `Then no pressure for ${length(moment.offS)}`,
        ...(moment.times === null || moment.rises === null || moment.times < 2
          ? []
          : [`The same on ${moment.times} of ${moment.rises} rises`]),
      ];
    case "breakRun":
      return [
        moment.breaks === null || !moment.whole
          ? "Pressure goes again and again"
          : `Pressure gone ${times(moment.breaks)} in ${length(lengthS)}`,
        ...reason,
      ];
    case "lapse":
      return [moment.offS === null ? "No pressure here" : `No pressure for ${length(moment.offS)}`, ...reason];
    case "surge":
      return [
        moment.meanW === null
          ? "Well above the plan"
          : moment.whole
            ? `${length(lengthS)} at ${power(moment.meanW)}${planned}`
            : `Here ${power(moment.meanW)}${planned}`,
        ...(moment.pauseS === null ? [] : [`Then no pressure for ${length(moment.pauseS)}`]),
      ];
    case "driftOnset":
      return [
        "From about here the heart climbs",
        ...(moment.driftBeats === null ? [] : [`${beats(moment.driftBeats)} by the end, at the same power`]),
      ];
    case "oddHeart":
      return [
        moment.meanBpm === null
          ? "A heart rate to look at"
          : `Heart rate ${whole(moment.meanBpm)}: is that the sensor?`,
      ];
    case "cadenceBlock":
      return [
        moment.meanRpm === null
          ? "Another cadence here"
          : `${moment.whole ? "" : "Here "}${moment.whole ? "Cadence" : "cadence"} ${whole(moment.meanRpm)}${moment.whole ? ` for ${length(lengthS)}` : ""}`,
      ];
    case "turn":
      return ["A tight turn: look through it"];
    case "marked":
      return [
        who("You pressed lap here", "The rider pressed lap here"),
        who("What did you feel?", "What made it worth a mark?"),
      ];
    default:
      return [moment.setByCoach && moment.reason !== "" ? moment.reason : momentName(moment.kind, who)];
  }
}

const CLIMB: Record<Exclude<HeartStory, "began">, string> = {
  "start unclear": "It climbed; when that began is not clear",
  "rose from the start": "It rose from the start",
  unsteady: "In between there is no steady climb",
  "within noise": "One ride cannot tell that from no change",
  level: "It stayed level",
  "no start": "Too little data to say when it began to climb",
  "no data": "Too little data to say if it climbed",
};

function heartCardLines(heart: HeartFacts, drift: DriftFacts | null, power: PowerText, who: Voice): string[] {
  const story = heartStory(heart);
  const climb =
    story === "began"
      ? `Climbing from about ${aboutText(heart.onsetS)} (between ${aboutText(heart.onsetLowS)} and ${aboutText(heart.onsetHighS)})`
      : CLIMB[story];
  const rise = shownRise(heart.firstBpm, heart.lastBpm);
  if (rise === null) return [climb];
  const harderW = harderAtTheEndW(heart);
  const why =
    harderW === null || harderW === 0
      ? ""
      : ` (${who("you", "the rider")} pushed ${power(Math.abs(harderW))} ${harderW > 0 ? "harder" : "less"} at the end)`;
  const change = (value: number): string =>
    Math.round(value) === 0 ? "the same" : `${beats(Math.abs(value))} ${value > 0 ? "more" : "fewer"}`;
  return [
    `Heart rate ${whole(heart.firstBpm)} early on, ${whole(heart.lastBpm)} at the end: ${change(rise.beats)}`,
    ...driftLine(heart, drift, {
      told: (facts) => `At the same power: ${change(facts.beats)}, give or take ${whole(facts.giveOrTake)}${why}`,
      cannot: () => `At the same power: this ride can't tell${why}`,
    }),
    ...(saysNothingMore(heart, drift) ? [] : [climb]),
  ];
}

/** English: the complete table. */
export const debriefEn = (power: PowerText, who: Voice): DebriefPhrases => ({
  language: "en",
  heldLine: (story) => heldLine(story, power, who),
  changeLine: (story) => changeLine(story, power, who),
  nextLine: (story) => nextLine(story, power, who),
  compareLine,
  momentName: (kind) => momentName(kind, who),
  page: pageEn(power, who),
  film: {
    titleFallback: who("Your ride", "A ride"),
    lessonTitle: "A ride to learn from",
    planTitle: "The plan",
    planRows: (plan) => [
      ...(plan.targetW === null
        ? []
        : [
            {
              label: "power",
              value:
                plan.lowW === null || plan.highW === null
                  ? `${power(plan.targetW)}`
                  : `${power(plan.targetW)} (${power(plan.lowW).replace(/ \S+$/, "")} to ${power(plan.highW).replace(/ \S+$/, "")})`,
            },
          ]),
      ...(plan.heartLowBpm === null || plan.heartHighBpm === null
        ? []
        : [{ label: "heart rate", value: `${whole(plan.heartLowBpm)} to ${whole(plan.heartHighBpm)}` }]),
      { label: "main part", value: length(plan.mainS) },
      ...skillRows(plan.skills, "en"),
      ...(plan.eventS === null ? [] : [{ label: plan.eventName ?? "event", value: length(plan.eventS) }]),
    ],
    changeTitle: "One thing to change",
    closingTitle: "The next ride",
    closingCaution:
      "Brake, coast and stop whenever the road asks. Touch neither camera nor bike computer while you move. " +
      "Not medical advice: stop and get help for chest pain, faintness or a racing heart.",
    compareTitle: "Beside an earlier ride",
    chartTitle: ({ hasPower, hasHeart }) =>
      hasPower && hasHeart ? "Power and heart rate" : hasPower ? "Power" : "Heart rate",
    heartLines: (heart, drift) => heartCardLines(heart, drift, power, who),
    holdCaption: (story, meanW) => [
      story.facts.judgedBy === "heart"
        ? `Here ${who("your", "the rider's")} heart rate was in the planned range`
        : "Here the pressure was steady",
      ...(story.facts.hold !== null
        ? [NOW[firstOf(story.facts.hold)]]
        : story.held.kind === "share"
          ? [
              `${whole(story.held.percent)} % of the main part ${story.facts.judgedBy === "heart" ? "in the heart range" : "at the plan"}`,
            ]
          : meanW === null
            ? []
            : [`${power(meanW)} on average`]),
    ],
    here: "here",
    caption: (moment) => caption(moment, power, who),
    why: (item) => {
      const chart = "filmed" in item && !item.filmed ? "; no camera saw it, so it is a chart" : "";
      switch (item.kind) {
        case "title":
          return "says whose ride this is";
        case "plan":
          return "says what was asked";
        case "held":
          return `something that held comes first${chart}`;
        case "taught":
          return `shows the one teaching point (${lowerFirst(momentName(item.momentKind, who))}), number ${item.rank} among the moments${chart}`;
        case "onset":
          return `shows where the heart began to climb${chart}`;
        case "marked":
          return `shows what the rider marked with the lap button${chart}`;
        case "picked":
          return `picked by the coach: ${lowerFirst(momentName(item.momentKind, who))}${chart}`;
        case "beside by coach":
          return "picked by the coach: two rides on one road";
        case "beside":
          return "shows this ride beside an earlier one on the same road, which held there";
        case "heart":
          return "shows first reading, onset and last reading against power";
        case "compare":
          return "says what differs from the last ride like this";
        case "change":
          return "says the one thing to change";
        case "closing":
          return "says what the next ride is";
      }
    },
    leftOut: (left) => {
      if (left.kind === "clip")
        return `${left.file}: ${left.because === "not placed" ? "nothing places it on the ride" : "where it lies on the ride is not sure"}`;
      if (left.kind === "over length")
        return `the film is ${whole(left.lengthS)} s, not ${whole(left.wishedS)} s: shots under 6 s and unreadable cards teach nothing`;
      const because = {
        "other point": "it is not the one teaching point",
        "same point": "another one shows the same point",
        shots: "a film has at most six shots",
        length: "the wished length has no room for it",
        "coach only": "odd heart readings are for the coach until picked",
        dropped: "the coach dropped it",
        note: "the rider's note comes before any teaching",
      }[left.because];
      return `${momentName(left.momentKind, who)}, ${clockText(left.startS)}: ${because}`;
    },
  },
});
