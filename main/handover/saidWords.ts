import type { CoachWords } from "../contract/debrief.ts";
import type { SaidLine, SaidWords } from "../contract/saidWords.ts";
import type { HandoverData } from "./handoverData.ts";
import { handoverWords, questionsFor, threeLines } from "./handoverLines.ts";
import { message } from "./message.ts";

/**
 * All that a debrief says in words, each line with what the program would say in its place.
 * @param own the coach's words; a lesson has none of them
 */
export function saidWords(data: HandoverData, own: CoachWords): SaidWords {
  const words = handoverWords(data);
  const lesson = data.forWhom === "lesson";
  const [held, change, next] = threeLines(data, words);
  const bare = { ...data, questions: null, story: { ...data.story, words: { held: null, change: null, next: null } } };
  const made = threeLines(bare, words);
  const line = (what: SaidLine["what"], text: string, instead: string): SaidLine => ({
    what,
    text,
    by: !lesson && own[what] !== null ? "yours" : "made",
    made: instead,
  });
  return {
    lines: [
      line("held", held, made[0]),
      line("change", change, made[1]),
      line("next", next, made[2]),
      line("notes", lesson ? "" : (data.notes ?? ""), ""),
      line("questions", questionsFor(data, words).join("\n"), questionsFor(bare, words).join("\n")),
    ],
    message: message(data),
  };
}
