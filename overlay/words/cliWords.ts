import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { LineupVerdict } from "../../main/contract/lineup.ts";
import type { SaidWords } from "../../main/contract/saidWords.ts";
import { cliDe } from "./cliDe.ts";
import { cliEn } from "./cliEn.ts";

/** What the command line says of its own, beside notices, readings and line-ups. */
export interface CliWords {
  /** Stands before every warning. */
  readonly note: string;
  readonly stopped: string;
  aboutLeft(length: string): string;
  readonly written: string;
  /** What to do with a new plan and its page. `plan`: as it can be typed. */
  planNext(plan: string, sheetPath: string, hasTarget: boolean): readonly string[];
  readonly whyInFilm: string;
  leftOut(what: string): string;
  watch(path: string): string;
  /** One ride of a batch: what became of it, where it lies, and why not. */
  readonly batch: Readonly<Record<"prepared" | "there already" | "failed", string>>;
  inFolder(ride: string, folder: string): string;
  squad(path: string): string;
  /** Behind a break that was judged. */
  readonly excused: string;
  readonly lapse: string;
  readonly said: Readonly<Record<SaidWords["lines"][number]["what"], string>>;
  readonly by: Readonly<Record<SaidWords["lines"][number]["by"], string>>;
  readonly message: string;
  /** Last line after a change. `files`: their names; `command`: what makes them anew. */
  notYetIn(files: string, command: string): string;
  /** A clip's place. `at`: clock text of the ride, null: nowhere. `aboutS`: standard error, s, or null. */
  clipAt(clip: string, at: string | null, verdict: string, aboutS: number | null): string;
  readonly verdicts: Readonly<Record<LineupVerdict, string>>;
  /** Another ride beside the shown one: how far off, and how sure. */
  rideOff(file: string, offS: number, aboutS: number | null): string;
  readonly noFrame: string;
  readonly sharpFrames: string;
  readonly signalsKept: string;
  signalsTook(seconds: number, readMb: number, ofMb: number): string;
  athleteFiles(name: string, count: number): string;
  readonly elsewhere: string;
  readonly others: string;
  typeName(name: string): string;
  deleted(count: number, name: string): string;
  notDeleted(path: string): string;
  opensIn(program: string): string;
}

/** The words of the command line in one language. */
export function cliWords(language: Language): CliWords {
  return language === "de" ? cliDe : cliEn;
}
