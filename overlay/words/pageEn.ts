import { aboutText } from "./aboutText.ts";
import { clockText, distanceText, durationText as length, wholeText as whole } from "./numbers.ts";
import type { HeartFacts, PagePhrases, PowerText } from "./debriefPhrases.ts";
import { harderAtTheEndW, heartStory, type HeartStory } from "./heartStory.ts";
import { shownRise } from "./reading/shownRise.ts";

const percent = (value: number | null): string => (value === null ? "–" : `${whole(value)} %`);
/** Without its unit. */
const number = (text: string): string => text.replace(/ \S+$/, "");
const beats = (value: number): string =>
  `${whole(Math.abs(value))} ${Math.abs(Math.round(value)) === 1 ? "beat" : "beats"}`;
const change = (value: number): string =>
  Math.round(value) === 0 ? "the same" : `${beats(value)} ${value > 0 ? "more" : "less"}`;

const CLIMB: Record<Exclude<HeartStory, "began">, string> = {
  "start unclear": "It did climb, but this ride cannot show when that began.",
  "rose from the start": "It rose slowly from the start. Many riders see that.",
  unsteady: "In between there is no steady climb.",
  "within noise": "One ride cannot tell that from no change.",
  level: "So it stayed level to the end.",
  "no start": "There is too little data to say when it began to climb.",
  "no data": "There is too little data to say if it climbed.",
};

function climb(heart: HeartFacts): string {
  const story = heartStory(heart);
  return story === "began"
    ? `It began to climb at about ${aboutText(heart.onsetS)}, some time between ${aboutText(heart.onsetLowS)} and ${aboutText(heart.onsetHighS)}.`
    : CLIMB[story];
}

function heartSentences(heart: HeartFacts, power: PowerText): string[] {
  const { driftBeats, uncertaintyBeats } = heart;
  const rise = shownRise(heart.firstBpm, heart.lastBpm);
  if (rise === null) return [climb(heart)];
  const sure = uncertaintyBeats === null ? "" : `, give or take ${beats(Math.max(1, uncertaintyBeats))}`;
  const harderW = harderAtTheEndW(heart);
  const why =
    harderW === null || harderW === 0
      ? ""
      : `: at the end you pushed ${power(Math.abs(harderW))} ${harderW > 0 ? "harder" : "less"}`;
  const same =
    driftBeats === null
      ? []
      : heart.correctedForPower
        ? [`At the same power it would be ${change(driftBeats)}${sure}${why}.`]
        : ["The file has no power, so easier or harder riding is in that number too."];
  return [
    `Your heart rate was ${whole(heart.firstBpm)} early on and ${whole(heart.lastBpm)} at the end: ${change(rise.beats)}.`,
    ...same,
    climb(heart),
  ];
}

/** English page and message. */
export const pageEn = (power: PowerText): PagePhrases => ({
  three: "In three lines",
  wentWell: "What went well",
  toChange: "What to change",
  nextRide: "The next ride",
  planAndRide: "The plan and the ride",
  columns: ["", "Plan", "You rode"],
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
    return [
      { label: "Main part", plan: "", ride: `${length(plan.countedEndS - plan.countedStartS)}` },
      ...(facts.meanW === null ? [] : [{ label: "Power, mean", plan: asked, ride: power(facts.meanW) }]),
      ...(facts.inBandPercent === null
        ? []
        : [
            { label: "At the plan", plan: "", ride: percent(facts.inBandPercent) },
            { label: "Below it", plan: "", ride: percent(facts.belowPercent) },
            { label: "Above it", plan: "", ride: percent(facts.abovePercent) },
          ]),
      ...(facts.offPercent === null
        ? []
        : [{ label: "No pressure on the pedals", plan: "", ride: percent(facts.offPercent) }]),
      ...(facts.longestUnbrokenS === null
        ? []
        : [{ label: "Longest time with pressure", plan: "", ride: length(facts.longestUnbrokenS) }]),
      ...(facts.meanBpm === null ? [] : [{ label: "Heart rate, mean", plan: heart, ride: whole(facts.meanBpm) }]),
      ...(facts.meanRpm === null ? [] : [{ label: "Cadence, mean", plan: "", ride: whole(facts.meanRpm) }]),
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
  setByCoach: "set by your coach",
  chart: "Power and heart rate",
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
      "Chart of power and heart rate over ride time.",
      facts.meanW === null ? "" : `Power in the main part was ${power(facts.meanW)} on average.`,
      heart.firstBpm === null || heart.lastBpm === null
        ? ""
        : `Heart rate was ${whole(heart.firstBpm)} early on and ${whole(heart.lastBpm)} at the end.`,
    ]
      .filter((text) => text !== "")
      .join(" "),
  heart: (heart) => heartSentences(heart, power),
  moments: "Moments to look at",
  stillAlt: (name, startS) => `Picture from the ride at ${clockText(startS)}: ${name}`,
  momentHeading: (name, startS, about) => `${name}, at ${about ? `about ${aboutText(startS)}` : clockText(startS)}`,
  momentSentence: (caption) => caption.map((line) => (/[.?!]$/.test(line) ? line : `${line}.`)).join(" "),
  event: "Your event",
  eventLines: (event) => [
    `${event.name ?? "The event"} takes about ${length(event.eventS)}.`,
    `Rule of thumb: heart rate level at the planned power for ${length(event.leastS)}, better ${length(event.aimS)}. More than that brings little.`,
  ],
  eventKeys: { event: "the event", least: "at least", aim: "better", held: "this ride" },
  heldText: (lowS, highS) =>
    lowS === null
      ? "this ride cannot tell"
      : highS === null
        ? `at least ${aboutText(lowS)}`
        : highS === 0
          ? "not yet: it rose from the start"
          : `${aboutText(lowS)} to ${aboutText(highS)}`,
  notes: "From your coach",
  questions: "Questions to you",
  lessonQuestion: "What would you tell this rider?",
  makeQuestions: (story, moments, heart, known) => {
    const gone = moments.find((one) => one.kind === "lapse" && !one.setByCoach);
    const hard = moments.find((one) => one.kind === "surge" || one.kind === "hardUpCoastOver");
    return [
      ...(gone === undefined
        ? []
        : [
            `What happened at ${clockText(gone.startS)}, when there was no pressure for ${length(gone.endS - gone.startS)}?`,
          ]),
      ...(hard === undefined ? [] : [`Did you notice at ${clockText(hard.startS)} how hard you pushed?`]),
      ...(known.day ? [] : ["How was the day: heat, sleep, food and drink?"]),
      ...(heart.verdict === "began" ? [`How did your legs feel after ${aboutText(heart.onsetS)}?`] : []),
      ...(story.teaching === "nothing" ? ["Could you have ridden on like this?"] : []),
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
      "and touch no camera while you ride. Local law decides what is allowed.",
  ],
  footer: "Made on your coach's own computer from your ride file. Every number comes from that file.",
  message: (facts) => [
    `${facts.rider === null ? "Hello" : `Hello ${facts.rider}`}, here is the film of ` +
      `${facts.title === null ? "your ride" : `"${facts.title}"`} (${facts.filmLength}).`,
    facts.lines[0],
    facts.lines[1],
    facts.lines[2],
    facts.question ?? "Tell me how it felt.",
  ],
});
