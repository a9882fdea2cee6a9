import { aboutText } from "./aboutText.ts";
import { clockText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { DebriefPhrases, HeartFacts, MomentFacts, PowerText } from "./debriefPhrases.ts";
import { harderAtTheEndW, heartStory, saysNothingMore, type HeartStory } from "./heartStory.ts";
import { NOW } from "./restEn.ts";
import { firstOf } from "./restFirst.ts";
import { askedSkills, skillRows } from "./skillWords.ts";
import type { Voice } from "./voice.ts";
import { shownRise } from "./reading/shownRise.ts";
import { driftLine } from "./driftLine.ts";
import type { DriftFacts } from "../../main/contract/debriefFacts.ts";
import { beats, lowerFirst, times } from "./linesEn.ts";

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
  effortShort: "Planned effort, below the plan",
  ownMoment: "A moment to look at",
  plainMoment: "A moment of the ride",
};

/** A moment's name, by its kind. */
export const momentName = (kind: string, who: Voice): string =>
  kind === "marked" ? who("Marked by you", "Marked by the rider") : (MOMENT_NAMES[kind] ?? kind);

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

/** A planned effort, or the part of it that is shown. */
const effortText = ({ whole: all, startS, endS, meanW }: MomentFacts, planned: string, power: PowerText): string =>
  `${all ? `${length(endS - startS)} at` : "Here"} ${power(meanW ?? 0)}${planned}`;

/** The coach's own words on why; a reason of the reading's may blame. */
const ownReason = ({ setByCoach, reason }: MomentFacts, who: Voice): string[] =>
  setByCoach && reason !== "" && reasons(who)[reason] === undefined ? [reason] : [];

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
        moment.meanW === null ? "Up the rise" : `Up the rise: ${power(moment.meanW)}${planned}`,
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
    case "effortShort":
      return [moment.meanW === null ? momentName(moment.kind, who) : effortText(moment, planned, power)];
    case "plainMoment":
      return [momentName(moment.kind, who), ...ownReason(moment, who)];
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

/** English: what the film says. */
export const filmEn = (power: PowerText, who: Voice): DebriefPhrases["film"] => ({
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
    // Where nothing counts, that is said elsewhere: no plan asks for 0 s.
    ...(plan.mainS < 1 ? [] : [{ label: "main part", value: length(plan.mainS) }]),
    ...skillRows(askedSkills(plan.skills), "en"),
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
});
