import { againLine } from "../../overlay/words/againWords.ts";
import type { DebriefPhrases } from "../../overlay/words/debriefPhrases.ts";
import { type DebriefStory, storyForLesson } from "../../overlay/words/debriefStory.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { type HandoverData, shownMoments } from "./handoverData.ts";

/** The phrase table of what is handed over: a lesson may say watts as a share of the plan. */
export function handoverWords(data: HandoverData): DebriefPhrases {
  return debriefWords(
    data.language,
    data.forWhom === "lesson" && data.asPercent ? (data.reading.bandW?.target ?? null) : null,
    data.forWhom,
  );
}

/** The story as it is told: a lesson keeps back what says who, and what the rider's note says. */
export function toldStory(data: HandoverData): DebriefStory {
  return data.forWhom === "lesson" ? storyForLesson(data.story, data.asPercent) : data.story;
}

/** The three lines of the debrief: what went well, what to change, the next ride. */
export function threeLines(data: HandoverData, words: DebriefPhrases): [string, string, string] {
  return linesOf(toldStory(data), words);
}

/** The three lines of a story. */
export function linesOf(story: DebriefStory, words: DebriefPhrases): [string, string, string] {
  return [words.heldLine(story), words.changeLine(story), words.nextLine(story)];
}

/** What went well, and this ride beside the last like it and beside an earlier one on the same road, where that can be told. */
export function wentWell(data: HandoverData, words: DebriefPhrases): string {
  const story = toldStory(data);
  const lines = [words.heldLine(story), words.compareLine(story), againLine(story.facts, data.language, data.units)];
  return lines.filter((line) => line !== null).join(" ");
}

/** Up to three questions: the coach's, else made from the ride. */
export function questionsFor(data: HandoverData, words: DebriefPhrases): readonly string[] {
  if (data.forWhom === "lesson") return [];
  if (data.questions !== null) return data.questions.slice(0, 3);
  const shown = shownMoments(data).map((index) => data.momentFacts[index]!);
  const { heat, sleep, foodAndDrink } = data.plan.note;
  return words.page.makeQuestions(data.story, shown, data.reading.drift, {
    day: heat !== null || sleep !== null || foodAndDrink !== null,
  });
}
