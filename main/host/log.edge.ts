/**
 * The log: what happened in the last starts, for a person who reports a fault. It goes to nobody by itself, and holds no
 * place, no name and no path: codes, whole numbers and where in our own code; never an error's words, which may quote a file.
 */
import { appendFileSync, mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { totalmem, availableParallelism } from "node:os";
import { basename, join } from "node:path";
import { Failure } from "../contract/failure.ts";
import { programVersion } from "./programVersion.edge.ts";
import { stateFolder } from "./stateFolder.edge.ts";

/** The log of so many starts is kept. */
const KEPT = 10;
const NAME = /^\d{4}-\d\d-\d\dT[\d-]+-\d+\.log$/;
/** A log that grows without end helps nobody. */
const MOST_BYTES = 1_000_000;

/** Where logs lie, one for each start. */
export function logFolder(): string {
  return join(stateFolder(), "log");
}

let open: { readonly path: string; readonly beganMs: number; bytes: number } | null = null;

/**
 * Begins the log of this start, and removes those before the last 10. A log that can't be written is none.
 * @param door what was started: a verb, or the window's shell
 */
export function beginLog(door: string): void {
  if (open !== null) return logEvent(door);
  const now = new Date();
  const path = join(logFolder(), `${now.toISOString().slice(0, 23).replace(/[:.]/g, "-")}-${process.pid}.log`);
  const { version, platform, arch } = process;
  const head = `followcar ${programVersion()} ${door}, ${now.toISOString()}, Node ${version}, ${platform} ${arch}`;
  try {
    mkdirSync(logFolder(), { recursive: true, mode: 0o700 });
    const line = `${head}, ${availableParallelism()} cores, ${Math.round(totalmem() / 2 ** 30)} GB\n`;
    writeFileSync(path, line, { flag: "wx", mode: 0o600 });
    open = { path, beganMs: performance.now(), bytes: line.length };
    for (const name of logsByAge(basename(path)).slice(0, -KEPT)) rmSync(join(logFolder(), name), { force: true });
    process.on("uncaughtExceptionMonitor", logFailure);
  } catch {
    // Nothing of the person's is lost.
  }
}

/** Names of the logs, the oldest first. One that seems later than the newest was begun before the clock was set back. */
function logsByAge(newest: string): string[] {
  const logs = readdirSync(logFolder()).filter((name) => NAME.test(name));
  const later = (name: string): number => (name > newest ? 0 : 1);
  return logs.sort((a, b) => later(a) - later(b) || (a < b ? -1 : 1));
}

/** Ends the log; what is said after it goes nowhere until one is begun. */
export function endLog(): void {
  process.off("uncaughtExceptionMonitor", logFailure);
  open = null;
}

/** Writes down that something happened. @param what words of our own; never a name, path or text of the person's */
export function logEvent(what: string): void {
  if (open === null || open.bytes > MOST_BYTES) return;
  const line = `${((performance.now() - open.beganMs) / 1000).toFixed(3)} ${what}\n`;
  open.bytes += line.length;
  try {
    appendFileSync(open.path, line);
  } catch {
    open = null;
  }
}

/** Writes down what went wrong: codes, whole numbers, and where in our code; of its causes too. */
export function logFailure(error: unknown): void {
  const lines: string[] = [];
  for (let at = error, depth = 0; at !== undefined && depth < 10; depth++) {
    lines.push(...linesOf(at).map((line) => `${"  ".repeat(depth)}${line}`));
    at = at instanceof Error ? at.cause : undefined;
  }
  logEvent(`failed: ${lines.join("\n")}`);
}

function linesOf(error: unknown): string[] {
  if (!(error instanceof Error)) return [typeof error];
  const head =
    error instanceof Failure
      ? `${error.notice.code} (${error.code})${factsOf(error.notice.facts)}`
      : `${plain(error.name)}${systemCode(error)}`;
  return [head, ...saidByTool(error), ...framesOf(error)];
}

/** A word of a program's own: nothing in it can be a person's. */
function plain(word: unknown): string {
  return typeof word === "string" && /^[A-Za-z_]{1,40}$/.test(word) ? word : "Error";
}

function systemCode(error: Error): string {
  const { code, syscall } = error as { readonly code?: unknown; readonly syscall?: unknown };
  const words = [code, syscall].filter((one) => typeof one === "string" && /^[A-Za-z_0-9]{1,40}$/.test(one));
  return words.length === 0 ? "" : ` ${words.join(" ")}`;
}

/** Whole numbers and yes or no; a number with decimals may be a place, and text may be anything. */
function factsOf(facts: object): string {
  const told = Object.entries(facts).filter(
    ([, value]) => typeof value === "boolean" || (Number.isInteger(value) && Math.abs(value as number) < 1e7),
  );
  return told.map(([name, value]) => ` ${name}=${String(value)}`).join("");
}

/** What ffmpeg said of itself, `[part @ 0x…] words`: lines that may name a file or quote a text are left out. */
function saidByTool(error: Error): string[] {
  const said = error instanceof Failure ? (error.notice.facts as { readonly said?: unknown }).said : null;
  if (typeof said !== "string") return [];
  return said.split("\n").flatMap((line) => {
    const [, part, words] = /^\[([\w#:]+)(?: @ 0x[0-9a-f]+)?\] ([A-Za-z][A-Za-z ]{3,80}[.]?)$/.exec(line.trim()) ?? [];
    return part === undefined || /name|title|comment|artist|location/i.test(line) ? [] : [`  [${part}] ${words}`];
  });
}

/** Where it was thrown, by function and file of ours or a package's, without folders. */
function framesOf({ stack = "", message }: Error): string[] {
  return stack
    .replace(message, "")
    .split("\n")
    .flatMap((line) => {
      const [, name, file] =
        /^ +at (?:async )?(?:([\w$.<> [\]]+) \()?(?:.*[\\/])?([\w.-]+\.[cm]?[jt]sx?:\d+:\d+)\)?$/.exec(line) ?? [];
      return file === undefined ? [] : [`  at ${name === undefined ? "" : `${name} `}${file}`];
    })
    .slice(0, 12);
}
