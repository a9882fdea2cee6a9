import { Failure, type FailureData } from "../../contract/failure.ts";
import { failureText } from "../../../overlay/words/notices/noticeText.ts";
import type { FailureNotice } from "../../contract/notice.ts";

/** Any error as the plain data that crosses to the window: never a stack. */
export function failureData(error: unknown): FailureData {
  if (error instanceof Failure) {
    return { code: error.code, ...failureText(error.notice, "en", "window") };
  }
  return { code: "internal", ...failureText(internalNotice(error), "en", "window") };
}

/** What went wrong, as a notice; of an error that is no Failure of ours its first line. */
export function noticeOf(error: unknown): FailureNotice {
  return error instanceof Failure ? error.notice : internalNotice(error);
}

function internalNotice(error: unknown): FailureNotice {
  const [said = ""] = (error instanceof Error ? error.message : String(error)).split("\n");
  return { code: "internal", facts: { said } };
}
