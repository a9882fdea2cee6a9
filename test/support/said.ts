import { Failure } from "../../main/contract/failure.ts";
import type { Notice } from "../../main/contract/notice.ts";
import { failureText, noticeTexts, type FailureText } from "../../overlay/words/notices/noticeText.ts";

/** What the command line says in English of a list of warnings. */
export function said(notices: readonly Notice[]): string[] {
  return noticeTexts(notices, "en", "command");
}

/** What the command line says in English of a failure; anything else that was thrown is thrown again. */
export function failureSaid(error: unknown): FailureText {
  if (!(error instanceof Failure)) throw error;
  return failureText(error.notice, "en", "command");
}

/** What the command line says in English, sentence and remedy, of the failure that a call throws. */
export function refused(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    return Object.values(failureSaid(error)).join(" ");
  }
  throw new Error("nothing was refused");
}

/** As `refused`, of a promise that is rejected. */
export async function rejected(running: Promise<unknown>): Promise<string> {
  try {
    await running;
  } catch (error) {
    return Object.values(failureSaid(error)).join(" ");
  }
  throw new Error("nothing was refused");
}
