import type { FailureData } from "../../main/contract/failure.ts";
import { common } from "../words/common.ts";

/** What a rejected call says, as a sentence and a remedy; anything else is told as a fault of the program. */
export function failureOf(error: unknown): FailureData {
  if (typeof error === "object" && error !== null && "sentence" in error && "remedy" in error)
    return error as FailureData;
  return {
    code: "internal",
    sentence: common.unexpected,
    remedy: error instanceof Error ? error.message : String(error),
  };
}
