import { Failure, firstLineOf, type FailureData } from "../../contract/failure.ts";
import type { FailureNotice } from "../../contract/notice.ts";
import { logFailure } from "../../host/log.edge.ts";
import { kindOf } from "../../contract/failureKinds.ts";

/** Any error as the plain data that crosses to the window: never a stack. The log has that. */
export function failureData(error: unknown): FailureData {
  const notice = noticeOf(error);
  return { code: kindOf(notice), notice, causes: [] };
}

/** What went wrong, as a notice; of an error that is no Failure of ours its first line. It is written into the log. */
export function noticeOf(error: unknown): FailureNotice {
  logFailure(error);
  return error instanceof Failure ? error.notice : internalNotice(error);
}

function internalNotice(error: unknown): FailureNotice {
  return { code: "internal", facts: { said: firstLineOf(error) } };
}
