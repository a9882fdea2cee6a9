// The command line: picks the verb, parses its options, prints, and sets the exit code. What a verb does stands in
// verbs/; the order of the steps stands in journey/.
import { realpathSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { debugText, Failure, firstLineOf } from "../contract/failure.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import { languageOf, parseCommandLine } from "./commandLine.ts";
import { ExitCode, exitCodeOf } from "./exitCode.ts";
import { overallHelp } from "./help.ts";
import { plainText } from "./plainText.ts";
import { ProgressLine } from "./progressLine.ts";
import type { Verb, VerbContext } from "./verb.ts";
import { verbs } from "./verbs/verbs.ts";
import { Cancelled } from "../contract/job.ts";
import { cacheFolder } from "../host/cacheFolder.edge.ts";
import { clearLeftBehind } from "../host/leftovers.edge.ts";
import { beginLog, endLog, logEvent, logFailure } from "../host/log.edge.ts";
import { meant } from "./meant.ts";
import { cliWords } from "../../overlay/words/cliWords.ts";
import { failureText, noticeTexts } from "../../overlay/words/notices/noticeText.ts";

/** Runs one command line and gives its exit code; never throws. */
export async function followcar(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    process.stdout.write(`${overallHelp(await Promise.all(Object.values(verbs).map((load) => load())))}\n`);
    return name === undefined ? ExitCode.usage : ExitCode.done;
  }
  const load = Object.hasOwn(verbs, name) ? verbs[name] : undefined;
  if (load === undefined) {
    return complain(
      new Failure("verb-unknown", { verb: name, verbs: Object.keys(verbs), meant: meant(name, Object.keys(verbs)) }),
      languageOf({}, rest),
      rest.includes("--json"),
    );
  }
  const verb = await load();
  const language = languageOf(verb.options, rest);
  const progress = new ProgressLine(process.stderr, language);
  const abort = new AbortController();
  const onInterrupt = () => {
    if (abort.signal.aborted) process.exit(ExitCode.interrupted);
    abort.abort();
  };
  process.on("SIGINT", onInterrupt);
  process.on("SIGTERM", onInterrupt);
  try {
    return await runVerb(verb, rest, { signal: abort.signal, language }, progress);
  } catch (error) {
    progress.end();
    if (error instanceof Cancelled || abort.signal.aborted) {
      process.stderr.write(`${cliWords(language).stopped}\n`);
      return ExitCode.interrupted;
    }
    return complain(error, language, rest.includes("--json"));
  } finally {
    process.off("SIGINT", onInterrupt);
    process.off("SIGTERM", onInterrupt);
    endLog();
  }
}

async function runVerb(
  verb: Verb,
  args: readonly string[],
  context: Omit<VerbContext, "report">,
  progress: ProgressLine,
): Promise<number> {
  const { language } = context;
  const { positionals, values } = parseCommandLine(verb, args);
  if (values.help) {
    process.stdout.write(`${verb.help}\n`);
    return ExitCode.done;
  }
  beginLog(verb.name);
  void clearLeftBehind(cacheFolder());
  const outcome = await verb.run(positionals, values, { ...context, report: (event) => progress.show(event) });
  progress.end();
  for (const { code } of outcome.warnings) logEvent(`note ${code}`);
  const { note } = cliWords(language);
  for (const warning of noticeTexts(outcome.warnings, language, "command"))
    process.stderr.write(plainText(`${note}: ${warning}\n`));
  if (outcome.doubt) {
    const { sentence, remedy } = failureText(outcome.doubt.notice, language, "command");
    process.stderr.write(plainText(`${note}: ${sentence} ${remedy}\n`));
  }
  process.stdout.write(
    values.json
      ? `${JSON.stringify(outcome.json, null, 1)}\n`
      : plainText(outcome.lines.map((line) => `${line}\n`).join("")),
  );
  return outcome.exitCode ?? ExitCode.done;
}

function complain(error: unknown, language: Language, json: boolean): number {
  const failure = error instanceof Failure ? error : new Failure("internal", { said: firstLineOf(error) }, error);
  logFailure(failure);
  const { sentence, remedy } = failureText(failure.notice, language, "command");
  process.stderr.write(plainText(`followcar: ${sentence}\n           ${remedy}\n`));
  if (process.env.FOLLOWCAR_DEBUG) process.stderr.write(plainText(`${debugText(failure)}\n`));
  if (json) {
    const { code, notice } = failure;
    process.stdout.write(`${JSON.stringify({ failure: { code, notice, sentence, remedy } }, null, 1)}\n`);
  }
  return exitCodeOf(failure.code);
}

if (process.argv[1] && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) {
  process.exitCode = await followcar(process.argv.slice(2));
}
