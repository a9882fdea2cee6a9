// A lesson is for others: every sentence of it speaks of the rider, none to the rider. The cautions alone speak to
// whoever reads them.
import { describe, expect, it } from "vitest";
import { HOLD_TOPICS } from "../../../main/contract/debriefFacts.ts";
import { LANGUAGES } from "../../../main/contract/languageAndUnits.ts";
import { cardWords } from "../../../main/film/cardWords.ts";
import { message } from "../../../main/handover/message.ts";
import { pageHtml } from "../../../main/handover/pageHtml.tsx";
import { debriefWords } from "../../../overlay/words/debriefWords.ts";
import { type DebriefStory, type Held, type NextStep, storyForLesson } from "../../../overlay/words/debriefStory.ts";
import type { MomentFacts } from "../../../overlay/words/debriefPhrases.ts";
import { madePlan, madeReading, madeRide, madeStory } from "../../film/madeReading.ts";
import { madeHandover } from "../../handover/madeHandover.ts";

/** Words that speak to somebody; German imperatives of the debrief among them. */
const TO_SOMEBODY = {
  en: /\b(you|your|yours|yourself)\b/i,
  de: /\b(du|dich|dir|dein\w*|bist|hast|warst|lagst|fahr|geh|halte|fang|dreh|frag|sprich|sag)\b/i,
} as const;

const ride = madeRide();
const reading = madeReading(ride);
const base = madeStory(ride, madePlan(), reading);
const span = { startS: 600, endS: 1800 };
const held: Held[] = [
  { kind: "blocks", done: 3, of: 4 },
  { kind: "blocks", done: 1, of: 1 },
  { kind: "hour", ...span, percent: 91 },
  { kind: "stretch", ...span },
  { kind: "share", percent: 71 },
  { kind: "rise", ...span, meanW: 240 },
  { kind: "level", forS: 3000 },
  { kind: "cadence", lowRpm: 84, highRpm: 92 },
  { kind: "skill", skill: "drops", done: 4, asked: true },
  { kind: "smooth", lowW: 210, highW: 245 },
  { kind: "unbroken", forS: 2220 },
  { kind: "better", what: "inBand", before: 60, now: 72 },
  { kind: "better", what: "breaks", before: 6, now: 2 },
  { kind: "heat", durationS: 3600 },
  { kind: "back", days: 20, durationS: 3600 },
  { kind: "told" },
  { kind: "ridden", durationS: 3600 },
];
const points = [
  ...(["offOverTop", "rises", "surges", "tooHard", "breaks", "tooEasy"] as const),
  ...(["fade", "cadence", "efforts", "drift", "nothing", "rest"] as const),
];
const nexts: NextStep[] = [
  { kind: "rest", topics: ["illness", "heart"] },
  { kind: "coach", askS: 5400 },
  { kind: "too short" },
  { kind: "no plan" },
  { kind: "not known" },
  { kind: "target", doubt: { by: "power", askedW: 170, riddenW: 107 } },
  { kind: "target", doubt: { by: "heart", lowBpm: 128, highBpm: 140, riddenBpm: 163 } },
  { kind: "longer", askS: 5400, moreS: 900 },
  ...(["change", "far", "can't tell", "rose"] as const).map((because): NextStep => ({
    kind: "same",
    askS: 5400,
    because,
  })),
  { kind: "enough", askS: 5400 },
];
const stories: DebriefStory[] = [
  ...held.map((one): DebriefStory => ({ ...base, held: one })),
  ...points.flatMap((teaching): DebriefStory[] =>
    (["road", "trainer"] as const).flatMap((setting) =>
      [base.onsetS, null].map((onsetS) => ({ ...base, teaching, setting, onsetS, times: 3, lostS: 90, percent: 22 })),
    ),
  ),
  ...nexts.flatMap((next): DebriefStory[] => [
    { ...base, next },
    { ...base, next, teaching: "nothing", event: null },
  ]),
].map((story) => storyForLesson(story, false));

