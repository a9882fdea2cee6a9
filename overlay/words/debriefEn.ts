import { aboutText } from "./aboutText.ts";
import { clockText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { DebriefPhrases, HeartFacts, MomentFacts, PowerText } from "./debriefPhrases.ts";
import { harderAtTheEndW, heartStory, type HeartStory } from "./heartStory.ts";
import { pageEn } from "./pageEn.ts";
import type { DebriefStory } from "./debriefStory.ts";
import { shownRise } from "./reading/shownRise.ts";

const times = (count: number): string => (count === 1 ? "once" : count === 2 ? "twice" : `${count} times`);
const beats = (value: number): string => `${whole(value)} ${Math.abs(Math.round(value)) === 1 ? "beat" : "beats"}`;

const MOMENT_NAMES: Record<string, string> = {
  hardUpCoastOver: "Hard up, then freewheeling",
  breakRun: "Pressure gone again and again",
  lapse: "Pressure gone",
  surge: "Well above the plan",
  driftOnset: "The heart starts to climb",
  oddHeart: "Heart rate to look at",
  steadyStretch: "Pressure kept on",
  turn: "Tight turn",
  cadenceBlock: "Other cadence",
  marked: "Marked by you",
  ownMoment: "A moment to look at",
};

const momentName = (kind: string): string => MOMENT_NAMES[kind] ?? kind;
const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

const REASONS: Record<string, string> = {
  stopped: "You had stopped",
  corner: "A corner",
  braking: "You were braking",
  "steep descent": "A steep descent",
  "slowed, cause not in the data": "Something slowed you down",
  unexplained: "The ride file shows no reason",
  "cannot tell": "The ride file cannot tell why",
  "planned rest": "A planned rest",
};

function heldLine(story: DebriefStory): string {
  if (story.words.held !== null) return story.words.held;
  const held = story.held;
  if (held.kind === "stretch")
    return `You kept the pressure on for ${length(held.endS - held.startS)}, from ${clockText(held.startS)} to ${clockText(held.endS)}.`;
  if (held.kind === "share") return `You rode at the planned power for ${whole(held.percent)} % of the main part.`;
  return `You rode for ${length(held.durationS)} and recorded it all.`;
}

function changeLine(story: DebriefStory, power: PowerText): string {
  if (story.words.change !== null) return story.words.change;
  const plan = story.targetW === null ? "the plan" : `the planned ${power(story.targetW)}`;
  const lost = story.lostS === null ? "" : `, ${length(story.lostS)} in all`;
  switch (story.teaching) {
    case "coastOver":
      return `Keep pressing over the top of a rise: you pushed hard up it, and then there was no pressure on the pedals, ${times(story.times)}.`;
    case "breaks":
      return `Keep a light pressure on the pedals: it was gone ${times(story.times)}${lost}, and the file shows no reason.`;
    case "surges":
      return `Start each rise gently: you went far above ${plan} ${times(story.times)}.`;
    case "tooHard":
      return `Ride easier: you were above ${plan} for ${whole(story.percent ?? 0)} % of the main part.`;
    case "tooEasy":
      return `Press a little more: you were below ${plan} for ${whole(story.percent ?? 0)} % of the main part.`;
    case "cadence":
      return `Keep your legs turning at one speed: your cadence left its usual range ${times(story.times)}.`;
    case "drift":
      return story.onsetS === null
        ? "Your heart rate climbed" +
            `${story.driftBeats === null ? "" : ` ${beats(story.driftBeats)} at the same power`}: start a little ` +
            "easier and see if it stays down."
        : `Your heart rate began to climb ${climbText(story)}: start a little easier and see if it comes later.`;
    default:
      return "Nothing to change: ride the next one the same way.";
  }
}

/** The beginning of a climb as the interval that it is; the coach's own is one time. */
function climbText({ onsetS, onsetLowS, onsetHighS }: DebriefStory): string {
  return onsetLowS === null || onsetHighS === null || onsetLowS === onsetHighS
    ? `at about ${aboutText(onsetS)}`
    : `somewhere between ${aboutText(onsetLowS)} and ${aboutText(onsetHighS)}`;
}

function nextLine(story: DebriefStory, power: PowerText): string {
  if (story.words.next !== null) return story.words.next;
  const plan = story.targetW === null ? "Ride the same plan" : `Ride ${power(story.targetW)} again`;
  const event = story.event;
  if (event !== null) {
    const name = event.name ?? "your event";
    if (event.heldLowS !== null && event.heldLowS >= event.leastS)
      return `${plan}: your heart held long enough for ${name}, so keep it there.`;
    return `${plan}, and build up to ${length(event.leastS)} before the heart climbs: that is what ${name} asks for.`;
  }
  return story.teaching === "nothing" || story.teaching === "drift" ? `${plan}.` : `${plan}, with this one change.`;
}

const SHORT: Record<DebriefStory["teaching"], string> = {
  coastOver: "Keep pressing over the top",
  breaks: "Keep a light pressure on the pedals",
  surges: "Start each rise gently",
  tooHard: "Ride easier",
  tooEasy: "Press a little more",
  cadence: "Keep your legs turning at one speed",
  drift: "Start a little easier",
  nothing: "Ride the next one the same way",
};

function caption(moment: MomentFacts, power: PowerText): string[] {
  const lengthS = moment.endS - moment.startS;
  const planned = moment.targetW === null ? [] : [`The plan was ${power(moment.targetW)}`];
  const reason =
    moment.setByCoach && moment.reason !== ""
      ? [moment.reason]
      : moment.reason in REASONS
        ? [REASONS[moment.reason]]
        : [];
  switch (moment.kind) {
    case "steadyStretch":
      return [
        `Pressure kept on for ${length(lengthS)}`,
        ...(moment.meanW === null ? [] : [`${power(moment.meanW)} on average`]),
      ];
    case "hardUpCoastOver":
      return [
        moment.meanW === null
          ? "Hard up the rise"
          : `Hard up the rise: ${power(moment.meanW)}${moment.targetW === null ? "" : `, planned ${power(moment.targetW)}`}`,
        moment.offS === null ? "Then the pressure is gone" : `Then no pressure for ${length(moment.offS)}`,
        ...(moment.times === null || moment.rises === null || moment.times < 2
          ? []
          : [`The same on ${moment.times} of ${moment.rises} rises`]),
      ];
    case "breakRun":
      return [
        moment.breaks === null
          ? "Pressure goes again and again"
          : `Pressure gone ${times(moment.breaks)} in ${length(lengthS)}`,
        ...reason,
      ];
    case "lapse":
      return [`No pressure for ${length(lengthS)}`, ...reason];
    case "surge":
      return [moment.peakW === null ? "Far above the plan" : `${power(moment.peakW)} here`, ...planned];
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
        moment.meanRpm === null ? "Another cadence here" : `Cadence ${whole(moment.meanRpm)} for ${length(lengthS)}`,
      ];
    case "turn":
      return ["A tight turn: look through it"];
    case "marked":
      return ["You pressed lap here", "What did you feel?"];
    default:
      return [moment.setByCoach && moment.reason !== "" ? moment.reason : momentName(moment.kind)];
  }
}

