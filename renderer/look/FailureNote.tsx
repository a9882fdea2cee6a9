import type { FailureData } from "../../main/contract/failure.ts";
import { failureText } from "../../overlay/words/notices/noticeText.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

/** What went wrong, in one sentence, and what to do. */
export function FailureNote({ failure }: { readonly failure: FailureData }) {
  const { sentence, remedy } = failureText(failure.notice, WINDOW_LANGUAGE, "window");
  return (
    <div className="note wrong" role="alert">
      <p>
        <b>{sentence}</b> {remedy}
      </p>
    </div>
  );
}
