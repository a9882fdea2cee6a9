import { stat } from "node:fs/promises";
import { Failure } from "../contract/failure.ts";
import type { Tools } from "../contract/tools.ts";
import { ffmpegQuestion } from "./ffmpegArguments.edge.ts";
import { runProgram } from "./program.edge.ts";

type Question = Parameters<typeof ffmpegQuestion>[0];

/** What a program answered as long as its file was the one of this mark. */
interface Known {
  readonly mark: string;
  readonly answers: Map<Question, Promise<string>>;
}

/** A question is answered in a fraction of a second; on a machine that is busy with other work that may last. */
const LIMIT_S = 120;
/** One that for so long neither speaks nor works has hung. */
const HUNG_AFTER_S = 20;
const known = new Map<string, Known>();

/** Tells a program's file from one that took its place; null where it can't be looked at, so that nothing is known of it. */
async function markOf(ffmpeg: string): Promise<string | null> {
  const facts = await stat(ffmpeg).catch(() => null);
  return facts === null ? null : [facts.size, facts.mtimeMs, facts.ino].join(" ");
}

/** What ffmpeg answers to a short question, asked once of each program as long as its file stays the same. @throws Failure tool-missing, tool-failed */
async function askFfmpeg(ffmpeg: string, question: Question): Promise<string> {
  const mark = await markOf(ffmpeg);
  if (mark === null) return answerOf(ffmpeg, question);
  let here = known.get(ffmpeg);
  if (here?.mark !== mark) known.set(ffmpeg, (here = { mark, answers: new Map() }));
  const { answers } = here;
  const before = answers.get(question);
  if (before) return before;
  const answer = answerOf(ffmpeg, question);
  answers.set(question, answer);
  answer.catch(() => answers.delete(question));
  return answer;
}

async function answerOf(ffmpeg: string, question: Question): Promise<string> {
  const run = { program: ffmpeg, args: ffmpegQuestion(question), hungAfterS: HUNG_AFTER_S, limitS: LIMIT_S };
  const { code, trouble, notStarted, stdout, stderr } = await runProgram(run);
  if (trouble === "not started") {
    throw new Failure("tool-not-started", { tool: "ffmpeg", program: ffmpeg }, notStarted);
  }
  if (code !== 0) throw new Failure("ffmpeg-no-answer", { ffmpeg }, new Error(stderr));
  return stdout.toString("utf8");
}

/** Its version as it says it, e.g. `5.1.9-0+deb12u1`. */
export async function ffmpegVersion(tools: Tools): Promise<string> {
  const answer = await askFfmpeg(tools.ffmpeg, "-version");
  return /^ffmpeg version (\S+)/m.exec(answer)?.[1] ?? "unknown";
}

/** Those of the filters that this ffmpeg does not have. */
export async function missingFilters(tools: Tools, filters: readonly string[]): Promise<string[]> {
  const answer = await askFfmpeg(tools.ffmpeg, "-filters");
  return filters.filter((filter) => !new RegExp(`^\\s*\\S+\\s+${filter}\\s`, "m").test(answer));
}

/** Whether this ffmpeg was built with an encoder. */
export async function hasEncoder(tools: Tools, encoder: string): Promise<boolean> {
  const answer = await askFfmpeg(tools.ffmpeg, "-encoders");
  return new RegExp(`^\\s*\\S+\\s+${encoder}\\s`, "m").test(answer);
}
