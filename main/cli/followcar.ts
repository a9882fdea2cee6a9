// The command line: picks the verb, parses its options, prints, and sets the exit code. What a verb does stands in
// verbs/; the order of the steps stands in journey/.
import { realpathSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { Failure } from "../contract/failure.ts";
import { ExitCode, exitCodeOf } from "./exitCode.ts";
import { overallHelp } from "./help.ts";
import { ProgressLine } from "./progressLine.ts";
import type { Verb } from "./verb.ts";
import { verbs } from "./verbs/verbs.ts";
import { Cancelled } from "../contract/job.ts";
import { failureText, noticeTexts } from "../../overlay/words/notices/noticeText.ts";

/** Runs one command line and gives its exit code; never throws. */
export async function followcar(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    process.stdout.write(`${overallHelp(await Promise.all(Object.values(verbs).map((load) => load())))}\n`);
    return name === undefined ? ExitCode.usage : ExitCode.done;
  }
  if (!Object.hasOwn(verbs, name)) {
    return complain(
      new Failure("usage", `There is no verb "${name}".`, `Verbs: ${Object.keys(verbs).join(", ")}.`),
      false,
    );
  }
  const progress = new ProgressLine(process.stderr);
  const abort = new AbortController();
  const onInterrupt = () => {
    if (abort.signal.aborted) process.exit(ExitCode.interrupted);
    abort.abort();
  };
  process.on("SIGINT", onInterrupt);
  process.on("SIGTERM", onInterrupt);
  try {
    return await runVerb(await verbs[name](), rest, abort.signal, progress);
  } catch (error) {
    progress.end();
    if (error instanceof Cancelled || abort.signal.aborted) {
      process.stderr.write("Stopped. Nothing half-written was left behind.\n");
      return ExitCode.interrupted;
    }
    return complain(error, rest.includes("--json"));
  } finally {
    process.off("SIGINT", onInterrupt);
    process.off("SIGTERM", onInterrupt);
  }
}

async function runVerb(
  verb: Verb,
  args: readonly string[],
  signal: AbortSignal,
  progress: ProgressLine,
): Promise<number> {
  const { positionals, values } = parseOptions(verb, args);
  if (values.help) {
    process.stdout.write(`${verb.help}\n`);
    return ExitCode.done;
  }
  const outcome = await verb.run(positionals, values, { signal, report: (event) => progress.show(event) });
  progress.end();
  for (const warning of noticeTexts(outcome.warnings, "en", "command")) process.stderr.write(`note: ${warning}\n`);
  if (outcome.doubt) {
    const { sentence, remedy } = failureText(outcome.doubt.notice, "en", "command");
    process.stderr.write(`note: ${sentence} ${remedy}\n`);
  }
  process.stdout.write(
    values.json ? `${JSON.stringify(outcome.json, null, 1)}\n` : outcome.lines.map((line) => `${line}\n`).join(""),
  );
  return outcome.exitCode ?? ExitCode.done;
}

function parseOptions(verb: Verb, args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { ...verb.options, json: { type: "boolean" }, help: { type: "boolean", short: "h" } },
    });
  } catch (error) {
    const why = error instanceof Error ? error.message.split("\n")[0] : String(error);
    const remedy = why?.includes("ambiguous")
      ? "Give a value that begins with a dash as --option=VALUE, and files after a lone --."
      : `See: followcar ${verb.name} --help.`;
    throw new Failure("usage", `${why}.`.replace("..", "."), remedy);
  }
}

function complain(error: unknown, json: boolean): number {
  const failure =
    error instanceof Failure
      ? error
      : new Failure(
          "internal",
          `Something went wrong inside Followcar: ${error instanceof Error ? error.message : String(error)}.`,
          "Run again with FOLLOWCAR_DEBUG=1 and report what it prints.",
          error,
        );
  process.stderr.write(`followcar: ${failure.sentence}\n           ${failure.remedy}\n`);
  if (process.env.FOLLOWCAR_DEBUG)
    process.stderr.write(`${failure.stack ?? ""}\n${failure.cause instanceof Error ? failure.cause.stack : ""}\n`);
  if (json) {
    const { code, sentence, remedy } = failure;
    process.stdout.write(`${JSON.stringify({ failure: { code, sentence, remedy } }, null, 1)}\n`);
  }
  return exitCodeOf(failure.code);
}

if (process.argv[1] && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) {
  process.exitCode = await followcar(process.argv.slice(2));
}
