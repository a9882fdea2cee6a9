import type { FailureData } from "../../main/contract/failure.ts";

/** What a rejected call says, as data; anything else is told as a fault of the program. */
export function failureOf(error: unknown): FailureData {
  if (typeof error === "object" && error !== null && "notice" in error) return error as FailureData;
  const said = error instanceof Error ? error.message : String(error);
  return { code: "internal", notice: { code: "internal", facts: { said } }, causes: [] };
}
