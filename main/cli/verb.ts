import type { Failure } from "../contract/failure.ts";
import type { ParseArgsConfig } from "node:util";
import type { JobContext } from "../contract/job.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import type { Notice } from "../contract/notice.ts";

/** What a verb hands back: the object for `--json`, the lines for a person, and the exit code. */
export interface VerbOutcome {
  readonly json: unknown;
  readonly lines: readonly string[];
  readonly warnings: readonly Notice[];
  /** What stays open although all was done: said with its remedy. */
  readonly doubt?: Failure | null;
  /** 0 unless the verb ends in a documented way other than done. */
  readonly exitCode?: number;
}

/** What a verb is given beside its command line. */
export interface VerbContext extends JobContext {
  /** Of everything that it says. */
  readonly language: Language;
}

export type OptionValues = Readonly<Record<string, string | boolean | (string | boolean)[] | undefined>>;

/** One verb of the command line. */
export interface Verb {
  readonly name: string;
  /** One line for the list of verbs. */
  readonly summary: string;
  /** The whole of `followcar VERB --help`: usage, options, an example, what is written. */
  readonly help: string;
  readonly options: NonNullable<ParseArgsConfig["options"]>;
  run(positionals: readonly string[], values: OptionValues, context: VerbContext): Promise<VerbOutcome>;
}
