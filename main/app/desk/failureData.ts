import { Failure, firstLineOf, type FailureData } from "../../contract/failure.ts";
import type { FailureNotice } from "../../contract/notice.ts";
import { kindOf } from "../../contract/failureKinds.ts";

/** Any error as the plain data that crosses to the window: never a stack. */
export function failureData(error: unknown): FailureData {
  const notice = noticeOf(error);
  return { code: kindOf(notice), notice, causes: [] };
}

/** What went wrong, as a notice; of an error that is no Failure of ours its first line. */
export function noticeOf(error: unknown): FailureNotice {
  return error instanceof Failure ? error.notice : internalNotice(error);
}

function internalNotice(error: unknown): FailureNotice {
  return { code: "internal", facts: { said: firstLineOf(error) } };
}
