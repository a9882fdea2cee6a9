import { Failure, type FailureData } from "../../contract/failure.ts";
import { windowWords } from "./windowWords.ts";
import { failureText } from "../../../overlay/words/notices/noticeText.ts";

/** Any error as the plain data that crosses to the window: never a stack. */
export function failureData(error: unknown): FailureData {
  if (error instanceof Failure) {
    const { sentence, remedy } = failureText(error.notice, "en", "window");
    return { code: error.code, sentence: windowWords(sentence), remedy: windowWords(remedy) };
  }
  const [why] = (error instanceof Error ? error.message : String(error)).split("\n");
  return {
    code: "internal",
    sentence: `Something went wrong inside Followcar: ${why}.`,
    remedy: "Try again; if it stays, report it with the line above.",
  };
}