const kinds = [
  ...["steadyStretch", "riseThenOff", "breakRun", "lapse", "surge", "driftOnset", "oddHeart"],
  ...["cadenceBlock", "turn", "marked", "ownMoment", "effortShort", "plainMoment"],
];
const reasons = [
  ...["stopped", "corner", "braking", "steep descent", "slowed, cause not in the data"],
  ...["unexplained", "cannot tell", "planned rest"],
];
const moments: MomentFacts[] = kinds.flatMap((kind) =>
  reasons.map((reason) => ({
    ...{ kind, reason, ...span, setByCoach: false, meanW: 275, whole: true, meanRpm: 70, meanBpm: 150, offS: 12 },
    ...{ breaks: 3, targetW: 230, pauseS: 9, driftBeats: 7, times: 3, rises: 8 },
  })),
);

describe.each(LANGUAGES)("a lesson in %s", (language) => {
  const lesson = debriefWords(language, null, "lesson");
  const athlete = debriefWords(language);

  it("tells every line of the debrief of the rider", () => {
    for (const story of stories)
      for (const line of [lesson.heldLine(story), lesson.changeLine(story), lesson.nextLine(story)])
        expect(line).not.toMatch(TO_SOMEBODY[language]);
    // The check sees what it looks for: the same lines to the athlete speak to somebody.
    const toAthlete = stories.map((story) => athlete.heldLine(story) + athlete.changeLine(story));
    expect(toAthlete.filter((line) => TO_SOMEBODY[language].test(line)).length).toBeGreaterThan(10);
  });

  it("tells the coach in the window of the rider, too, where the note comes first and beside earlier rides", () => {
    const resting = HOLD_TOPICS.map((topic): DebriefStory => ({
      ...base,
      held: { kind: "told" },
      teaching: "rest",
      facts: { ...base.facts, hold: [topic] },
      next: { kind: "rest", topics: [topic] },
    }));
    const told = held.map((one): DebriefStory => ({ ...base, held: one }));
    for (const story of [...resting, ...told])
      for (const line of [lesson.heldLine(story), lesson.changeLine(story), lesson.nextLine(story)])
        expect(line).not.toMatch(TO_SOMEBODY[language]);
  });

  it("names every moment, its reason and the heart so", () => {
    for (const moment of moments)
      for (const line of [...lesson.film.caption(moment), lesson.momentName(moment.kind)])
        expect(line).not.toMatch(TO_SOMEBODY[language]);
    for (const harder of [-20, 0, 20]) {
      const heart = { ...reading.drift, lastPowerW: (reading.drift.firstPowerW ?? 200) + harder };
      const facts = { beats: 7, giveOrTake: 2, canTell: true };
      for (const line of [...lesson.film.heartLines(heart, facts), ...lesson.page.heart(heart, facts)])
        expect(line).not.toMatch(TO_SOMEBODY[language]);
    }
  });

  it("has no word to the rider in message, film and page but the cautions", () => {
    for (const asPercent of [false, true]) {
      const data = madeHandover({ language, forWhom: "lesson", asPercent });
      const film = data.film.items.flatMap((item) =>
        item.type === "shot" ? item.captions.map(({ text }) => text) : [cardWords(item.card)],
      );
      const { cautions, lessonQuestion } = lesson.page;
      const page = pageHtml(data)
        .replace(/<style[\s\S]*?<\/style>/g, "")
        .replace(/<[^>]*>/g, " ")
        .replaceAll("\u00a0", " ");
      const all = [...film, message(data), page].join("\n");
      const bare = [...cautions, lesson.film.closingCaution, lessonQuestion].reduce(
        (rest, one) => rest.replaceAll(one, ""),
        all,
      );
      expect(TO_SOMEBODY[language].exec(bare)?.[0] ?? null, bare).toBeNull();
    }
  });
});
