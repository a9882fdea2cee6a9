import type { FailureKind } from "../contract/failure.ts";

/** Documented exit codes of the command line (README, "Exit codes"). */
export const ExitCode = { done: 0, failed: 1, usage: 2, inputNotUsable: 3, notSure: 4, interrupted: 130 } as const;

const CODES: Readonly<Record<FailureKind, number>> = {
  usage: ExitCode.usage,
  "file-unreadable": ExitCode.inputNotUsable,
  "ride-not-usable": ExitCode.inputNotUsable,
  "clip-not-usable": ExitCode.inputNotUsable,
  "plan-not-valid": ExitCode.inputNotUsable,
  "anchor-not-valid": ExitCode.inputNotUsable,
  "debrief-not-usable": ExitCode.inputNotUsable,
  "debrief-not-trusted": ExitCode.inputNotUsable,
  "no-overlap": ExitCode.inputNotUsable,
  "lineup-not-sure": ExitCode.notSure,
  "output-not-writable": ExitCode.failed,
  "disk-full": ExitCode.failed,
  "tool-missing": ExitCode.failed,
  "tool-failed": ExitCode.failed,
  "tool-hung": ExitCode.failed,
  internal: ExitCode.failed,
};

/** The exit code for a failure: 2 wrong usage, 3 input not usable, 4 not sure, 1 anything else. */
export function exitCodeOf(code: FailureKind): number {
  return CODES[code];
}
