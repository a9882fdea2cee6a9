import type { NoFacts } from "./noFacts.ts";

/** Verbs of the command line that were given other things than they take. */
export type MisusedVerb =
  "athlete" | "compare" | "debrief" | "judge" | "overlay" | "plan" | "read" | "render" | "say" | "still" | "weeks";

export type OptionUnit = "seconds" | "minutes" | "times" | "watts" | "MB" | "times the usual size";

/** What is written into the file of --out. */
export type OutFile = "picture" | "film" | "track";

export interface CliFailures {
  /** `meant`: the one that it looks like. */
  readonly "verb-unknown": { readonly verb: string; readonly verbs: readonly string[]; readonly meant: string | null };
  /** `option`: with its dashes, as it was given; `meant`: the one that it looks like, without. */
  readonly "option-unknown": { readonly verb: string; readonly option: string; readonly meant: string | null };
  readonly "verb-misused": { readonly verb: MisusedVerb };
  /** `option`: with its dashes, as it was given. */
  readonly "option-unclear": {
    readonly verb: string;
    readonly option: string;
    readonly fault: "no value" | "value with a dash" | "takes no value";
  };
  readonly "option-no-number": {
    readonly option: string;
    readonly text: string;
    readonly unit: OptionUnit;
    readonly least: number;
    readonly most: number;
  };
  readonly "option-not-one-of": {
    readonly option: string;
    readonly text: string;
    readonly choices: readonly string[];
  };
  readonly "option-no-time": { readonly option: string; readonly text: string };
  /** `panel`: the name that is not known; empty where there is none between two commas. */
  readonly "option-no-panel": { readonly text: string; readonly panel: string; readonly panels: readonly string[] };
  readonly "out-wrong-ending": {
    readonly fileName: string;
    readonly file: OutFile;
    readonly ending: string;
    readonly better: string;
  };
  readonly "option-idle": { readonly option: string; readonly transparent: boolean };
  readonly "names-not-two": { readonly text: string };
  readonly "option-no-share": { readonly text: string };
  readonly "share-without-batch": NoFacts;
  readonly "break-form": { readonly text: string };
  readonly "break-reason-unknown": {
    readonly text: string;
    readonly reason: string;
    readonly reasons: readonly string[];
  };
  readonly "questions-too-many": NoFacts;
  readonly "made-and-said": { readonly what: string };
  readonly "option-empty": { readonly option: string };
  readonly "as-filmed-and-shape": NoFacts;
  readonly "hand-over-and-out": NoFacts;
  readonly "batch-and-files": NoFacts;
}
