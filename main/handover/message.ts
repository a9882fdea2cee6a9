import { durationText } from "../../overlay/words/numbers.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { type HandoverData, handoverTitle } from "./handoverData.ts";
import { handoverWords, questionsFor, threeLines, wentWell } from "./handoverLines.ts";

/** The five lines that go with the film: greeting, what went well, what to change, the next ride, one question. */
export function message(data: HandoverData): string {
  const words = handoverWords(data);
  const title = handoverTitle(data, words);
  const [, change, next] = threeLines(data, words);
  const lines = words.page.message({
    rider: data.forWhom === "lesson" ? null : data.plan.rider,
    title: title === words.film.titleFallback ? null : title,
    filmLength: durationText(filmClock(data.film).lengthS),
    lines: [wentWell(data, words), change, next],
    question: data.forWhom === "lesson" ? words.page.lessonQuestion : (questionsFor(data, words)[0] ?? null),
  });
  return lines.map((line) => `${line.replaceAll(/\s+/g, " ").trim()}\n`).join("");
}
