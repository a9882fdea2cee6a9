import type { DriftFacts } from "../../main/contract/debriefFacts.ts";
import { aboutText } from "./aboutText.ts";
import { rideDateText } from "./dateText.ts";
import { driftLine } from "./driftLine.ts";
import { clockText, distanceText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { HeartFacts, MomentFacts, PagePhrases, PowerText } from "./debriefPhrases.ts";
import { harderAtTheEndW, heartStory, saysNothingMore, type HeartStory } from "./heartStory.ts";
import { firstOf } from "./restFirst.ts";
import type { Voice } from "./voice.ts";
import { shownRise } from "./reading/shownRise.ts";

const percent = (value: number | null): string => (value === null ? "–" : `${whole(value)} %`);
/** Without its unit. */
const number = (text: string): string => text.replace(/ \S+$/, "");
const beats = (value: number): string =>
  `${whole(Math.abs(value))} ${Math.abs(Math.round(value)) === 1 ? "beat" : "beats"}`;
const change = (value: number): string =>
  Math.round(value) === 0 ? "the same" : `${beats(value)} ${value > 0 ? "more" : "fewer"}`;

const CLIMB: Record<Exclude<HeartStory, "began">, string> = {
  "start unclear": "It did climb, but this ride cannot show when that began.",
  "rose from the start": "It rose from the start.",
  unsteady: "In between there is no steady climb.",
  "within noise": "One ride cannot tell that from no change.",
  level: "It stayed level to the end.",
  "no start": "There is too little data to say when it began to climb.",
  "no data": "There is too little data to say if it climbed.",
};

function climb(heart: HeartFacts): string {
  const story = heartStory(heart);
  return story === "began"
    ? `It began to climb at about ${aboutText(heart.onsetS)}, some time between ${aboutText(heart.onsetLowS)} and ${aboutText(heart.onsetHighS)}.`
    : CLIMB[story];
}

function heartSentences(heart: HeartFacts, drift: DriftFacts | null, power: PowerText, who: Voice): string[] {
  const rise = shownRise(heart.firstBpm, heart.lastBpm);
  if (rise === null) return [climb(heart)];
  const harderW = harderAtTheEndW(heart);
  const why =
    harderW === null || harderW === 0
      ? ""
      : `: at the end ${who("you", "the rider")} pushed ${power(Math.abs(harderW))} ${harderW > 0 ? "harder" : "less"}`;
  const same = driftLine(heart, drift, {
    told: (facts) =>
      `At the same power it would be ${change(facts.beats)}, give or take ${beats(facts.giveOrTake)}${why}.`,
    cannot: () => `What it would be at the same power, this ride can't tell${why}.`,
  });
  return [
    `${who("Your", "The rider's")} heart rate was ${whole(heart.firstBpm)} early on and ${whole(heart.lastBpm)} at the end: ${change(rise.beats)}.`,
    ...(heart.correctedForPower || heart.driftBeats === null
      ? same
      : ["The file has no power, so easier or harder riding is in that number too."]),
    ...(saysNothingMore(heart, drift) ? [] : [climb(heart)]),
  ];
}

const DOCTOR = "Have you spoken to a doctor, or do you want to?";

/** English page and message. */
export const pageEn = (power: PowerText, who: Voice): PagePhrases => ({
  three: "In three lines",
  wentWell: "What went well",
  toChange: "What to change",
  nextRide: "The next ride",
  planAndRide: "The plan and the ride",
  columns: ["", "Plan", who("You rode", "Ridden")],
  rows: (facts) => {
    const { plan } = facts;
    const distance = distanceText(facts.distanceM, facts.units);
    const band =
      plan.lowW === null || plan.highW === null ? null : `${number(power(plan.lowW))} to ${number(power(plan.highW))}`;
    const asked = plan.targetW === null ? "" : band === null ? power(plan.targetW) : `${power(plan.targetW)} (${band})`;
    const heart =
      plan.heartLowBpm === null || plan.heartHighBpm === null
        ? ""
        : `${whole(plan.heartLowBpm)} to ${whole(plan.heartHighBpm)}`;
    const { shares, pressed, meanW, meanBpm, meanRpm, mainS, longestUnbrokenS } = facts.facts;
    const row = (label: string, value: number | null, asked = ""): { label: string; plan: string; ride: string }[] =>
      value === null ? [] : [{ label, plan: asked, ride: whole(value) }];
    const off = shares?.offPercent ?? pressed?.offPercent ?? null;
    const unknown = shares?.unknownPercent ?? pressed?.unknownPercent ?? 0;
    return [
      ...(mainS < 1 ? [] : [{ label: "Main part", plan: "", ride: length(mainS) }]),
      ...(meanW === null ? [] : [{ label: "Power, mean", plan: asked, ride: power(meanW) }]),
      ...(shares === null
        ? []
        : [
            {
              label: facts.facts.judgedBy === "heart" ? "In the heart range" : "At the plan",
              plan: "",
              ride: percent(shares.inPercent),
            },
            { label: "Below it", plan: "", ride: percent(shares.belowPercent) },
            { label: "Above it", plan: "", ride: percent(shares.abovePercent) },
          ]),
      ...(pressed === null ? [] : [{ label: "No pressure on the pedals", plan: "", ride: percent(off) }]),
      ...(unknown === 0 ? [] : [{ label: "Not known", plan: "", ride: percent(unknown) }]),
      ...(longestUnbrokenS === null
        ? []
        : [{ label: "Longest time with pressure", plan: "", ride: length(longestUnbrokenS) }]),
      ...row("Heart rate, mean", meanBpm, heart),
      ...row("Cadence, mean", meanRpm),
      {
        label: "Whole ride",
        plan: "",
        ride:
          facts.distanceM === null
            ? length(facts.elapsedS)
            : `${length(facts.elapsedS)}, ${distance.figure} ${distance.unit}`,
      },
    ];
  },
  setByCoach: `set by ${who("your", "the")} coach`,
  blocks: "The blocks",
  blockColumns: ["", "Plan", who("You rode", "Ridden"), "At the plan", "Second half", "Done"],
  blockRow: (block) => [
    `${block.kind === "effort" ? "Effort" : "Steady"}, ${clockText(block.startS)}, ${length(block.endS - block.startS)}`,
    block.targetW === null ? "–" : power(block.targetW),
    block.meanW === null ? "–" : power(block.meanW),
    percent(block.inPercent),
    block.halvesStepW === null
      ? "–"
      : block.halvesStepW === 0
        ? "the same"
        : `${power(Math.abs(block.halvesStepW))} ${block.halvesStepW > 0 ? "more" : "less"}`,
    block.done === null ? "can't tell" : block.done ? "yes" : "no",
  ],
  powerAxis: (asPercent) => (asPercent ? "power (% of plan)" : "power (W)"),
  heartAxis: "heart rate (beats a minute)",
  timeAxis: "ride time (h:mm)",
  bandKey: "planned power",
  mainPartKey: "main part",
  firstKey: "early",
  lastKey: "late",
  onsetKey: "begins to climb",
  chartAlt: (heart, facts) =>
    [
      `Chart of ${facts.hasPower && facts.hasHeart ? "power and heart rate" : facts.hasPower ? "power" : "heart rate"} over ride time.`,
      facts.facts.meanW === null ? "" : `Power in the main part was ${power(facts.facts.meanW)} on average.`,
      heart.firstBpm === null || heart.lastBpm === null
        ? ""
        : `Heart rate was ${whole(heart.firstBpm)} early on and ${whole(heart.lastBpm)} at the end.`,
    ]
      .filter((text) => text !== "")
      .join(" "),
  heart: (heart, drift) => heartSentences(heart, drift, power, who),
  moments: "Moments to look at",
  stillAlt: (name, startS) => `Picture from the ride at ${clockText(startS)}: ${name}`,
  momentHeading: (name, startS, about) => `${name}, at ${about ? `about ${aboutText(startS)}` : clockText(startS)}`,
  momentSentence: (caption) => caption.map((line) => (/[.?!]$/.test(line) ? line : `${line}.`)).join(" "),
  event: who("Your event", "The event"),
  eventLines: (event, { hasHeart, hasPower }) => [
    `${event.name ?? "The event"} takes about ${length(event.eventS)}.`,
    (hasHeart
      ? `Rule of thumb: a level heart rate${hasPower ? " at the planned power" : ""} for ${length(event.leastS)}, better ${length(event.aimS)}. `
      : `Rule of thumb: ${length(event.leastS)} at the planned power, better ${length(event.aimS)}. `) +
      who("You get there in small steps, over weeks.", "That is reached in small steps, over weeks."),
  ],
  weeksIntro: "The way there, a step a week, if all goes well:",
  weekLine: ({ mondayUtcMs, askS }) => `Week of ${rideDateText(mondayUtcMs, null, "en")}: ${length(askS)}`,
  eventKeys: { event: "the event", least: "at least", aim: "better", held: "this ride" },
  heldText: (lowS, highS) =>
    lowS === null
      ? "this ride cannot tell"
      : highS === null
        ? `at least ${aboutText(lowS)}`
        : highS === 0
          ? "not yet, it rose from the start"
          : `${aboutText(lowS)} to ${aboutText(highS)}`,
  notes: "From your coach",
  questions: "Questions to you",
  lessonQuestion: "What would you tell this rider?",
  makeQuestions: (story, moments, heart, known) => {
    const asked = (one: MomentFacts): boolean =>
      story.facts.askable.some(({ startS, endS }) => startS < one.endS && endS > one.startS);
    const gone = moments.find((one) => one.kind === "lapse" && !one.setByCoach && asked(one));
    const hard = moments.find((one) => one.kind === "surge" || one.kind === "riseThenOff");
    if (story.next.kind === "rest")
      return [
        "How are you now?",
        {
          ...{ doctor: DOCTOR, well: DOCTOR, health: DOCTOR },
          sleep: "Have you caught up on sleep since?",
          food: "What did you eat and drink before the ride and on it?",
          "sleep and food": "Have you slept, eaten and drunk enough since?",
          note: "Will you tell me more about what you wrote?",
        }[firstOf(story.next.topics)],
      ];
    return [
      ...(gone?.offS === undefined || gone.offS === null
        ? []
        : [`What happened at ${clockText(gone.startS)}, when there was no pressure for ${length(gone.offS)}?`]),
      ...(hard === undefined || story.doubt !== null
        ? []
        : [`How did it feel at ${clockText(hard.startS)}, where you pushed hard?`]),
      ...(known.day ? [] : ["How was the day: heat, sleep, food and drink?"]),
      ...(heart.verdict === "began" ? [`How did your legs feel after ${aboutText(heart.onsetS)}?`] : []),
      ...(story.teaching === "nothing" && story.next.kind === "longer" ? ["Could you have ridden on like this?"] : []),
    ].slice(0, 3);
  },
  cautionsTitle: "Good to know",
  cautions: [
    "This is for training review only. It is not medical advice, and sports sensors can be wrong.",
    "Stop and call for help (112, 911 or 999) if you have chest pain, feel faint, cannot catch your breath, or your heart races.",
    "A heart rate far above what you know, or one that jumps, is most often the sensor. If you feel it, or it comes back, stop and ask a doctor.",
    "See a doctor before hard training if you have heart trouble, or if your family has. Some medicines keep " +
      "the heart rate low: these numbers then mean little.",
    "On a hot day, ease off and drink to thirst. If someone overheats, stop, cool the whole body at once and call for help.",
    "Brake, coast and stop whenever the road asks. That is never a fault. Watch the road, not the numbers, " +
      "and touch neither camera nor bike computer while you move. Local law decides what is allowed.",
  ],
  footer: `Made on ${who("your", "the")} coach's own computer from ${who("your", "the")} ride file. Every number comes from that file.`,
  message: (facts) => [
    `${facts.rider === null ? "Hello" : `Hello ${facts.rider}`}, here is the film of ` +
      `${facts.title === null ? who("your ride", "a ride") : `"${facts.title}"`} (${facts.filmLength}).`,
    facts.lines[0],
    facts.lines[1],
    facts.lines[2],
    facts.question ?? "Tell me how it felt.",
  ],
});