const CLIMB: Record<Exclude<HeartStory, "began">, string> = {
  "start unclear": "It climbed; when that began is not clear",
  "rose from the start": "It climbed slowly from the start",
  unsteady: "In between there is no steady climb",
  "within noise": "One ride cannot tell that from no change",
  level: "It stayed level",
  "no start": "Too little data to say when it began to climb",
  "no data": "Too little data to say if it climbed",
};

function heartCardLines(heart: HeartFacts, power: PowerText): string[] {
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
      : ` (you pushed ${power(Math.abs(harderW))} ${harderW > 0 ? "harder" : "less"} at the end)`;
  const change = (value: number): string =>
    Math.round(value) === 0 ? "the same" : `${beats(Math.abs(value))} ${value > 0 ? "more" : "less"}`;
  return [
    `Heart rate ${whole(heart.firstBpm)} early on, ${whole(heart.lastBpm)} at the end: ${change(rise.beats)}`,
    ...(heart.correctedForPower && heart.driftBeats !== null
      ? [`At the same power: ${change(heart.driftBeats)}${why}`]
      : []),
    climb,
  ];
}

/** English: the complete table. */
export const debriefEn = (power: PowerText): DebriefPhrases => ({
  language: "en",
  heldLine,
  changeLine: (story) => changeLine(story, power),
  nextLine: (story) => nextLine(story, power),
  changeShort: (story) => (story.words.change === null ? SHORT[story.teaching] : story.words.change),
  momentName,
  page: pageEn(power),
  film: {
    titleFallback: "Your ride",
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
      { label: "main part", value: length(plan.countedEndS - plan.countedStartS) },
      ...(plan.eventS === null ? [] : [{ label: plan.eventName ?? "event", value: length(plan.eventS) }]),
    ],
    changeTitle: "One thing to change",
    closingTitle: "The next ride",
    closingCaution:
      "Brake, coast and stop whenever the road asks. Not medical advice: stop and get help for chest pain, faintness or a racing heart.",
    heartTitle: "Power and heart rate",
    heartLines: (heart) => heartCardLines(heart, power),
    holdCaption: (story, meanW) => [
      "This went well: steady pressure",
      ...(story.held.kind === "share"
        ? [`${whole(story.held.percent)} % of the main part at the plan`]
        : meanW === null
          ? []
          : [`${power(meanW)} on average`]),
    ],
    here: "here",
    caption: (moment) => caption(moment, power),
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
          return `shows the one teaching point (${lowerFirst(momentName(item.momentKind))}), number ${item.rank} among the moments${chart}`;
        case "onset":
          return `shows where the heart began to climb${chart}`;
        case "marked":
          return `shows what the rider marked with the lap button${chart}`;
        case "picked":
          return `picked by the coach: ${lowerFirst(momentName(item.momentKind))}${chart}`;
        case "heart":
          return "shows first reading, onset and last reading against power";
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
      }[left.because];
      return `${momentName(left.momentKind)}, ${clockText(left.startS)}: ${because}`;
    },
  },
});
