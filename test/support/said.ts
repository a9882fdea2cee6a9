import type { FailureNotice, Notice } from "../../main/contract/notice.ts";
import { failureText, noticeTexts, type FailureText } from "../../overlay/words/notices/noticeText.ts";

/** What the command line says in English of a list of warnings. */
export function said(notices: readonly Notice[]): string[] {
  return noticeTexts(notices, "en", "command");
}

/** What the command line says in English of a failure, thrown or as data; anything else is thrown again. */
export function failureSaid(failure: unknown): FailureText {
  if (typeof failure !== "object" || failure === null || !("notice" in failure)) throw failure;
  return failureText(failure.notice as FailureNotice, "en", "command");
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
