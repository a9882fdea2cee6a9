import { failureText } from "../../overlay/words/notices/noticeText.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";
import { failureOf } from "../desk/failureOf.ts";

/** What a call that failed says, with what to do. */
export function faultText(error: unknown): string {
  return Object.values(failureText(failureOf(error).notice, WINDOW_LANGUAGE, "window")).join(" ");
}
